//! Oval stretches: cuts, slots, calipers and rooms against closed forms and dense samples.

use crate::support;

use nalgebra::{Point3, Vector3};
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;
use staywright::clearance::{Obstacle, clearances};
use staywright::model::{Bend, Bends, Hand, Job, Ovals, PairName, Press, Surroundings};
use staywright::placement::plan;
use staywright::plan::Cut;
use staywright::units::{Angle, Length};
use support::pressed::{polar, radius};

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

fn press(from: f64, to: f64, blend: f64, (width, height): (f64, f64), roll: f64) -> Press {
    let (width, height) = (mm(width), mm(height));
    Press { from: mm(from), to: mm(to), blend: mm(blend), width, height, roll: Angle::from_degrees(roll) }
}

fn ovals(list: &[Press]) -> Ovals {
    Ovals { list: list.iter().copied().collect() }
}

/// Chainstays without splay or taper, oval from end to end.
fn oval_throughout(half: f64, size: (f64, f64), roll: f64) -> Job {
    let mut job = Job { surroundings: Some(Surroundings::starting()), ..Job::default() };
    let stay = &mut job.chainstays.right;
    (stay.front.half_spacing, stay.rear.half_spacing) = (mm(half), mm(half));
    (stay.tube.od_front, stay.tube.od_rear) = (mm(20.0), mm(20.0));
    stay.tube.ovals = ovals(&[press(-150.0, 700.0, 10.0, size, roll)]);
    job
}

#[test]
fn an_oval_as_wide_as_it_is_high_is_round() {
    let mut job = oval_throughout(30.0, (20.0, 20.0), 33.0);
    let oval = plan(&job).unwrap();
    job.chainstays.right.tube.ovals = Ovals::default();
    let plain = plan(&job).unwrap();
    let figures = |plan| support::numbers(&support::json(plan));
    for ((path, a), (other, b)) in figures(&oval).into_iter().zip(figures(&plain)) {
        assert_eq!(path, other);
        assert!((a - b).abs() < 1e-6 || path.contains("point_phi"), "{path}: {a} {b}");
    }
}

/// Square across the shell the edge at height h above its axis lies at √(R² − h²); φ counts from upwards, on the right by way of
/// inboard; the oval's roll counts from outboard upwards on both sides.
#[test]
fn an_oval_coped_square_onto_the_shell() {
    let size = (14.0, 26.0);
    for roll in [0.0, 25.0, -60.0, 90.0] {
        let plan = plan(&oval_throughout(30.0, size, roll)).unwrap();
        for hand in Hand::ALL {
            let cut = plan.pairs.chainstays.stay(hand).front.round().unwrap();
            assert_eq!(cut.outer.len(), 360);
            for (profile, inset) in [(&cut.outer, 0.0), (&cut.bore, 1.6)] {
                for point in profile {
                    let phi = point.phi.radians();
                    // From outboard upwards.
                    let from_outboard = (phi.cos()).atan2(-hand.sign() * phi.sin());
                    let size = (size.0 - inset, size.1 - inset);
                    let height = radius(size, from_outboard - f64::to_radians(roll)) * phi.cos();
                    let expected = (400.0 - height * height).sqrt();
                    assert!((point.s.mm() - expected).abs() < 1e-9, "{hand:?} {roll} {phi}");
                }
            }
        }
    }
}

#[test]
fn a_slot_leaves_an_oval_where_its_faces_cut_the_ellipse() {
    let size = (14.0, 22.0);
    for roll in [0.0, 40.0, -75.0] {
        let plan = plan(&oval_throughout(74.0, size, roll)).unwrap();
        for hand in Hand::ALL {
            let Cut::Slot(slot) = &plan.pairs.chainstays.stay(hand).rear else { panic!("a slot") };
            for (face, off) in slot.faces.iter().zip([-2.5, 2.5]) {
                for phi in face.root_phi.unwrap() {
                    let phi = phi.radians();
                    let outboard = -hand.sign() * phi.sin();
                    let from_outboard = phi.cos().atan2(outboard);
                    let place = radius(size, from_outboard - f64::to_radians(roll)) * outboard;
                    assert!((place - off).abs() < 1e-9, "{hand:?} {roll}: {place} {off}");
                }
            }
        }
    }
}

/// Calipers over an oval read how far it reaches, √((a cos ρ)² + (b sin ρ)²), and so does the room beside flat things.
#[test]
fn calipers_and_rooms_go_by_how_far_an_oval_reaches() {
    for roll in [0.0_f64, 90.0, 35.0] {
        let (width, height) = (14.0, 26.0);
        let reach = (width / 2.0 * roll.to_radians().cos()).hypot(height / 2.0 * roll.to_radians().sin());
        let plan = plan(&oval_throughout(40.0, (width, height), roll)).unwrap();
        let pair = &plan.pairs.chainstays;
        for post in &pair.posts {
            assert!((post.outside.unwrap().mm() - 2.0 * (40.0 + reach)).abs() < 1e-9);
            assert!((post.inside.unwrap().mm() - 2.0 * (40.0 - reach)).abs() < 1e-9);
        }
        assert!((pair.room_between.mm() - 2.0 * (40.0 - reach)).abs() < 1e-9);
        let all = clearances(&plan);
        let gap = |hand, to| {
            let room =
                all.iter().find(|room| room.pair == PairName::Chainstays && room.hand == hand).unwrap();
            room.clearances.iter().find(|gap| gap.to == to).unwrap().distance.mm()
        };
        assert!((gap(Hand::Right, Obstacle::Other) - 2.0 * (40.0 - reach)).abs() < 1e-9);
        // The crank arm's inner face is a plane at 60, the heel's at 80.
        for hand in Hand::ALL {
            assert!((gap(hand, Obstacle::Crank) - (60.0 - 40.0 - reach)).abs() < 1e-6);
            assert!((gap(hand, Obstacle::Heel) - (80.0 - 40.0 - reach)).abs() < 1e-6);
        }
        if roll.abs() < 1.0 || (roll - 90.0).abs() < 1.0 {
            // Level with the axle the oval's side and the tyre's widest place face each other.
            assert!((gap(Hand::Left, Obstacle::Tyre) - (40.0 - reach - 20.8)).abs() < 1e-4);
        }
    }
}

/// By hand: a stay that leaves the middle plane comes nearest to its mirror with the edge of its front end, which reaches as far
/// across the bicycle as its ellipse does there. A bend behind it turns the oval's sides from where they point at the stay's
/// middle.
#[test]
fn towards_the_other_stay_an_oval_end_reaches_as_far_as_its_ellipse() {
    let (half, width, height) = (28.0, 22.0, 14.0);
    for (rotation, roll) in [(-60.0, -60.0), (-90.0, -140.0), (150.0, 100.0), (30.0, -140.0)] {
        let mut job = oval_throughout(half, (20.0, 20.0), 0.0);
        let tube = &mut job.chainstays.right.tube;
        let bend = Bend {
            before: mm(60.0),
            rotation: Angle::from_degrees(rotation),
            angle: Angle::from_degrees(14.0),
            radius: mm(150.0),
        };
        tube.bends = Bends::of([bend]);
        tube.bends.roll = Some(Angle::from_degrees(roll));
        (tube.length, tube.front_trim) = (mm(600.0), mm(10.0));
        tube.ovals = ovals(&[press(-40.0, 40.0, 10.0, (width, height), 13.0)]);
        job.chainstays.right.rear.half_spacing = mm(74.0);
        let plan = plan(&job).unwrap();
        let stay = &plan.pairs.chainstays.right;
        let (tip, front) = (stay.front.long_point().unwrap().mm(), stay.bent.as_ref().unwrap().line.at(0.0));
        let up = front.tangent.cross(&front.normal);
        let (sin, cos) = 13_f64.to_radians().sin_cos();
        let (wide, high) = (front.normal.y * cos + up.y * sin, up.y * cos - front.normal.y * sin);
        let reach = (0.5 * width * wide).hypot(0.5 * height * high);
        let all = clearances(&plan);
        let room = &all.iter().find(|room| room.pair == PairName::Chainstays).unwrap().clearances;
        let gap = room.iter().find(|gap| gap.to == Obstacle::Other).unwrap();
        assert!((gap.station.mm() - tip).abs() < 1e-9, "{gap:?}");
        let expected = 2.0 * (half + tip * front.tangent.y - reach);
        assert!((gap.distance.mm() - expected).abs() < 1e-9, "{} {expected}", gap.distance.mm());
        assert!((plan.pairs.chainstays.room_between.mm() - expected).abs() < 1e-9);
    }
}

fn generated() -> impl Strategy<Value = Job> {
    let table = proptest::collection::vec((30.0..80.0, -180.0..180.0, 2.0..12.0, 100.0..260.0), 0..=2);
    let sizes = (13.0..24.0, 14.0..30.0, -180.0..180.0, 11.0..18.0, 11.0..18.0);
    (table, sizes, -180.0..180.0).prop_map(|(table, sizes, roll)| {
        let mut job = Job { surroundings: Some(Surroundings::starting()), ..Job::default() };
        let stay = &mut job.chainstays.right;
        stay.front.half_spacing = mm(34.0);
        let bend = |(before, rotation, angle, radius): (f64, f64, f64, f64)| Bend {
            before: mm(before),
            rotation: Angle::from_degrees(rotation),
            angle: Angle::from_degrees(angle),
            radius: mm(radius),
        };
        stay.tube.bends = Bends::of(table.into_iter().map(bend));
        stay.tube.bends.roll = stay.tube.bends.roll.map(|_| Angle::from_degrees(roll));
        stay.tube.length = mm(600.0);
        stay.tube.ovals = ovals(&[
            press(40.0, 110.0, 30.0, (sizes.0, sizes.1), sizes.2),
            press(240.0, 300.0, 40.0, (sizes.3, sizes.4), -sizes.2),
        ]);
        job
    })
}

/// No sampled point of an oval and bent stay comes nearer to tyre, ring or rotor than the gap found, and some come as near.
#[test]
fn gaps_of_ovals_are_those_of_dense_samples() {
    let mut runner = TestRunner::deterministic();
    let mut compared = 0;
    for _ in 0..60 {
        let job = generated().new_tree(&mut runner).unwrap().current();
        let plan = plan(&job).unwrap();
        let all = clearances(&plan);
        for hand in Hand::ALL {
            let stay = plan.pairs.chainstays.stay(hand);
            let ends = (stay.front.long_point().unwrap().mm(), stay.rear.long_point().unwrap().mm());
            let trim = stay.bent.as_ref().map_or(10.0, |bent| bent.trim.mm());
            let chord = (stay.rear_point - stay.front_point).normalize();
            let place = |s: f64| match &stay.bent {
                Some(bent) => (bent.line.at(s).point, bent.line.at(s).tangent),
                None => (stay.front_point + chord * s, chord),
            };
            // The mark, carried along without turning about the tube.
            let outboard = Vector3::y() * hand.sign();
            let mut mark = match &stay.bent {
                Some(bent) => bent.line.at(ends.0.min(-trim)).normal,
                None => (outboard - chord * outboard.dot(&chord)).normalize(),
            };
            let mut points: Vec<Point3<f64>> = Vec::new();
            let mut s = ends.0.min(-trim);
            while s <= ends.1 {
                let (point, tangent) = place(s);
                mark = (mark - tangent * mark.dot(&tangent)).normalize();
                let height = tangent.cross(&mark) * hand.sign();
                if s >= ends.0 {
                    points.extend((0..240).map(|i| {
                        let angle = f64::from(i) * std::f64::consts::TAU / 240.0;
                        let r = polar(&job.chainstays.right.tube, s + trim, angle);
                        point + (mark * angle.cos() + height * angle.sin()) * r
                    }));
                }
                s += 0.5;
            }
            let gaps = &all
                .iter()
                .find(|room| room.pair == PairName::Chainstays && room.hand == hand)
                .unwrap()
                .clearances;
            for gap in gaps {
                let distance = |p: &Point3<f64>| match gap.to {
                    Obstacle::Tyre => {
                        let q = p - plan.axle;
                        (q.x.hypot(q.z) - 331.0).hypot(q.y) - 20.8
                    }
                    Obstacle::Chainring(_) => {
                        let tips = 0.5 * 12.7 * (0.6 + 1.0 / (std::f64::consts::PI / 34.0).tan());
                        ((p.x.hypot(p.z) - tips).max(0.0)).hypot(((p.y - 45.0).abs() - 2.0).max(0.0))
                    }
                    Obstacle::Rotor => {
                        let q = p - plan.axle;
                        (q.x.hypot(q.z) - 80.0).max(0.0).hypot(((q.y + 56.0).abs() - 0.9).max(0.0))
                    }
                    _ => f64::NAN,
                };
                let least = points.iter().map(distance).fold(f64::INFINITY, f64::min);
                if !least.is_finite() || least < 0.3 || gap.distance.mm() < 0.3 {
                    continue;
                }
                let found = gap.distance.mm();
                assert!(found <= least + gap.error_bound, "{hand:?} {:?}: {found} {least}", gap.to);
                let at_end = (gap.station.mm() - ends.0).min(ends.1 - gap.station.mm()) < 0.1;
                assert!(at_end || found > least - 0.06, "{hand:?} {:?}: {found} {least}", gap.to);
                compared += 1;
            }
        }
    }
    assert!(compared > 100, "{compared}");
}

#[test]
fn a_left_stay_written_out_is_the_mirror() {
    let mut job = oval_throughout(30.0, (14.0, 24.0), 40.0);
    job.chainstays.right.tube.bends =
        Bends::of([Bend { rotation: Angle::from_degrees(40.0), ..Bend::default() }]);
    job.chainstays.right.tube.length = mm(700.0);
    let mirrored = plan(&job).unwrap();
    job.chainstays.left = Some(job.chainstays.right);
    assert_eq!(support::json(&plan(&job).unwrap()), support::json(&mirrored));
    let gaps = |hand| {
        let all = clearances(&mirrored);
        let room =
            all.into_iter().find(|room| room.pair == PairName::Chainstays && room.hand == hand).unwrap();
        room.clearances.iter().find(|gap| gap.to == Obstacle::Tyre).unwrap().distance.mm()
    };
    assert!((gaps(Hand::Right) - gaps(Hand::Left)).abs() < 0.011);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    /// Whatever is pressed, bent and rolled, every figure is a number.
    #[test]
    fn no_figure_of_an_oval_plan_is_infinite(
        table in proptest::collection::vec((0.0..200.0, -360.0..360.0, 0.0..170.0, 15.0..400.0), 0..4),
        sizes in proptest::collection::vec((3.0..40.0, 3.0..60.0, -360.0..360.0, 1.0..60.0, 0.0..120.0), 0..=4),
        (trim, roll) in (-200.0..300.0, -360.0..360.0),
    ) {
        let mut job = Job { surroundings: Some(Surroundings::starting()), ..Job::default() };
        let tube = &mut job.chainstays.right.tube;
        let bend = |(before, rotation, angle, radius): (f64, f64, f64, f64)| Bend {
            before: mm(before),
            rotation: Angle::from_degrees(rotation),
            angle: Angle::from_degrees(angle),
            radius: mm(radius),
        };
        tube.bends = Bends::of(table.into_iter().map(bend));
        tube.bends.roll = tube.bends.roll.map(|_| Angle::from_degrees(roll));
        (tube.length, tube.front_trim) = (mm(1200.0), mm(trim));
        let mut at = -150.0;
        let oval = |(width, height, roll, blend, length): (f64, f64, f64, f64, f64)| {
            let from = at + blend;
            at = from + length + blend;
            press(from, from + length, blend, (width, height), roll)
        };
        tube.ovals.list = sizes.into_iter().map(oval).collect();
        let Ok(plan) = plan(&job) else { return Ok(()) };
        for (path, number) in support::numbers(&support::json(&plan)) {
            prop_assert!(number.is_finite(), "{}", path);
        }
        for room in clearances(&plan) {
            for gap in &room.clearances {
                prop_assert!(gap.distance.mm().is_finite() && gap.error_bound.is_finite(), "{:?}", gap);
            }
        }
    }
}
