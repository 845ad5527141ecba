//! Slots: plates that splay, and a slitting saw's way in, by hand and against dense samples.

use nalgebra::{Point3, Vector3};
use staywright::machining::{Near, SlotPasses, SlotWay, Standing, Turning, slot_passes, slot_ways};
use staywright::model::shop::{Shop, demo_shop};
use staywright::model::{Bend, Bends, End, Hand, Job, PairName, Slot, Stays};
use staywright::placement::plan;
use staywright::plan::{Cut, CutAt, Plan, SlotCut};
use staywright::procedure::{
    Problem, Quantity, Reading, Scale, Step, StepKind, Task, Tools, Turn, pair_steps,
};
use staywright::units::{Angle, Length};

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

fn at(hand: Hand) -> CutAt {
    CutAt { pair: PairName::Chainstays, hand, at_front: false }
}

fn near(a: f64, b: f64) {
    assert!((a - b).abs() < 1e-9, "{a} {b}");
}

/// Plain tubes side by side along the fixture, 74 mm off the centre plane, slotted from 402 back to 386.
fn parallel(plate_splay: f64) -> Job {
    let mut job = Job::default();
    let side = &mut job.chainstays.right;
    side.front.half_spacing = mm(74.0);
    side.rear.half_spacing = mm(74.0);
    side.tube.od_rear = side.tube.od_front;
    side.rear_end = End::Slot(Slot { plate_splay: Angle::from_degrees(plate_splay), ..Slot::default() });
    job
}

fn cut(plan: &Plan, hand: Hand) -> &SlotCut {
    let Cut::Slot(cut) = at(hand).cut(plan) else { panic!("a slot") };
    cut
}

#[test]
fn a_plate_that_splays_by_hand() {
    let plan = plan(&parallel(3.0)).unwrap();
    let (sin, cos) = 3_f64.to_radians().sin_cos();
    for (hand, sign) in [(Hand::Right, 1.0), (Hand::Left, -1.0)] {
        let cut = cut(&plan, hand);
        near(cut.angle.degrees(), 3.0);
        near(cut.swivel.degrees(), 3.0 * sign);
        near(cut.from_centre.mm(), 74.0);
        // The root's middle lies at 386 along and 74 out, the datum edge at −60; the plate goes through (398, 74).
        near(cut.dro_along.mm(), (386.0 + 60.0) * cos + 74.0 * sin);
        near(cut.from_datum.mm(), 74.0 * cos - (398.0 + 60.0) * sin);
        // 12 mm before the reference point the plate lies 12·sin 3° inboard of the axis, 4 mm behind it 4·sin 3° outboard.
        let [inboard, outboard] = &cut.faces;
        near(inboard.root_across.mm(), -12.0 * sin - 2.5);
        near(outboard.mouth_across.mm(), 4.0 * sin + 2.5);
    }
}

/// A plate along the stay's own splay is slotted straight; one along the centre plane keeps its figures.
#[test]
fn a_plate_along_the_stay_is_slotted_straight() {
    let straight = plan(&Job::default()).unwrap();
    let splay = straight.pairs.chainstays.right.splay.degrees();
    let mut job = Job::default();
    job.chainstays.right.rear_end =
        End::Slot(Slot { plate_splay: Angle::from_degrees(splay), ..Slot::default() });
    let along = plan(&job).unwrap();
    let found = cut(&along, Hand::Right);
    near(found.angle.degrees(), 0.0);
    let [inboard, outboard] = &found.faces;
    for face in [inboard, outboard] {
        near(face.mouth_across.mm(), face.root_across.mm());
        near(face.mouth_across.mm().abs(), 2.5);
    }
    let plain = cut(&straight, Hand::Left);
    near(plain.angle.degrees(), splay);
    assert_eq!((plain.swivel.degrees(), plain.from_datum), (0.0, plain.from_centre));
}

/// Every direction in which a face leaves the tube is a point of the tube on that face, straight or bent.
#[test]
fn faces_leave_the_tube_where_they_meet_it() {
    let mut seen = 0;
    for splay in [-8.0, 0.0, 2.5, 11.0] {
        for bent in [false, true] {
            let mut job = Job::default();
            let side = &mut job.chainstays.right;
            side.rear_end = End::Slot(Slot { plate_splay: Angle::from_degrees(splay), ..Slot::default() });
            if bent {
                let (before, rotation) = (mm(120.0), Angle::from_degrees(20.0));
                let angle = Angle::from_degrees(9.0);
                side.tube.bends = Bends::of([Bend { before, rotation, angle, radius: mm(160.0) }]);
                side.tube.length = mm(600.0);
            }
            let plan = plan(&job).unwrap();
            for hand in Hand::ALL {
                let lie = staywright::plan::stay_pose(&plan, at(hand));
                let (stay, found) = (at(hand).stay(&plan), cut(&plan, hand));
                let (sin, cos) = splay.to_radians().sin_cos();
                let out = Vector3::y() * (hand.sign() * cos) - stay.clamp.u * sin;
                for (face, half) in found.faces.iter().zip([-2.5, 2.5]) {
                    for (phis, s) in [(face.mouth_phi, found.mouth), (face.root_phi, found.root)] {
                        for phi in phis.into_iter().flatten() {
                            let (sine, cosine) = phi.radians().sin_cos();
                            let way = lie.first * cosine + lie.axis.direction.cross(&lie.first) * sine;
                            let point = lie.axis.at(s.mm()) + way * lie.outline.radius(s.mm());
                            near((point - stay.rear_point).dot(&out), half);
                            seen += 1;
                        }
                    }
                }
            }
        }
    }
    assert!(seen > 100, "{seen}");
}

fn passes_of(plan: &Plan, shop: &Shop) -> SlotPasses {
    slot_passes(cut(plan, Hand::Right), &shop.slitting_saws).unwrap()
}

fn way(ways: &[SlotWay], side: Hand) -> &SlotWay {
    ways.iter().find(|way| way.side == side).unwrap()
}

fn gap(way: &SlotWay, part: Turning, body: Standing) -> &Near {
    way.near.iter().find(|near| near.part == part && near.body == body).unwrap()
}

/// A shop with one 5 mm saw of 80 mm on an arbor of 22 mm, 40 mm to a holder of 45 mm, collars of 35 by 8 mm.
fn one_saw() -> Shop {
    let mut shop = demo_shop();
    shop.slitting_saws.truncate(1);
    let saw = &mut shop.slitting_saws[0];
    (saw.width, saw.diameter, saw.collar, saw.flange) = (mm(5.0), mm(80.0), mm(35.0), mm(8.0));
    (saw.arbor, saw.reach) = (mm(22.0), mm(40.0));
    (shop.mill.body.holder, shop.mill.body.holder_length) = (mm(45.0), mm(120.0));
    shop
}

/// The saw's middle stops 40 mm behind the root at 386, the stays end at 402: 24 mm behind their ends. The stays are 22.2 mm thick
/// and stand 74 mm either side of the centre plane.
#[test]
fn gaps_of_a_slitting_saw_by_hand() {
    let plan = plan(&parallel(0.0)).unwrap();
    let shop = one_saw();
    let passes = passes_of(&plan, &shop);
    let ways = slot_ways(&plan, &shop, at(Hand::Right), &passes);
    let from_right = way(&ways, Hand::Right);
    let about = |a: &Near, b: f64| assert!((a.gap.mm() - b).abs() < 3e-6, "{a:?} {b}");
    // The collar passes the end that is cut with what the passes call room.
    about(gap(from_right, Turning::Collar, Standing::Stay(Hand::Right)), 24.0 - 17.5);
    near(passes.room.mm(), 24.0 - 17.5);
    // The arbor, from 8 to 40 mm out of the saw's face at 76.5, is beside the tube's outer side up to 85.1.
    about(gap(from_right, Turning::Shank, Standing::Stay(Hand::Right)), 24.0 - 11.0);
    // The holder begins at 116.5, the tube ends at 85.1.
    about(
        gap(from_right, Turning::Holder, Standing::Stay(Hand::Right)),
        (24.0 - 22.5f64).hypot(116.5 - 85.1),
    );
    // Slotting the left stay from the right, holder and saw stand on either side of the right stay: holder from −34.5 on.
    let ways = slot_ways(&plan, &shop, at(Hand::Left), &passes);
    about(gap(way(&ways, Hand::Right), Turning::Holder, Standing::Stay(Hand::Right)), 24.0 - 22.5);
    // A holder of 60 mm meets it: on its way in from 24 + 12·… behind, when its face has come to the stay's end.
    let mut stout = one_saw();
    stout.mill.body.holder = mm(60.0);
    let ways = slot_ways(&plan, &stout, at(Hand::Left), &passes);
    assert_eq!(ways[0].side, Hand::Left, "the other side has more room");
    let met = gap(way(&ways, Hand::Right), Turning::Holder, Standing::Stay(Hand::Right));
    let whole = 16.0 + stout.mill.body.run_in.mm();
    assert!(met.gap == mm(0.0) && (met.goes.unwrap().mm() - (whole - (30.0 - 24.0))).abs() < 3e-6, "{met:?}");
    // Coming from behind, the saw always meets an axle that reaches out to it: that one can be taken out.
    assert!(gap(from_right, Turning::Saw, Standing::Axle).goes.is_some());
    assert!(from_right.tightest().unwrap().body != Standing::Axle);
}

/// Points of a stay's surface between its long points, in its clamp frame.
fn surface(plan: &Plan, hand: Hand) -> Vec<Point3<f64>> {
    let (stay, lie) = (at(hand).stay(plan), staywright::plan::stay_pose(plan, at(hand)));
    let (from, to) = (stay.front.long_point().unwrap().mm(), stay.rear.long_point().unwrap().mm());
    let mut points = Vec::new();
    for i in 0..=300 {
        let s = from + (to - from) * f64::from(i) / 300.0;
        let here = lie.line.at(s);
        let one = here.tangent.cross(&Vector3::z()).normalize();
        for j in 0..72 {
            let (sin, cos) = (f64::from(j) * std::f64::consts::TAU / 72.0).sin_cos();
            for part in if i == 0 || i == 300 { vec![0.3, 0.7, 1.0] } else { vec![1.0] } {
                let out = (one * cos + here.tangent.cross(&one) * sin) * (lie.surface.radius(s) * part);
                points.push(Point3::from(stay.clamp.local(&(here.point + out))));
            }
        }
    }
    points
}

/// The saw is followed in step by step, its middle where the plan's figures put it; no point of either stay comes nearer than the
/// gap found, and some as near as samples lie apart.
#[test]
fn gaps_of_a_slitting_saw_are_those_of_dense_samples() {
    let mut seen = 0;
    for (splay, bent) in [(0.0, false), (5.0, false), (-4.0, true), (3.0, true)] {
        let mut job = Job::default();
        let side = &mut job.chainstays.right;
        side.rear_end = End::Slot(Slot { plate_splay: Angle::from_degrees(splay), ..Slot::default() });
        if bent {
            let (before, rotation) = (mm(250.0), Angle::from_degrees(35.0));
            let angle = Angle::from_degrees(14.0);
            side.tube.bends = Bends::of([Bend { before, rotation, angle, radius: mm(100.0) }]);
            side.tube.length = mm(600.0);
        }
        let plan = plan(&job).unwrap();
        let shop = one_saw();
        let passes = passes_of(&plan, &shop);
        for hand in Hand::ALL {
            let found = cut(&plan, hand);
            let (sin, cos) = splay.to_radians().sin_cos();
            let sign = hand.sign();
            let (back, out) = (Vector3::new(cos, sin * sign, 0.0), Vector3::new(-sin, cos * sign, 0.0));
            let datum = Vector3::new(-60.0, 0.0, 0.0);
            let middle = datum + back * (found.dro_along.mm() + 40.0) + out * found.from_datum.mm();
            let whole = {
                let angle = found.angle.radians();
                let radius = staywright::plan::stay_pose(&plan, at(hand)).outline.radius(found.mouth.mm());
                16.0 * angle.cos() + radius * angle.sin() + shop.mill.body.run_in.mm()
            };
            for way in slot_ways(&plan, &shop, at(hand), &passes) {
                let spindle = out * (way.side.sign() * sign);
                let parts = [
                    (Turning::Collar, -10.5, -2.5, 17.5),
                    (Turning::Collar, 2.5, 10.5, 17.5),
                    (Turning::Saw, -2.5, 2.5, 40.0),
                    (Turning::Shank, 10.5, 42.5, 11.0),
                    (Turning::Holder, 42.5, 162.5, 22.5),
                ];
                for body in Hand::ALL {
                    let points = surface(&plan, body);
                    for name in [Turning::Collar, Turning::Saw, Turning::Shank, Turning::Holder] {
                        let known = way
                            .near
                            .iter()
                            .find(|near| near.part == name && near.body == Standing::Stay(body));
                        let Some(known) = known else {
                            assert!(name == Turning::Saw && body == hand);
                            continue;
                        };
                        let mut least = f64::INFINITY;
                        for (_, from, to, radius) in parts.iter().filter(|(part, ..)| *part == name) {
                            for step in 0..=24 {
                                let at = middle + back * (whole * f64::from(step) / 24.0);
                                for point in &points {
                                    let apart = point.coords - at;
                                    let along = apart.dot(&spindle);
                                    let aside = (apart - spindle * along).norm() - radius;
                                    let beyond = (from - along).max(along - to).max(0.0);
                                    least = least.min(aside.max(0.0).hypot(beyond));
                                }
                            }
                        }
                        assert!(known.gap.mm() <= least + 1e-5, "{splay} {hand:?} {known:?} {least}");
                        assert!(least - known.gap.mm() < 1.2, "{splay} {hand:?} {known:?} {least}");
                        seen += 1;
                    }
                }
            }
        }
    }
    assert!(seen > 100, "{seen}");
}

#[test]
fn the_steps_swivel_for_a_plate_that_splays() {
    let (plan, shop) = (plan(&parallel(3.0)).unwrap(), one_saw());
    let steps = pair_steps(&plan, &shop, &Tools::default(), PairName::Chainstays);
    let of = |hand: Hand, kind: StepKind| {
        let own = |step: &&Step| step.key.kind == kind && step.key.setting.stays == Stays::One(hand);
        steps.iter().find(own).unwrap_or_else(|| panic!("{hand:?} {kind:?}"))
    };
    for hand in Hand::ALL {
        let found = cut(&plan, hand);
        let turned = of(hand, StepKind::Swivel);
        assert_eq!(turned.scale, Some(Scale::Swivel));
        let way = if hand == Hand::Right { Turn::Clockwise } else { Turn::CounterClockwise };
        assert!(matches!(turned.task, Task::Swivel { turn, .. } if turn == way), "{turned:?}");
        let height = of(hand, StepKind::Slot(hand));
        assert_eq!((height.reading, height.scale), (Some(Reading::Length(found.from_datum)), None));
        let Some(Reading::Length(along)) = of(hand, StepKind::Along).reading else { panic!("a length") };
        assert!((along.mm().abs() - (found.dro_along.mm() + 40.0)).abs() < 0.05, "{along:?}");
    }
    // A plate along the centre plane needs none of that.
    let plain = staywright::placement::plan(&parallel(0.0)).unwrap();
    let steps = pair_steps(&plain, &shop, &Tools::default(), PairName::Chainstays);
    assert!(steps.iter().all(|step| step.key.kind != StepKind::Swivel));
}

/// What is in the way of the saw is said where it goes in, with the side from which nothing is; the dummy axle can be taken out.
#[test]
fn the_step_says_what_a_slitting_saw_would_meet() {
    let plan = plan(&parallel(0.0)).unwrap();
    let mut shop = one_saw();
    let steps = |shop: &Shop| pair_steps(&plan, shop, &Tools::default(), PairName::Chainstays);
    let cut = |shop: &Shop| {
        let first = |step: &Step| step.key.kind == StepKind::Slot(Hand::Right);
        steps(shop).into_iter().find(first).unwrap()
    };
    let is_collision = |problem: &Problem| problem.code() == "collision";
    let fine = cut(&shop);
    assert!(!fine.problems.iter().any(is_collision), "{:?}", fine.problems);
    assert!(steps(&shop).iter().any(|step| step.task == Task::TakeAxleOut));
    assert!(fine.also.iter().any(|beside| matches!(beside.what, Quantity::SmallestGap(..))));
    shop.mill.body.holder = mm(70.0);
    let met = cut(&shop);
    let holder = |problem: &Problem| matches!(problem, Problem::Meets { part: Turning::Holder, .. });
    assert!(met.problems.iter().any(holder), "{:?}", met.problems);
}

/// By hand: a plate of 5 in the plane 74 off the centre, 0.3 to spare in all. The faces lie 2.65 to either side of that plane, and
/// the plate's own figures stay as they are.
#[test]
fn a_slot_is_wider_than_its_plate_by_the_clearance() {
    let plan_of = |clearance: f64| {
        let mut job = Job::default();
        let clearance = Length::from_mm(clearance);
        job.chainstays.right.rear_end = End::Slot(Slot { clearance, ..Slot::default() });
        plan(&job).unwrap()
    };
    let (plain, wide) = (plan_of(0.0), plan_of(0.3));
    for hand in Hand::ALL {
        let (plain, wide) = (cut(&plain, hand), cut(&wide, hand));
        assert!((plain.width.mm() - 5.0).abs() < 1e-12 && (wide.width.mm() - 5.3).abs() < 1e-12);
        assert_eq!((wide.plate, wide.root, wide.mouth), (plain.plate, plain.root, plain.mouth));
        assert_eq!((wide.from_centre, wide.dro_along), (plain.from_centre, plain.dro_along));
        for (face, out) in
            wide.faces.iter().zip([-0.15, 0.15]).zip(&plain.faces).map(|((a, out), b)| ((a, b), out))
        {
            assert!(((face.0.mouth_across - face.1.mouth_across).mm() - out).abs() < 1e-12);
            assert!(((face.0.root_across - face.1.root_across).mm() - out).abs() < 1e-12);
        }
    }
    // A saw of the plate's own width goes through twice, a half of what is to spare to either side.
    let saws = &Shop::default().slitting_saws;
    let offsets = |plan: &Plan| -> Vec<f64> {
        let passes = slot_passes(cut(plan, Hand::Right), saws).unwrap();
        assert_eq!(passes.width.mm(), 5.0);
        passes.offsets.iter().map(|offset| offset.mm()).collect()
    };
    assert_eq!(offsets(&plain), [0.0]);
    let two = offsets(&wide);
    assert!(two.len() == 2 && (two[0] + 0.15).abs() < 1e-12 && (two[1] - 0.15).abs() < 1e-12, "{two:?}");
}
