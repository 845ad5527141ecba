//! The room from stays to what turns beside them: against dense sampling, published tables and figures worked by hand.

use crate::support;

use nalgebra::{Point3, Vector3};
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::{Config, TestRunner};
use staywright::clearance::{
    Obstacle, StayClearances, clearances, clearances_along, dimple, figure_for_room, pitch_diameter,
    tip_diameter, widest_tyre,
};
use staywright::model::{
    Bend, Bends, Boss, Columns, End, Group, Hand, Job, PairName, Press, Ring, Slot, SolveFor, Surroundings,
};
use staywright::placement::plan;
use staywright::plan::{Code, Plan, as_placed};
use staywright::units::{Angle, Length};
use support::beside::known;

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

fn bend(before: f64, rotation: f64, angle: f64, radius: f64) -> Bend {
    let (rotation, angle) = (Angle::from_degrees(rotation), Angle::from_degrees(angle));
    Bend { before: mm(before), rotation, angle, radius: mm(radius) }
}

fn room_of(all: &[StayClearances], pair: PairName, hand: Hand) -> &StayClearances {
    all.iter().find(|room| room.pair == pair && room.hand == hand).unwrap()
}

fn gap(all: &[StayClearances], pair: PairName, hand: Hand, to: Obstacle) -> f64 {
    let room = room_of(all, pair, hand);
    room.clearances.iter().find(|gap| gap.to == to).unwrap().distance.mm()
}

/// Stock list of a sprocket maker for half-inch pitch (No. 40): teeth and pitch diameter in inches. Read in the catalogue; the
/// list's 51 teeth are a misprint and left out.
const PITCH_IN: [(f64, f64); 14] = [
    (8.0, 1.307),
    (11.0, 1.775),
    (13.0, 2.089),
    (17.0, 2.721),
    (20.0, 3.196),
    (25.0, 3.989),
    (30.0, 4.783),
    (32.0, 5.101),
    (36.0, 5.737),
    (40.0, 6.373),
    (42.0, 6.691),
    (46.0, 7.327),
    (50.0, 7.963),
    (54.0, 8.599),
];

/// The same maker's finer list: teeth and outside diameter in inches.
const OUTSIDE_IN: [(f64, f64); 17] = [
    (14.0, 2.491),
    (15.0, 2.652),
    (16.0, 2.814),
    (17.0, 2.975),
    (18.0, 3.135),
    (20.0, 3.457),
    (22.0, 3.778),
    (24.0, 4.098),
    (26.0, 4.418),
    (28.0, 4.738),
    (30.0, 5.057),
    (32.0, 5.377),
    (36.0, 6.015),
    (42.0, 6.972),
    (48.0, 7.928),
    (52.0, 8.566),
    (60.0, 9.841),
];

#[test]
fn sprockets_are_as_large_as_the_stock_lists_say() {
    for (teeth, inches) in PITCH_IN {
        assert!((pitch_diameter(teeth).inches() - inches).abs() < 1.1e-3, "{teeth}");
    }
    for (teeth, inches) in OUTSIDE_IN {
        assert!((tip_diameter(teeth).inches() - inches).abs() < 1e-3, "{teeth}");
    }
}

/// Chainstays without splay or rise at the axle's height, so that all is seen from above.
fn parallel(half: f64, od: f64) -> Job {
    let mut job = Job { surroundings: Some(Surroundings::starting()), ..Job::default() };
    let stay = &mut job.chainstays.right;
    (stay.front.half_spacing, stay.rear.half_spacing) = (mm(half), mm(half));
    (stay.tube.od_front, stay.tube.od_rear) = (mm(od), mm(od));
    job.seatstays.right.front.half_spacing = mm(100.0);
    job.seatstays.right.rear.half_spacing = mm(100.0);
    job
}

/// By hand: beside a tyre of width W the room is the stay's inner side less half of W and the run-out; a 38-622 tyre is 698
/// over all (bead seat and twice the section, touring club sheet).
#[test]
fn parallel_stays_beside_a_tyre() {
    let mut job = parallel(45.0, 20.0);
    (job.wheel.tyre_width, job.wheel.tyre_height) = (mm(38.0), mm(38.0));
    let plan_ = plan(&job).unwrap();
    let all = clearances(&plan_);
    for hand in Hand::ALL {
        let found = gap(&all, PairName::Chainstays, hand, Obstacle::Tyre);
        assert!((found - (35.0 - 19.0 - 0.8)).abs() < 1e-6, "{found}");
        assert!((gap(&all, PairName::Chainstays, hand, Obstacle::Other) - 70.0).abs() < 1e-9);
        let place = room_of(&all, PairName::Chainstays, hand)
            .clearances
            .iter()
            .find(|gap| gap.to == Obstacle::Tyre)
            .unwrap();
        // Where the tyre is widest: half way up its section.
        assert!(((place.there - plan_.axle).xz().norm() - (311.0 + 19.0)).abs() < 1e-3);
    }
    // 6 mm are wanted: 2 (35 − 6 − 0.8).
    let widest = widest_tyre(&plan_).unwrap();
    assert!((widest.tyre_width.mm() - 56.4).abs() < 1e-6, "{widest:?}");
    assert!((widest.tyre_height.mm() - 56.4).abs() < 1e-6);
    // A measured width stands in for the nominal one.
    job.surroundings.as_mut().unwrap().measured_width = Some(mm(41.0));
    let found = gap(&clearances(&plan(&job).unwrap()), PairName::Chainstays, Hand::Right, Obstacle::Tyre);
    assert!((found - (35.0 - 20.5 - 0.8)).abs() < 1e-6);
}

/// By hand: a stay at right angles to discs' faces.
#[test]
fn parallel_stays_beside_discs() {
    let job = parallel(62.0, 16.0);
    let all = clearances(&plan(&job).unwrap());
    let at = |hand, to| gap(&all, PairName::Chainstays, hand, to);
    // Ring: chainline 45 and half of 4; stay's inner side at 54.
    assert!((at(Hand::Right, Obstacle::Chainring(0)) - (54.0 - 47.0)).abs() < 1e-6);
    let all = clearances(&plan(&parallel(40.0, 16.0)).unwrap());
    let at = |hand, to| gap(&all, PairName::Chainstays, hand, to);
    // Now inboard of all: crank arm from 60 outwards, heel from 80, rotor's inner face at 55.1, chain's at 64 − 3.1.
    assert!((at(Hand::Right, Obstacle::Crank) - (60.0 - 48.0)).abs() < 1e-6);
    assert!((at(Hand::Left, Obstacle::Heel) - (80.0 - 48.0)).abs() < 1e-6);
    assert!((at(Hand::Left, Obstacle::Rotor) - (55.1 - 48.0)).abs() < 1e-6);
    assert!(at(Hand::Right, Obstacle::Chain) > 64.0 - 3.1 - 48.0 - 1e-6);
}

/// By hand: columns of 30 on the centre line between stays whose inner sides are 32 off it.
#[test]
fn posts_between_parallel_stays() {
    let mut job = parallel(40.0, 16.0);
    job.surroundings.as_mut().unwrap().posts = Some(Columns { diameter: mm(30.0) });
    let all = clearances(&plan(&job).unwrap());
    for post in [0, 1] {
        let found = gap(&all, PairName::Chainstays, Hand::Left, Obstacle::Post(post));
        assert!((found - 17.0).abs() < 1e-6, "{found}");
    }
}

/// Points of a stay's outer surface, a millimetre and a few degrees apart, from the tube's own figures: circles square to its
/// middle line.
fn surface(
    plan: &Plan,
    job: &Job,
    hand: Hand,
    (from, to): (f64, f64),
    steps: (u32, u32),
) -> Vec<(f64, Point3<f64>)> {
    let stay = plan.pairs.chainstays.stay(hand);
    let tube = &job.chainstays.side(hand).tube;
    let bent = stay.bent.as_ref().unwrap();
    let mut points = Vec::new();
    for i in 0..=steps.0 {
        let s = from + (to - from) * f64::from(i) / f64::from(steps.0);
        let (point, tangent) = (bent.line.at(s).point, bent.line.at(s).tangent);
        let raw = s + bent.trim.mm();
        let share =
            ((raw - tube.taper_start.mm()) / (tube.taper_end.mm() - tube.taper_start.mm())).clamp(0.0, 1.0);
        let radius = 0.5 * (tube.od_front.mm() + share * (tube.od_rear.mm() - tube.od_front.mm()));
        let one = tangent.cross(&Vector3::z()).normalize();
        let other = tangent.cross(&one);
        for j in 0..steps.1 {
            let (sin, cos) = (f64::from(j) * std::f64::consts::TAU / f64::from(steps.1)).sin_cos();
            points.push((s, point + (one * cos + other * sin) * radius));
        }
    }
    points
}

/// A rear end with bent, tapering chainstays.
fn generated() -> impl Strategy<Value = Job> {
    let table = proptest::collection::vec((25.0..80.0, -180.0..180.0, 2.0..14.0, 90.0..260.0), 1..=3);
    let shape = (18.0..26.0, 26.0..36.0, 66.0..78.0, 18.0..24.0, 12.0..17.0);
    let around = (25.0..45.0, 25.0..45.0, 28.0..52.0, 40.0..54.0, 30.0..50.0);
    (table, -180.0..180.0, shape, around).prop_map(|(table, roll, shape, around)| {
        let mut surroundings = Surroundings::starting();
        let ring = Ring { chainline: mm(around.3), ..Ring::default() };
        let teeth = staywright::units::Count::of;
        surroundings.rings = [Ring { teeth: teeth(around.2), ..ring }, ring].into_iter().collect();
        let rotor = surroundings.rotor.as_mut().unwrap();
        (rotor.caliper, rotor.caliper_length) = (Angle::from_degrees(around.4), mm(around.4));
        let mut job = Job { surroundings: Some(surroundings), ..Job::default() };
        (job.wheel.tyre_width, job.wheel.tyre_height) = (mm(around.0), mm(around.1));
        let stay = &mut job.chainstays.right;
        (stay.front.half_spacing, stay.rear.half_spacing) = (mm(shape.1), mm(shape.2));
        stay.tube.bends = Bends::of(table.iter().map(|(a, b, c, d)| bend(*a, *b, *c, *d)));
        stay.tube.bends.roll = Some(Angle::from_degrees(roll));
        (stay.tube.od_front, stay.tube.od_rear) = (mm(shape.3), mm(shape.4));
        (stay.tube.taper_start, stay.tube.taper_end) = (mm(90.0), mm(330.0));
        stay.tube.length = mm(600.0);
        job
    })
}

/// 200 generated pairs of bent stays with one to three bends and a taper: no sampled point comes nearer than the gap found, and
/// some come as near, as far as the samples lie apart.
#[test]
fn gaps_are_those_of_dense_samples() {
    let mut compared = 0;
    let mut runner = TestRunner::new_with_rng(
        Config::default(),
        proptest::test_runner::TestRng::deterministic_rng(proptest::test_runner::RngAlgorithm::ChaCha),
    );
    for _ in 0..200 {
        let job = generated().new_tree(&mut runner).unwrap().current();
        let plan = plan(&job).unwrap();
        let all = clearances(&plan);
        for hand in Hand::ALL {
            let stay = plan.pairs.chainstays.stay(hand);
            let ends = (stay.front.long_point().unwrap().mm(), stay.rear.long_point().unwrap().mm());
            let coarse = surface(&plan, &job, hand, ends, (200, 36));
            for gap in &room_of(&all, PairName::Chainstays, hand).clearances {
                if gap.to == Obstacle::Other {
                    continue;
                }
                let solid = known(&job, &plan, hand, gap.to);
                let nearest = |points: &[(f64, Point3<f64>)]| {
                    let each = points.iter().map(|(s, point)| (solid.distance(point), *s));
                    each.min_by(|a, b| a.0.total_cmp(&b.0)).unwrap()
                };
                let (least, s) = nearest(&coarse);
                // A stay that runs into a disc has no distance outside it to sample.
                if least < 0.3 || gap.distance.mm() < 0.3 {
                    continue;
                }
                let around = ((s - 3.0).max(ends.0), (s + 3.0).min(ends.1));
                let (least, _) = nearest(&surface(&plan, &job, hand, around, (60, 720)));
                let found = gap.distance.mm();
                // The hull of balls lies a hair inside the sections on the taper.
                assert!(found <= least + 3e-3, "{hand:?} {:?}: {found} {least}", gap.to);
                // The samples are of the side alone; its end is a flat face.
                let at_end = (gap.station.mm() - ends.0).min(ends.1 - gap.station.mm()) < 0.1;
                assert!(at_end || found >= least - 6e-3, "{hand:?} {:?}: {found} {least} at {s}", gap.to);
                let apart = (gap.here - gap.there).norm();
                assert!(
                    (apart - found).abs() < 1e-6,
                    "the points lie as far apart as they should: {apart} {found}"
                );
                assert!(solid.distance(&gap.there).abs() < 1e-6 && gap.error_bound <= 0.0101);
                compared += 1;
            }
        }
    }
    assert!(compared > 1200, "{compared}");
}

/// The room between the stays is the least of sampled distances of their middle lines less their radii.
#[test]
fn the_room_between_bent_stays_is_that_of_dense_samples() {
    let mut runner = TestRunner::deterministic();
    for _ in 0..30 {
        let mut job = generated().new_tree(&mut runner).unwrap().current();
        let mut left = job.chainstays.right;
        left.front.half_spacing = left.front.half_spacing + mm(4.0);
        left.tube.bends.roll = left.tube.bends.roll.map(|roll| Angle::from_degrees(0.5 * roll.degrees()));
        job.chainstays.left = Some(left);
        let plan = plan(&job).unwrap();
        let found = gap(&clearances(&plan), PairName::Chainstays, Hand::Right, Obstacle::Other);
        let [right, left] = Hand::ALL.map(|hand| {
            let stay = plan.pairs.chainstays.stay(hand);
            let ends = (stay.front.long_point().unwrap().mm(), stay.rear.long_point().unwrap().mm());
            surface(&plan, &job, hand, ends, (100, 24))
        });
        let each = right.iter().flat_map(|(_, a)| left.iter().map(move |(_, b)| (a - b).norm()));
        let sampled = each.fold(f64::INFINITY, f64::min);
        assert!((found - plan.pairs.chainstays.room_between.mm()).abs() < 1e-5);
        // Samples are 4 mm apart, and the stays are nearest at their front ends, which count as round.
        assert!(found <= sampled + 3e-3 && found > sampled - 1.2, "{found} {sampled}");
    }
}

/// The figures found in the other direction leave just the room that is wanted.
#[test]
fn the_least_spacing_and_the_most_bend_leave_just_the_room() {
    let mut job = Job { surroundings: Some(Surroundings::starting()), ..Job::default() };
    let stay = (PairName::Chainstays, Hand::Right);
    job.chainstays.right.tube.bends =
        Bends::of([bend(60.0, 0.0, 9.0, 200.0), bend(60.0, 180.0, 12.0, 200.0)]);
    job.chainstays.right.tube.length = mm(480.0);
    job.chainstays.right.tube.bends.roll = Some(Angle::from_degrees(180.0));
    for (path, to) in [
        ("chainstays.right.front.half_spacing_mm", Obstacle::Tyre),
        ("chainstays.right.tube.bends[0].angle_deg", Obstacle::Tyre),
        ("chainstays.right.tube.front_trim_mm", Obstacle::Chainring(0)),
        ("chainstays.right.rear.half_spacing_mm", Obstacle::Chain),
    ] {
        let value = figure_for_room(&plan(&job).unwrap(), stay, to, path, 25.0).unwrap();
        assert!((value - job.figure(path).unwrap()).abs() <= 25.0);
        let there = clearances(&plan(&job.with_figure(path, value)).unwrap());
        let place = room_of(&there, stay.0, stay.1).clearances.iter().find(|gap| gap.to == to).unwrap();
        assert!(place.margin().mm().abs() < 1e-5, "{path}: {:?}", place.margin());
    }
    assert_eq!(
        figure_for_room(&plan(&job).unwrap(), stay, Obstacle::Rotor, "wheel.tyre_width_mm", 5.0),
        None
    );
    assert_eq!(figure_for_room(&plan(&job).unwrap(), stay, Obstacle::Tyre, "wheel.colour", 5.0), None);
}

#[test]
fn the_widest_tyre_just_fits() {
    let mut job = Job { surroundings: Some(Surroundings::starting()), ..Job::default() };
    job.chainstays.right.tube.bends =
        Bends::of([bend(100.0, 0.0, 6.0, 200.0), bend(60.0, 180.0, 8.0, 200.0)]);
    job.chainstays.right.tube.length = mm(480.0);
    let widest = widest_tyre(&plan(&job).unwrap()).unwrap();
    job.wheel = widest;
    let all = clearances(&plan(&job).unwrap());
    let spares = all.iter().flat_map(|room| &room.clearances).filter(|gap| gap.to == Obstacle::Tyre);
    let least = spares.map(|gap| gap.margin().mm()).fold(f64::INFINITY, f64::min);
    assert!(least.abs() < 1e-5, "{least}");
    // No tyre goes between stays that stand too near.
    job.chainstays.right.front.half_spacing = mm(0.0);
    assert_eq!(widest_tyre(&plan(&job).unwrap()), None);
}

#[test]
fn a_dimple_is_as_deep_as_what_is_wanting() {
    let mut job = Job { surroundings: Some(Surroundings::starting()), ..Job::default() };
    (job.wheel.tyre_width, job.wheel.tyre_height) = (mm(40.0), mm(40.0));
    let plan_ = plan(&job).unwrap();
    let found = dimple(&plan_, PairName::Chainstays, Hand::Left, Obstacle::Tyre).unwrap();
    let gap = gap(&clearances(&plan_), PairName::Chainstays, Hand::Left, Obstacle::Tyre);
    assert!((found.depth.mm() - (6.0 - gap)).abs() < 1e-9 && found.depth.mm() > 1.0);
    let all = clearances_along(&plan_, PairName::Chainstays, Hand::Left, Obstacle::Tyre, 4001);
    assert_eq!(all.len(), 4001);
    for (station, room) in &all {
        let inside = found.from.mm() + 1e-3 < station.mm() && station.mm() < found.to_station.mm() - 1e-3;
        assert!(!inside || room.mm() < 6.0, "{station:?}");
        assert!(inside || room.mm() > 6.0 - 1e-3, "{station:?}");
    }
    assert!(found.from < found.deepest && found.deepest < found.to_station);
    job.wheel.tyre_width = mm(20.0);
    job.wheel.tyre_height = mm(20.0);
    assert!(dimple(&plan(&job).unwrap(), PairName::Chainstays, Hand::Left, Obstacle::Tyre).is_none());
}

#[test]
fn a_strip_is_least_where_the_gap_is() {
    let job = generated().new_tree(&mut TestRunner::deterministic()).unwrap().current();
    let plan = plan(&job).unwrap();
    for room in clearances(&plan) {
        for gap in &room.clearances {
            let strip = clearances_along(&plan, room.pair, room.hand, gap.to, 801);
            let least = strip.iter().min_by(|a, b| a.1.mm().total_cmp(&b.1.mm())).unwrap();
            assert!(least.1.mm() > gap.distance.mm() - 0.011, "{gap:?} {least:?}");
            // A strip is of the side alone; the ends are flat faces.
            let at_end = strip.last().is_some_and(|last| last.0.mm() - gap.station.mm() < 0.1);
            assert!(at_end || least.1.mm() < gap.distance.mm() + 0.2, "{gap:?} {least:?}");
        }
    }
}

/// The place found is as good in the plan as the search said.
#[test]
fn the_place_found_leaves_what_the_search_says() {
    let mut job = generated().new_tree(&mut TestRunner::deterministic()).unwrap().current();
    job.chainstays.right.tube.bends =
        Bends::of([bend(90.0, 0.0, 9.0, 200.0), bend(60.0, 180.0, 12.0, 200.0)]);
    job.chainstays.right.tube.bends.find = SolveFor::Both;
    let found = plan(&job).unwrap();
    let bent = found.pairs.chainstays.right.bent.as_ref().unwrap();
    let all = clearances(&found);
    let stays =
        Hand::ALL.map(|hand| room_of(&all, PairName::Chainstays, hand).tightest().unwrap().margin().mm());
    // The search takes the tube to end where its middle line meets the member.
    assert!((stays[0].min(stays[1]) - bent.spare.unwrap()).abs() < 0.01, "{stays:?} {bent:?}");
    // The same place, entered, is the same plan.
    let tube = &mut job.chainstays.right.tube;
    (tube.bends.find, tube.bends.roll, tube.front_trim) = (SolveFor::Nothing, Some(bent.roll), bent.trim);
    let entered = plan(&job).unwrap();
    assert_eq!(entered.pairs.chainstays.right.length, found.pairs.chainstays.right.length);
    // No place near it, nor as it was entered, leaves more.
    let spare = |job: &Job| {
        let all = clearances(&plan(job).unwrap());
        let stays =
            Hand::ALL.map(|hand| room_of(&all, PairName::Chainstays, hand).tightest().unwrap().margin().mm());
        stays[0].min(stays[1])
    };
    for (trim, roll) in [(0.5, 0.0), (-0.5, 0.0), (0.0, 1.0), (0.0, -1.0), (3.0, 4.0), (-3.0, 4.0)] {
        let path = "chainstays.right.tube";
        let moved = job
            .with_figure(&format!("{path}.front_trim_mm"), bent.trim.mm() + trim)
            .with_figure(&format!("{path}.roll_deg"), bent.roll.degrees() + roll);
        assert!(spare(&moved) < bent.spare.unwrap() + bent.spare_within.unwrap() + 0.01);
    }
}

/// Bent chainstays with every kind of end, with and without an oval, each choice left to the solver.
fn to_be_found() -> Vec<Job> {
    let tables = [
        vec![bend(95.0, 0.0, 10.0, 150.0), bend(90.0, 180.0, 7.0, 150.0)],
        vec![bend(110.0, 0.0, 9.0, 200.0)],
        vec![bend(80.0, 40.0, 8.0, 180.0), bend(70.0, 140.0, 9.0, 180.0)],
    ];
    let ends = [End::Boss(Boss::default()), End::Slot(Slot::default()), End::Square];
    let all = tables.iter().flat_map(|bends| ends.iter().map(move |end| (bends, end)));
    let made = all.zip(
        [SolveFor::Roll, SolveFor::Trim, SolveFor::Both, SolveFor::Both, SolveFor::Roll].into_iter().cycle(),
    );
    let jobs = made.enumerate().map(|(i, ((bends, end), find))| {
        let mut job = Job { surroundings: Some(Surroundings::starting()), ..Job::default() };
        let (posts, side) = (i % 2 == 0, &mut job.chainstays.right);
        side.rear_end = *end;
        let tube = &mut side.tube;
        (tube.length, tube.bends) = (mm(480.0), Bends::of(bends.iter().copied()));
        tube.bends.find = find;
        if i % 4 == 3 {
            let press = Press { from: mm(30.0), to: mm(90.0), ..Press::default() };
            tube.ovals.list = [press].into_iter().collect();
        }
        if i % 3 == 1 {
            side.front_end = End::Square;
        }
        if let (true, Some(all)) = (posts, &mut job.surroundings) {
            all.posts = Some(Columns::default());
        }
        job
    });
    jobs.collect()
}

/// What the rooms of the chainstays have left at the tightest place; `None` where a cut lies past the tube or in a bend.
fn left_over(plan: &Plan) -> Option<f64> {
    let stay = &plan.pairs.chainstays.right;
    let bad = |code| matches!(code, Code::BendInCut | Code::CutPastTubeEnd);
    let spoilt =
        plan.warnings.iter().any(|w| w.location.key().starts_with("chainstays.right") && bad(w.code()));
    if spoilt || !stay.raw.as_ref()?.long_enough {
        return None;
    }
    let all = clearances(plan);
    let spare = |hand| Some(room_of(&all, PairName::Chainstays, hand).tightest()?.margin().mm());
    Some(spare(Hand::Right)?.min(spare(Hand::Left)?))
}

#[test]
fn what_is_found_has_the_room_that_is_told_and_no_other_place_has_more() {
    for (i, job) in to_be_found().into_iter().enumerate() {
        let found = plan(&job).unwrap();
        let bent = found.pairs.chainstays.right.bent.as_ref().unwrap();
        let (spare, within) = (bent.spare.unwrap(), bent.spare_within.unwrap());
        let told = left_over(&found).unwrap();
        // To what a nearest place is sure to: on an oval or at an end 0.01 mm.
        assert!((told - spare).abs() < 0.011, "{i}: {spare} {told}");
        let find = job.chainstays.right.tube.bends.find;
        let oval = !job.chainstays.right.tube.ovals.list.is_empty();
        let (mut laid, mut could) = (as_placed(&found), 0);
        for place in 1..=if oval { 60 } else { 300 } {
            // A spread of places that favours none (R₂ of Roberts), every other one near by.
            let step = f64::from(place);
            let (across, up) = (
                (step * 0.754_877_666_246_692_7).fract() - 0.5,
                (step * 0.569_840_290_998_053_2).fract() - 0.5,
            );
            let near = place % 2 == 0;
            let (wide, far) = if near { (6.0, 10.0) } else { (120.0, 360.0) };
            let tube = &mut laid.chainstays.right.tube;
            if find != SolveFor::Roll {
                tube.front_trim = mm(bent.trim.mm() + wide * across);
            }
            if find != SolveFor::Trim {
                tube.bends.roll = Some(Angle::from_degrees(bent.roll.degrees() + far * up));
            }
            if let Some(left) = plan(&laid).ok().and_then(|plan| left_over(&plan)) {
                could += 1;
                assert!(left <= spare + within, "{i}: {left} {spare} {within}");
            }
        }
        assert!(could > 20, "{i}: {could} other places would do");
    }
}

/// Neither reference point need lie on the tube: only the cuts.
#[test]
fn a_tube_may_begin_behind_its_reference_point() {
    for trim in [2.0, 0.0, -0.5, -5.0, -15.0] {
        let mut job = Job::default();
        let tube = &mut job.chainstays.right.tube;
        tube.bends = Bends::of([bend(120.0, 0.0, 10.0, 150.0), bend(80.0, 180.0, 8.0, 150.0)]);
        (tube.bends.find, tube.length, tube.front_trim) = (SolveFor::Roll, mm(470.0), mm(trim));
        let plan = plan(&job).unwrap();
        assert!(left_over(&plan).is_some(), "{trim}");
        assert!(plan.pairs.chainstays.right.bent.as_ref().unwrap().spare.is_some(), "{trim}");
    }
}

#[test]
fn a_tube_that_cannot_span_is_named_and_lies_as_entered() {
    let mut job = Job::default();
    let tube = &mut job.chainstays.right.tube;
    tube.bends = Bends::of([bend(90.0, 0.0, 9.0, 200.0)]);
    (tube.bends.find, tube.length) = (SolveFor::Both, mm(370.0));
    let plan = plan(&job).unwrap();
    let file = support::json(&plan);
    let named = file["warnings"].as_array().unwrap().iter().filter(|w| w["code"] == "tube_cannot_span");
    assert_eq!(
        named.map(|w| w["where"].as_str().unwrap()).collect::<Vec<_>>(),
        ["chainstays.right", "chainstays.left"]
    );
    let bent = plan.pairs.chainstays.right.bent.as_ref().unwrap();
    assert_eq!((bent.trim.mm(), bent.roll.degrees(), bent.spare), (10.0, 0.0, None));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(120))]

    /// Whatever can be entered about the stays has rooms, and they are numbers.
    #[test]
    fn no_room_is_infinite(job in generated(), picks in proptest::collection::vec(0.0..1.0, 60), spread in prop_oneof![Just(0.1), Just(1.0)]) {
        let mut picks = picks.iter().cycle();
        let job = job.map("", &mut |path, spec, value| {
            let stray = (picks.next().unwrap() - 0.5) * spread * (spec.bounds.max - spec.bounds.min);
            let moved = if path.starts_with("surroundings") || path.starts_with("wheel") { value + stray } else { value };
            spec.bounds.nearest(moved)
        });
        let plan = plan(&job).unwrap();
        for room in clearances(&plan) {
            let json = serde_json::to_value(&room).unwrap();
            for gap in &room.clearances {
                prop_assert!(gap.distance.mm().is_finite() && gap.error_bound.is_finite(), "{:?}", gap);
            }
            prop_assert_eq!(support::numbers(&json).len(), 10 * room.clearances.len());
        }
    }
}

/// Every published figure belongs to one that can be entered, and may be entered there.
#[test]
fn published_figures_have_their_place() {
    let job = Job { surroundings: Some(Surroundings::starting()), ..Job::default() };
    for sourced in staywright::model::SOURCES {
        let path = format!("surroundings.{}", sourced.key.replace("chainrings.", "chainrings[0]."));
        let spec = job.spec(&path).unwrap_or_else(|| panic!("{path}"));
        assert!(spec.bounds.contain(sourced.value) && !sourced.source.is_empty(), "{path}");
    }
}
