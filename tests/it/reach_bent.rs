//! Bent and oval stays on the machine: the stroke against the plan's depths, gaps against dense samples of tubes worked out here,
//! the saws and the steps against the plan.

use nalgebra::Vector3;
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use staywright::machining::{
    Near, Standing, Stroke, TurningBody, candidates, nearest, pad_face, stub_extent, turning,
};
use staywright::model::shop::{HoleSaw, Shop, demo_shop};
use staywright::model::{Bend, Bends, Boss, BrakeMountFlat, End, Hand, Job, PairName, Press, SolveFor};
use staywright::placement::plan;
use staywright::plan::{CutAt, Plan};
use staywright::procedure::{Reading, StepKind, Tools, pair_steps};
use staywright::units::{Angle, Length};

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

fn degrees(value: f64) -> Angle {
    Angle::from_degrees(value)
}

fn bend((before, rotation, angle, radius): (f64, f64, f64, f64)) -> Bend {
    Bend { before: mm(before), rotation: degrees(rotation), angle: degrees(angle), radius: mm(radius) }
}

/// Bent, tapering chainstays with a round dropout; some of them are pressed oval, at the front cut or further back.
fn generated() -> impl Strategy<Value = Job> {
    let table = proptest::collection::vec((60.0..90.0, -180.0..180.0, 2.0..12.0, 90.0..260.0), 1..=3);
    let shape = (26.0..34.0, 66.0..78.0, 18.0..24.0, 14.0..17.0);
    (table, -180.0..180.0, shape, 0..3_u8).prop_map(|(table, roll, shape, pressed)| {
        let mut job = Job::default();
        let stay = &mut job.chainstays.right;
        stay.rear_end = End::Boss(Boss { diameter: mm(24.0) });
        (stay.front.half_spacing, stay.rear.half_spacing) = (mm(shape.0), mm(shape.1));
        stay.tube.bends = Bends::of(table.into_iter().map(bend));
        stay.tube.bends.roll = Some(degrees(roll));
        (stay.tube.od_front, stay.tube.od_rear) = (mm(shape.2), mm(shape.3));
        (stay.tube.taper_start, stay.tube.taper_end) = (mm(90.0), mm(330.0));
        stay.tube.length = mm(600.0);
        let ovals = [None, Some(oval(-60.0, 40.0)), Some(oval(120.0, 190.0))];
        stay.tube.ovals.list = ovals[usize::from(pressed)].into_iter().collect();
        job
    })
}

fn oval(from: f64, to: f64) -> Press {
    let (width, height) = (mm(17.0), mm(25.0));
    Press { from: mm(from), to: mm(to), blend: mm(20.0), width, height, roll: degrees(25.0) }
}

fn jobs(count: usize) -> Vec<Job> {
    let rng = TestRng::deterministic_rng(RngAlgorithm::ChaCha);
    let mut runner = TestRunner::new_with_rng(Config::default(), rng);
    let made = || generated().new_tree(&mut runner).unwrap().current();
    std::iter::repeat_with(made).filter(|job| plan(job).is_ok()).take(count).collect()
}

fn ends() -> [CutAt; 2] {
    [true, false].map(|at_front| CutAt { pair: PairName::Chainstays, hand: Hand::Right, at_front })
}

fn both(at: CutAt) -> [CutAt; 2] {
    Hand::ALL.map(|hand| CutAt { hand, ..at })
}

fn saw() -> HoleSaw {
    let mut saw = demo_shop().hole_saws[5];
    (saw.size.depth, saw.arbor.reach) = (mm(41.0), mm(40.0));
    saw
}

/// What the plan says a saw must reach is worked out by the solver from the ends' edges, oval ones too.
#[test]
fn the_stroke_goes_through_the_plans_depth() {
    let shop = demo_shop();
    let mut seen = 0;
    for job in jobs(60) {
        let plan = plan(&job).unwrap();
        for at in ends().into_iter().flat_map(both) {
            let cut = at.cut(&plan).round().unwrap();
            let Some(depth) = cut.saw_depth else { continue };
            let alone = Stroke::new(&plan, &shop, &[at], cut.cutter).unwrap();
            assert!((alone.high - alone.low - depth.mm()).abs() < 1e-6, "{} {depth:?}", at.key());
            seen += 1;
        }
    }
    assert!(seen > 200, "{seen}");
}

/// Points of a finished stay's surface in its clamp frame, ends included: circles and ellipses square to its middle line, from the
/// tube's own figures.
fn surface(plan: &Plan, at: CutAt) -> Vec<Vector3<f64>> {
    let (stay, tube) = (at.stay(plan), &plan.job.pair(at.pair).side(at.hand).tube);
    let bent = stay.bent.as_ref().unwrap();
    let (from, to) = (stay.front.long_point().unwrap().mm(), stay.rear.long_point().unwrap().mm());
    let share = |x: f64, from: f64, to: f64| ((x - from) / (to - from)).clamp(0.0, 1.0);
    let ring = |s: f64, part: f64, points: &mut Vec<Vector3<f64>>| {
        let raw = s + bent.trim.mm();
        let taper = share(raw, tube.taper_start.mm(), tube.taper_end.mm());
        let round = 0.5 * (tube.od_front.mm() + taper * (tube.od_rear.mm() - tube.od_front.mm()));
        let here = bent.line.at(s);
        let mark = bent.line.mark(s);
        // On the left the tube is the mirror of a right one: directions turn the other way.
        let side = here.tangent.cross(&mark) * at.hand.sign();
        for j in 0..60 {
            let angle = f64::from(j) * std::f64::consts::TAU / 60.0;
            let radius = tube.ovals.list.iter().fold(round, |radius, oval| {
                let (start, end, blend) = (oval.from.mm(), oval.to.mm(), oval.blend.mm());
                let (a, b) = (0.5 * oval.width.mm(), 0.5 * oval.height.mm());
                let turned = angle - oval.roll.radians();
                let pressed = a * b / (b * turned.cos()).hypot(a * turned.sin());
                let much = share(raw, start - blend, start).min(1.0 - share(raw, end, end + blend));
                // A blend is straight from the taper's radius at its round end.
                radius + much * (pressed - radius)
            });
            let (sin, cos) = angle.sin_cos();
            points.push(stay.clamp.local(&(here.point + (mark * cos + side * sin) * (radius * part))));
        }
    };
    let mut points = Vec::new();
    for i in 0..=200 {
        ring(from + (to - from) * f64::from(i) / 200.0, 1.0, &mut points);
    }
    for (end, part) in
        [from, to].into_iter().flat_map(|end| (0..=20).map(move |i| (end, f64::from(i) / 20.0)))
    {
        ring(end, part, &mut points);
    }
    points
}

/// Distance of a part of what turns, as it goes from the start of the stroke to its end in 20 steps, from the nearest of many points.
fn sampled(stroke: &Stroke, part: &TurningBody, points: &[Vector3<f64>]) -> f64 {
    let apart = |gone: u32, point: &Vector3<f64>| {
        let back = stroke.length().mm() * (1.0 - f64::from(gone) / 20.0);
        let to_point = point - stroke.axis.point.coords;
        let along = to_point.dot(&stroke.axis.direction) - back;
        let aside = (to_point.cross(&stroke.axis.direction)).norm() - part.radius;
        aside.max(0.0).hypot((part.from - along).max(along - part.to).max(0.0))
    };
    let each = points.iter().flat_map(|point| (0..=20).map(move |gone| apart(gone, point)));
    each.fold(f64::INFINITY, f64::min)
}

/// No sampled point of a stay comes nearer to what turns than the gap that was found, and some come as near, as far as the samples
/// lie apart. Each stay is cut alone, so that the other is in the saw's way.
#[test]
fn gaps_to_bent_stays_are_those_of_dense_samples() {
    let (mut apart, mut met) = (0, 0);
    for (i, job) in jobs(12).into_iter().enumerate() {
        let plan = plan(&job).unwrap();
        let mut shop = demo_shop();
        shop.mill.side_to_spindle = Hand::ALL[i % 2];
        for at in ends() {
            let cut = at.cut(&plan).round().unwrap();
            let Some(stroke) = Stroke::new(&plan, &shop, &[at], cut.cutter) else { continue };
            let found = nearest(&plan, &shop, &stroke, &saw());
            let parts = turning(&stroke, &saw(), &shop.mill.body);
            for hand in Hand::ALL {
                let points = surface(&plan, CutAt { hand, ..at });
                for near in found.iter().filter(|near| near.body == Standing::Stay(hand)) {
                    let part = parts.iter().find(|part| part.part == near.part).unwrap();
                    let least = sampled(&stroke, part, &points);
                    assert!(near.gap.mm() <= least + 1e-5, "{i} {} {near:?} {least}", at.key());
                    assert!(least - near.gap.mm() < 1.5, "{i} {} {near:?} {least}", at.key());
                    if near.goes.is_some() { met += 1 } else { apart += 1 }
                }
            }
        }
    }
    assert!(apart > 60 && met > 10, "{apart} {met}");
}

/// One entry a part and body, and where they meet the saw is free just before and not after.
#[test]
fn a_body_in_many_parts_is_told_once() {
    let job = jobs(1).remove(0);
    let plan = plan(&job).unwrap();
    let shop = demo_shop();
    let stroke = Stroke::new(&plan, &shop, &[ends()[0]], mm(40.0)).unwrap();
    let found = nearest(&plan, &shop, &stroke, &saw());
    let names: Vec<_> = found.iter().map(|near| (near.part, near.body)).collect();
    for (i, name) in names.iter().enumerate() {
        assert!(!names[..i].contains(name), "{name:?}");
    }
    assert!(found.iter().any(|near: &Near| near.body == Standing::Stay(Hand::Left)));
}

/// The plan's own saw has the plan's own gap and push, wherever the tube was laid: as entered or as found.
#[test]
fn a_saw_like_the_plans_is_judged_like_the_plan() {
    for (i, mut job) in jobs(12).into_iter().enumerate() {
        if i % 3 == 0 {
            job.chainstays.right.tube.bends.find = SolveFor::Roll;
            job.chainstays.right.tube.bends.roll = Some(degrees(0.0));
            job.surroundings = Some(staywright::model::Surroundings::starting());
        }
        let plan = plan(&job).unwrap();
        for at in ends().into_iter().flat_map(both) {
            let cut = at.cut(&plan).round().unwrap();
            let hole_saws = vec![HoleSaw { cutting: Some(cut.cutter), ..saw() }];
            let shop = Shop { hole_saws, ..Shop::default() };
            let judged = candidates(&plan, &shop, at).remove(0);
            let near = |a: Option<Length>, b: Option<Length>| match (a, b) {
                (Some(a), Some(b)) => assert!((a.mm() - b.mm()).abs() < 1e-9, "{i} {}", at.key()),
                (a, b) => assert_eq!(a, b, "{i} {}", at.key()),
            };
            near(judged.gap, cut.gap);
            near(judged.push, cut.push);
        }
    }
}

/// By hand: of a tube of diameter d that crosses a saw of radius R at the angle θ goes 2·R/tan θ + d/sin θ into it.
#[test]
fn the_stub_follows_the_end_and_not_the_chord() {
    let mut job = Job::default();
    let tube = &mut job.chainstays.right.tube;
    (tube.od_rear, tube.length, tube.front_trim) = (tube.od_front, mm(700.0), mm(100.0));
    tube.bends = Bends::of([bend((250.0, 0.0, 20.0, 150.0))]);
    // The bend lies in the stay plane, so that the end's axis meets the shell's.
    tube.bends.roll = Some(degrees(0.0));
    let plan = plan(&job).unwrap();
    let at = ends()[0];
    let cut = at.cut(&plan).round().unwrap();
    let stay = staywright::machining::Placed::new(&plan, at);
    let axis = staywright::machining::cutter_axis(&plan, at, cut, Hand::Right);
    let (theta, d) = (cut.angle.radians(), job.chainstays.right.tube.od_front.mm());
    let known = cut.cutter.mm() / theta.tan() + d / theta.sin();
    let found = stub_extent(&stay, &axis, cut.cutter.mm() / 2.0).unwrap().mm();
    assert!((found - known).abs() < 1e-9, "{found} {known}");
    let front = at.stay(&plan).bent.as_ref().unwrap().front_direction;
    assert!((at.stay(&plan).clamp.local_direction(&front) - stay.axis.direction).norm() < 1e-12);
}

/// The steps mark the tube where it was laid, and say where its bends stand.
#[test]
fn the_steps_lay_a_bent_pair() {
    let job = jobs(1).remove(0);
    let plan = plan(&job).unwrap();
    let steps = pair_steps(&plan, &demo_shop(), &Tools::default(), PairName::Chainstays);
    let clamp = steps.iter().find(|step| step.key.kind == StepKind::Clamp).unwrap();
    let bent = plan.pairs.chainstays.right.bent.as_ref().unwrap();
    assert_eq!(clamp.reading, Some(Reading::Length(bent.trim)));
    let told: Vec<_> = clamp.also.iter().map(|beside| beside.reading).collect();
    let wanted: Vec<_> = bent
        .bends
        .iter()
        .flat_map(|bend| [bend.along, bend.from_plane, bend.from_centre].map(Reading::Length))
        .collect();
    assert_eq!(told, wanted);
}

/// By hand: a tube of 20 mm bent up out of the stay plane by 5° behind the pad; under the pad it climbs at a known slope.
#[test]
fn a_pad_on_a_straight_that_climbs() {
    let mut job = Job::default();
    let side = &mut job.chainstays.right;
    side.rear.half_spacing = side.front.half_spacing;
    (side.tube.od_front, side.tube.od_rear, side.tube.wall) = (mm(20.0), mm(20.0), mm(1.0));
    (side.tube.length, side.tube.front_trim) = (mm(700.0), mm(0.0));
    side.tube.bends = Bends::of([bend((150.0, 0.0, 5.0, 150.0))]);
    // Turned so that the bend stands upright.
    side.tube.bends.roll = Some(degrees(90.0));
    let plan = plan(&job).unwrap();
    let at = CutAt { pair: PairName::Chainstays, hand: Hand::Left, at_front: false };
    let pad = BrakeMountFlat { ahead: mm(100.0), holes: mm(30.0), length: mm(50.0), above: mm(8.0) };
    let face = pad_face(&plan, at, &pad).unwrap();
    let bent = at.stay(&plan).bent.as_ref().unwrap();
    let clamp = at.stay(&plan).clamp;
    let (way, end) = (clamp.local_direction(&bent.rear_direction), clamp.local(&at.stay(&plan).rear_point));
    // The rear stretch's middle line climbs or falls straight to the rear reference point at height 0.
    let height = |u: f64| way.z / way.x * (u - end.x);
    let top = |u: f64| height(u) + 10.0 / way.x;
    let near = |a: Length, b: f64| assert!((a.mm() - b).abs() < 1e-9, "{} {b}", a.mm());
    assert!(height(330.0).abs() > 1.0);
    near(face.at_middle, height(330.0) + 10.0 * way.x.hypot(way.y) - 8.0);
    assert!(top(305.0).max(top(355.0)) - 8.0 > face.deepest.mm() - 0.2);
    let on_the_bend = BrakeMountFlat { ahead: mm(430.0 - 157.0), ..pad };
    assert_eq!(pad_face(&plan, at, &on_the_bend), None);
}
