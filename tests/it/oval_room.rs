//! The room beside oval stretches, steep ones and those that reach an end among them, against samples that are narrowed down
//! to the nearest place.

use crate::support;

use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;
use staywright::clearance::{Obstacle, clearances, clearances_along};
use staywright::model::{
    Bend, Bends, Boss, Columns, End, Hand, Job, Ovals, PairName, Press, Slot, Surroundings,
};
use staywright::placement::plan;
use staywright::units::{Angle, Length};
use support::beside::known;
use support::skin::{Sample, Skin, least_between};

/// How far a room may lie from the nearest sample, mm: radius times the square of the taper, as far as a ball stands back from a
/// corner of the outline (here 0.0012), and what the samples are narrowed to.
const SAMPLED: f64 = 2e-3;

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

/// A stretch pressed oval: how far behind the one before, how long, which blend, width, height, roll.
type Pressed = (f64, f64, usize, f64, f64, f64);

const BLENDS: [f64; 6] = [1.0, 1.5, 2.0, 5.0, 19.0, 40.0];

fn pressed(behind: f64, (gap, length, blend, width, height, roll): Pressed) -> Press {
    let blend = BLENDS[blend];
    let from = behind + gap + blend;
    let (width, height, roll) = (mm(width), mm(height), Angle::from_degrees(roll));
    Press { from: mm(from), to: mm(from + length), blend: mm(blend), width, height, roll }
}

/// Chainstays with up to two bends and one to three ovals, the first and the last of which may reach over an end.
fn generated() -> impl Strategy<Value = Job> {
    let table = proptest::collection::vec((40.0..90.0, -180.0..180.0, 2.0..12.0, 90.0..260.0), 0..=2);
    let stretch = || (0.5..120.0, 0.0..60.0, 0..BLENDS.len(), 13.0..26.0, 12.0..30.0, -180.0..180.0);
    let stretches = proptest::collection::vec(stretch(), 1..=3);
    let shape = (-170.0..40.0, 28.0..36.0, 60.0..76.0, 0..3_usize, proptest::bool::ANY);
    (table, -180.0..180.0, stretches, shape).prop_map(|(table, roll, stretches, shape)| {
        let (start, front, rear, end, tapers) = shape;
        let mut surroundings = Surroundings::starting();
        surroundings.posts = Some(Columns { diameter: mm(25.0) });
        let mut job = Job { surroundings: Some(surroundings), ..Job::default() };
        (job.wheel.tyre_width, job.wheel.tyre_height) = (mm(35.0), mm(32.0));
        let stay = &mut job.chainstays.right;
        (stay.front.half_spacing, stay.rear.half_spacing) = (mm(front), mm(rear));
        stay.rear_end = [End::Slot(Slot::default()), End::Square, End::Boss(Boss::default())][end];
        let tube = &mut stay.tube;
        let rear_od = if tapers { 17.0 } else { 22.0 };
        (tube.length, tube.od_front, tube.od_rear) = (mm(620.0), mm(22.0), mm(rear_od));
        (tube.taper_start, tube.taper_end) = (mm(120.0), mm(360.0));
        let bend = |(before, rotation, angle, radius): (f64, f64, f64, f64)| Bend {
            before: mm(before),
            rotation: Angle::from_degrees(rotation),
            angle: Angle::from_degrees(angle),
            radius: mm(radius),
        };
        tube.bends = Bends::of(table.into_iter().map(bend));
        tube.bends.roll = tube.bends.roll.map(|_| Angle::from_degrees(roll));
        let mut behind = start;
        let mut list = Vec::new();
        for stretch in stretches {
            let press = pressed(behind, stretch);
            behind = press.to.mm() + press.blend.mm();
            list.push(press);
        }
        tube.ovals = Ovals { list: list.into_iter().collect() };
        job
    })
}

/// Every room of 120 generated pairs, the other stay included: it stands as far beyond the centre plane.
#[test]
fn rooms_beside_ovals_are_those_of_narrowed_samples() {
    let mut runner = TestRunner::deterministic();
    let mut compared = 0;
    for case in 0..120 {
        let job = generated().new_tree(&mut runner).unwrap().current();
        let plan = plan(&job).unwrap();
        let all = clearances(&plan);
        for hand in Hand::ALL {
            let skin = Skin::new(&plan, hand);
            let places: Vec<Sample> =
                skin.places().into_iter().map(|place| (place, skin.point(place))).collect();
            let room =
                all.iter().find(|room| room.pair == PairName::Chainstays && room.hand == hand).unwrap();
            for gap in &room.clearances {
                let found = gap.distance.mm();
                let least = match gap.to {
                    Obstacle::Other => 2.0 * skin.least(&places, |point| point.y * hand.sign()),
                    Obstacle::Post(i) => {
                        let clamp = &plan.pairs.chainstays.stay(hand).clamp;
                        let foot = clamp.origin + clamp.u * job.fixture.posts[i].mm();
                        skin.least(&places, |point| (point - foot).cross(&clamp.w).norm() - 12.5)
                    }
                    to => {
                        let solid = known(&job, &plan, hand, to);
                        skin.least(&places, |point| solid.distance(point))
                    }
                };
                let stay = format!("{case} {hand:?} {:?} at {:?}: {found} {least}", gap.to, gap.station);
                // A stay that runs into a disc has no distance outside it to sample.
                if gap.to != Obstacle::Other && (least < 0.3 || found < 0.3) {
                    assert!(least < 0.31 && found < 0.31, "{stay}");
                    continue;
                }
                assert!((found - least).abs() < SAMPLED && gap.error_bound < 0.021, "{stay}");
                compared += 1;
            }
            let between = plan.pairs.chainstays.room_between.mm();
            let told = room.clearances.iter().find(|gap| gap.to == Obstacle::Other).unwrap().distance.mm();
            assert!((between - told).abs() < 1e-9, "{case}: {between} {told}");
        }
    }
    assert!(compared > 900, "{compared}");
}

/// Stays that differ: each of a generated pair of its own, and pairs that are each other's mirror but for a hair, which must be as
/// far apart as true mirrors.
#[test]
fn unlike_oval_stays_are_as_far_apart_as_their_nearest_samples() {
    let mut runner = TestRunner::deterministic();
    let mut compared = 0;
    for case in 0..40 {
        let mut job = generated().new_tree(&mut runner).unwrap().current();
        let other = generated().new_tree(&mut runner).unwrap().current();
        let mirrored = plan(&job).unwrap().pairs.chainstays.room_between.mm();
        job.chainstays.left = Some(job.chainstays.right);
        job.chainstays.left.as_mut().unwrap().rear.half_spacing =
            mm(job.chainstays.right.rear.half_spacing.mm() + 1e-6);
        let nearly = plan(&job).unwrap().pairs.chainstays.room_between.mm();
        assert!((mirrored - nearly).abs() < SAMPLED, "{case}: {mirrored} {nearly}");
        job.chainstays.left = Some(other.chainstays.right);
        let plan = plan(&job).unwrap();
        let all = clearances(&plan);
        let room =
            all.iter().find(|room| room.pair == PairName::Chainstays && room.hand == Hand::Left).unwrap();
        let gap = room.clearances.iter().find(|gap| gap.to == Obstacle::Other).unwrap();
        let found = gap.distance.mm();
        let least = least_between(&Skin::new(&plan, Hand::Left), &Skin::new(&plan, Hand::Right));
        assert!(found - gap.error_bound <= least && found - least < SAMPLED, "{case}: {found} {least}");
        assert!(least - found < SAMPLED, "{case}: {found} {least}");
        assert!(((gap.here - gap.there).norm() - found).abs() < 1e-9 && gap.error_bound < 0.011);
        // The strip's slices are nowhere nearer, and where they are nearest they lie a station off at most.
        let strip = clearances_along(&plan, PairName::Chainstays, Hand::Left, Obstacle::Other, 101);
        let lowest = strip.iter().map(|(_, room)| room.mm()).fold(f64::INFINITY, f64::min);
        assert!(
            lowest > found - SAMPLED - gap.error_bound && lowest < found + 1.0,
            "{case}: {lowest} {found}"
        );
        compared += 1;
    }
    assert!(compared > 30, "{compared}");
}
