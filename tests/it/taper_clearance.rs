//! Clearances of stays that taper steeply, straight and bent, against samples of their sections narrowed down to the nearest place.

use crate::support;

use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;
use staywright::clearance::{Clearance, Obstacle, clearances, clearances_along};
use staywright::model::{Bend, Bends, Boss, Columns, End, Hand, Job, PairName, Ring, Slot, Surroundings};
use staywright::placement::plan;
use staywright::plan::Plan;
use staywright::units::{Angle, Length};
use support::beside::known;
use support::skin::{Sample, Skin, least_between};

/// What the samples are narrowed to, mm.
const SAMPLED: f64 = 1e-5;

/// What is said to be surest may be off by this at most, mm: by a hundredth on either stay.
const SURE: f64 = 0.021;

/// Lengths of tapers, mm; the first are steps rather than tapers.
const LENGTHS: [f64; 7] = [0.5, 2.0, 6.0, 20.0, 40.0, 80.0, 160.0];

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

/// A bend: straight length before it, rotation, angle, radius.
type Turned = (f64, f64, f64, f64);

fn bend((before, rotation, angle, radius): Turned) -> Bend {
    Bend {
        before: mm(before),
        rotation: Angle::from_degrees(rotation),
        angle: Angle::from_degrees(angle),
        radius: mm(radius),
    }
}

/// Chainstays with up to two bends and a taper anywhere, over either cut too, that narrows or widens to the rear.
fn generated() -> impl Strategy<Value = Job> {
    let table = proptest::collection::vec((40.0..110.0, -180.0..180.0, 2.0..20.0, 70.0..260.0), 0..=2);
    let taper = (0.0..460.0, 0..LENGTHS.len(), 18.0..30.0, 10.0..17.0, proptest::bool::ANY);
    let shape = (28.0..36.0, 60.0..76.0, 0..3_usize, 30.0..50.0, -180.0..180.0);
    (table, taper, shape).prop_map(|(table, (start, length, wide, narrow, widens), shape)| {
        let (front, rear, end, chainline, roll) = shape;
        let mut surroundings = Surroundings::starting();
        surroundings.posts = Some(Columns { diameter: mm(25.0) });
        surroundings.rings = [Ring { chainline: mm(chainline), ..Ring::default() }].into_iter().collect();
        let mut job = Job { surroundings: Some(surroundings), ..Job::default() };
        (job.wheel.tyre_width, job.wheel.tyre_height) = (mm(35.0), mm(32.0));
        let stay = &mut job.chainstays.right;
        (stay.front.half_spacing, stay.rear.half_spacing) = (mm(front), mm(rear));
        stay.rear_end = [End::Slot(Slot::default()), End::Square, End::Boss(Boss::default())][end];
        let tube = &mut stay.tube;
        let (first, last) = if widens { (narrow, wide) } else { (wide, narrow) };
        (tube.length, tube.od_front, tube.od_rear) = (mm(620.0), mm(first), mm(last));
        (tube.taper_start, tube.taper_end) = (mm(start), mm(start + LENGTHS[length]));
        tube.bends = Bends::of(table.into_iter().map(bend));
        tube.bends.roll = tube.bends.roll.map(|_| Angle::from_degrees(roll));
        job
    })
}

/// The least distance of a stay from what a clearance is to.
fn sampled(plan: &Plan, hand: Hand, to: Obstacle, (skin, places): (&Skin<'_>, &[Sample])) -> f64 {
    match to {
        Obstacle::Other => 2.0 * skin.least(places, |point| point.y * hand.sign()),
        Obstacle::Post(i) => {
            let clamp = &plan.pairs.chainstays.stay(hand).clamp;
            let foot = clamp.origin + clamp.u * plan.job.fixture.posts[i].mm();
            skin.least(places, |point| (point - foot).cross(&clamp.w).norm() - 12.5)
        }
        to => {
            let solid = known(&plan.job, plan, hand, to);
            skin.least(places, |point| solid.distance(point))
        }
    }
}

fn of_stay(plan: &Plan, hand: Hand) -> Vec<Clearance> {
    let mut all = clearances(plan).into_iter();
    all.find(|room| room.pair == PairName::Chainstays && room.hand == hand).unwrap().clearances
}

/// The job of a steep taper that was once told by the ball at its knee, 0.058 mm too small.
#[test]
fn a_knee_is_an_edge() {
    let mut job = Job { surroundings: Some(Surroundings::starting()), ..Job::default() };
    let tube = &mut job.chainstays.right.tube;
    (tube.od_front, tube.od_rear) = (mm(22.2), mm(14.0));
    (tube.taper_start, tube.taper_end) = (mm(102.0), mm(142.0));
    let plan = plan(&job).unwrap();
    for hand in Hand::ALL {
        let skin = Skin::new(&plan, hand);
        let places: Vec<Sample> = skin.samples();
        for gap in of_stay(&plan, hand) {
            let least = sampled(&plan, hand, gap.to, (&skin, &places));
            let off = gap.distance.mm() - least;
            assert!(least < 0.3 || off.abs() < gap.error_bound + SAMPLED, "{hand:?} {gap:?} {least}");
        }
    }
}

/// Every clearance of 160 generated pairs, the other stay included: it stands as far beyond the centre plane.
#[test]
fn clearances_beside_steep_tapers_are_those_of_narrowed_samples() {
    let mut runner = TestRunner::deterministic();
    let (mut compared, mut wide) = (0, 0);
    for case in 0..160 {
        let job = generated().new_tree(&mut runner).unwrap().current();
        let plan = plan(&job).unwrap();
        let between = plan.pairs.chainstays.room_between.mm();
        for hand in Hand::ALL {
            let skin = Skin::new(&plan, hand);
            let places = skin.samples();
            for gap in of_stay(&plan, hand) {
                let found = gap.distance.mm();
                let least = sampled(&plan, hand, gap.to, (&skin, &places));
                let stay = format!("{case} {hand:?} {gap:?}: {least}");
                assert!(gap.to != Obstacle::Other || (between - found).abs() < 1e-9, "{stay} {between}");
                // A stay that runs into a disc has no distance outside it to sample.
                if gap.to != Obstacle::Other && (least < 0.3 || found < 0.3) {
                    assert!(least < 0.31 && found < 0.31, "{stay}");
                    continue;
                }
                assert!(found - gap.error_bound - SAMPLED <= least && least <= found + SAMPLED, "{stay}");
                assert!(gap.error_bound < SURE, "{stay}");
                assert!(((gap.here - gap.there).norm() - found.abs()).abs() < 1e-6, "{stay}");
                (compared, wide) = (compared + 1, wide + usize::from(found - least > 1e-4));
            }
        }
    }
    assert!(compared > 1500 && 100 * wide < compared, "{compared} {wide}");
}

/// Stays that differ, each of a generated pair of its own, and mirrors but for a hair.
#[test]
fn unlike_tapered_stays_are_as_far_apart_as_their_nearest_samples() {
    let mut runner = TestRunner::deterministic();
    let mut compared = 0;
    for case in 0..60 {
        let mut job = generated().new_tree(&mut runner).unwrap().current();
        let other = generated().new_tree(&mut runner).unwrap().current();
        let mirrored = plan(&job).unwrap().pairs.chainstays.room_between.mm();
        let right = job.chainstays.right;
        job.chainstays.left = Some(right);
        job.chainstays.left.as_mut().unwrap().rear.half_spacing = right.rear.half_spacing + mm(1e-6);
        let nearly = plan(&job).unwrap().pairs.chainstays.room_between.mm();
        assert!((mirrored - nearly).abs() < 1e-4, "{case}: {mirrored} {nearly}");
        job.chainstays.left = Some(other.chainstays.right);
        let plan = plan(&job).unwrap();
        let gap = of_stay(&plan, Hand::Left).into_iter().find(|gap| gap.to == Obstacle::Other).unwrap();
        let found = gap.distance.mm();
        let (left, right) = (Skin::new(&plan, Hand::Left), Skin::new(&plan, Hand::Right));
        let least = least_between(&left, &right);
        assert!(found - gap.error_bound <= least && gap.error_bound < SURE, "{case}: {gap:?} {least}");
        // Samples narrowed on either stay in turn come near slowly; but the places named lie on the stays, as far apart as is said.
        assert!((least - found).abs() < 2e-3, "{case}: {gap:?} {least}");
        assert!(((gap.here - gap.there).norm() - found).abs() < 1e-6, "{case} {gap:?}");
        for (skin, point) in [(&left, gap.here), (&right, gap.there)] {
            let off = skin.least(&skin.samples(), |place| (place - point).norm());
            assert!(off < SAMPLED, "{case}: {gap:?} {off}");
        }
        // The strip's slices are nowhere nearer, and where they are nearest they lie a station off at most.
        let strip = clearances_along(&plan, PairName::Chainstays, Hand::Left, Obstacle::Other, 101);
        let lowest = strip.iter().map(|(_, room)| room.mm()).fold(f64::INFINITY, f64::min);
        assert!(lowest > found - gap.error_bound - SURE && lowest < found + 1.0, "{case}: {lowest} {found}");
        compared += 1;
    }
    assert!(compared > 50, "{compared}");
}

/// By hand: two straight parallel stays leave what their widest places leave, to the millimetre of the taper's start.
#[test]
fn parallel_tapered_stays_leave_what_their_thick_ends_leave() {
    let mut job = Job { surroundings: Some(Surroundings::starting()), ..Job::default() };
    let stay = &mut job.chainstays.right;
    (stay.front.half_spacing, stay.rear.half_spacing) = (mm(35.0), mm(35.0));
    (stay.tube.od_front, stay.tube.od_rear) = (mm(24.0), mm(12.0));
    (stay.tube.taper_start, stay.tube.taper_end) = (mm(200.0), mm(201.0));
    let plan_ = plan(&job).unwrap();
    assert!((plan_.pairs.chainstays.room_between.mm() - (70.0 - 24.0)).abs() < 1e-9);
}
