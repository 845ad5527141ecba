//! The room beside oval stretches, steep ones and those that reach an end among them, against samples that are narrowed down
//! to the nearest place.

use crate::support;

use nalgebra::{Point3, Vector3};
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;
use staywright::clearance::{Neighbour, rooms, strip};
use staywright::model::{
    Bend, Bends, Boss, Columns, End, Hand, Job, Ovals, PairName, Press, Slot, Surroundings, Tube,
};
use staywright::placement::plan;
use staywright::plan::Plan;
use staywright::units::{Angle, Length};
use support::beside::known;
use support::pressed::polar;

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

/// The place, the way on and the tube's mark by station.
type Middle<'a> = Box<dyn Fn(f64) -> (Point3<f64>, Vector3<f64>, Vector3<f64>) + 'a>;

/// A place on the skin or an end: station, share of the radius, direction from the tube's mark.
type Place = [f64; 3];

/// A place with its point.
type Sample = (Place, Point3<f64>);

/// A stay's skin and flat ends.
struct Skin<'a> {
    tube: &'a Tube,
    trim: f64,
    ends: (f64, f64),
    sign: f64,
    at: Middle<'a>,
}

impl<'a> Skin<'a> {
    fn new(plan: &'a Plan, hand: Hand) -> Self {
        let stay = plan.pairs.chainstays.stay(hand);
        let tube = &plan.job.chainstays.side(hand).tube;
        let ends = (stay.front.long_point().unwrap().mm(), stay.rear.long_point().unwrap().mm());
        let chord = (stay.rear_point - stay.front_point).normalize();
        let outboard = Vector3::y() * hand.sign();
        let level = (outboard - chord * outboard.dot(&chord)).normalize();
        let at = move |s: f64| match &stay.bent {
            Some(bent) => (bent.line.at(s).point, bent.line.at(s).tangent, bent.line.mark(s)),
            None => (stay.front_point + chord * s, chord, level),
        };
        let trim = stay.bent.as_ref().map_or(tube.front_trim.mm(), |bent| bent.trim.mm());
        Self { tube, trim, ends, sign: hand.sign(), at: Box::new(at) }
    }

    fn point(&self, [s, share, angle]: Place) -> Point3<f64> {
        let (middle, tangent, mark) = (self.at)(s);
        let up = tangent.cross(&mark) * self.sign;
        middle + (mark * angle.cos() + up * angle.sin()) * (share * polar(self.tube, s + self.trim, angle))
    }

    /// Places all over the skin and the ends; more where an oval starts and ends.
    fn places(&self) -> Vec<Place> {
        let (from, to) = self.ends;
        let mut stations: Vec<f64> = (0..=250).map(|i| from + (to - from) * f64::from(i) / 250.0).collect();
        for oval in self.tube.ovals.list.iter() {
            let blend = oval.blend.mm();
            let knots = [oval.from.mm() - blend, oval.from.mm(), oval.to.mm(), oval.to.mm() + blend];
            stations.extend(knots.map(|raw| raw - self.trim).into_iter().filter(|s| from <= *s && *s <= to));
        }
        let around = || (0..72).map(|i| f64::from(i).to_radians() * 5.0);
        let skin = stations.iter().flat_map(|s| around().map(|angle| [*s, 1.0, angle]));
        let circles = [from, to].into_iter().flat_map(|s| (0..8).map(move |i| (s, f64::from(i) / 8.0)));
        let faces = circles.flat_map(|(s, share)| around().map(move |angle| [s, share, angle]));
        skin.chain(faces).collect()
    }

    /// The least value of `distance` all over the stay, from its lowest samples on.
    fn least(&self, places: &[Sample], distance: impl Fn(&Point3<f64>) -> f64) -> f64 {
        let mut rough: Vec<(f64, Place)> =
            places.iter().map(|(place, point)| (distance(point), *place)).collect();
        rough.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut starts: Vec<Place> = Vec::new();
        for (_, place) in rough {
            let beside =
                |known: &Place| (known[0] - place[0]).abs() <= 4.0 && (known[1] < 1.0) == (place[1] < 1.0);
            if starts.len() < 4 && !starts.iter().any(beside) {
                starts.push(place);
            }
        }
        starts.into_iter().map(|start| self.narrowed(start, &distance).1).fold(f64::INFINITY, f64::min)
    }

    /// The lowest place about one, and the value there. On an end the steps go straight across it.
    fn narrowed(&self, start: Place, distance: &impl Fn(&Point3<f64>) -> f64) -> (Place, f64) {
        let (mut best, mut least) = (start, distance(&self.point(start)));
        let on_end = start[1] < 1.0;
        let grid = || (-4..=4).map(|i| f64::from(i) / 4.0);
        let stepped = |[station, share, angle]: Place, i: f64, j: f64| {
            if on_end {
                let (across, up) = (share * angle.cos() + 0.1 * i, share * angle.sin() + 0.1 * j);
                [station, across.hypot(up).min(1.0), up.atan2(across)]
            } else {
                [(station + 2.0 * i).max(self.ends.0).min(self.ends.1), share, angle + 0.1 * j]
            }
        };
        let mut reach = 1.0;
        for _ in 0..80 {
            let middle = best;
            for (i, j) in grid().flat_map(|i| grid().map(move |j| (i, j))) {
                let place = stepped(middle, reach * i, reach * j);
                let value = distance(&self.point(place));
                if value < least {
                    (best, least) = (place, value);
                }
            }
            reach *= 0.8;
        }
        (best, least)
    }
}

/// Every room of 120 generated pairs, the other stay included: it stands as far beyond the centre plane.
#[test]
fn rooms_beside_ovals_are_those_of_narrowed_samples() {
    let mut runner = TestRunner::deterministic();
    let mut compared = 0;
    for case in 0..120 {
        let job = generated().new_tree(&mut runner).unwrap().current();
        let plan = plan(&job).unwrap();
        let all = rooms(&plan);
        for hand in Hand::ALL {
            let skin = Skin::new(&plan, hand);
            let places: Vec<Sample> =
                skin.places().into_iter().map(|place| (place, skin.point(place))).collect();
            let room =
                all.iter().find(|room| room.pair == PairName::Chainstays && room.hand == hand).unwrap();
            for gap in &room.gaps {
                let found = gap.gap.mm();
                let least = match gap.to {
                    Neighbour::Other => 2.0 * skin.least(&places, |point| point.y * hand.sign()),
                    Neighbour::Post(i) => {
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
                if gap.to != Neighbour::Other && (least < 0.3 || found < 0.3) {
                    assert!(least < 0.31 && found < 0.31, "{stay}");
                    continue;
                }
                assert!((found - least).abs() < SAMPLED && gap.within < 0.021, "{stay}");
                compared += 1;
            }
            let between = plan.pairs.chainstays.room_between.mm();
            let told = room.gaps.iter().find(|gap| gap.to == Neighbour::Other).unwrap().gap.mm();
            assert!((between - told).abs() < 1e-9, "{case}: {between} {told}");
        }
    }
    assert!(compared > 900, "{compared}");
}

/// The least distance of two stays' skins and ends: of all pairs of coarse samples the lowest, narrowed on either in turn.
fn least_between(one: &Skin<'_>, other: &Skin<'_>) -> f64 {
    let places = |skin: &Skin<'_>| -> Vec<Sample> {
        let all = skin.places().into_iter().step_by(7);
        all.map(|place| (place, skin.point(place))).collect()
    };
    let (mine, others) = (places(one), places(other));
    let pairs = mine.iter().flat_map(|a| others.iter().map(move |b| ((a.1 - b.1).norm(), a.0, b.0)));
    let mut starts: Vec<(f64, Place, Place)> = Vec::new();
    for pair in pairs {
        let beside = starts.iter_mut().find(|known| (known.1[0] - pair.1[0]).abs() < 20.0);
        match beside {
            Some(known) if pair.0 < known.0 => *known = pair,
            None => starts.push(pair),
            _ => {}
        }
    }
    starts.sort_by(|a, b| a.0.total_cmp(&b.0));
    let settle = |(_, here, there): &(f64, Place, Place)| {
        let (mut here, mut there, mut least) = (*here, *there, f64::INFINITY);
        for _ in 0..12 {
            (here, _) = one.narrowed(here, &|point: &Point3<f64>| (point - other.point(there)).norm());
            (there, least) = other.narrowed(there, &|point: &Point3<f64>| (point - one.point(here)).norm());
        }
        least
    };
    starts.iter().take(3).map(settle).fold(f64::INFINITY, f64::min)
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
        let all = rooms(&plan);
        let room =
            all.iter().find(|room| room.pair == PairName::Chainstays && room.hand == Hand::Left).unwrap();
        let gap = room.gaps.iter().find(|gap| gap.to == Neighbour::Other).unwrap();
        let found = gap.gap.mm();
        let least = least_between(&Skin::new(&plan, Hand::Left), &Skin::new(&plan, Hand::Right));
        assert!(found - gap.within <= least && found - least < SAMPLED, "{case}: {found} {least}");
        assert!(least - found < SAMPLED, "{case}: {found} {least}");
        assert!(((gap.here - gap.there).norm() - found).abs() < 1e-9 && gap.within < 0.011);
        // The strip's slices are nowhere nearer, and where they are nearest they lie a station off at most.
        let strip = strip(&plan, PairName::Chainstays, Hand::Left, Neighbour::Other, 101);
        let lowest = strip.iter().map(|(_, room)| room.mm()).fold(f64::INFINITY, f64::min);
        assert!(lowest > found - SAMPLED - gap.within && lowest < found + 1.0, "{case}: {lowest} {found}");
        compared += 1;
    }
    assert!(compared > 30, "{compared}");
}
