//! How the posts hold a bent tube whose bends, trim and roll are off.
//!
//! All in the clamp frame with its second axis turned outboard, so that a left tube reads as a right one.

use super::as_cut::DEGREE;
use super::errors::StayErrors;
use crate::geometry::{Centreline, Frame, Line, Turn};
use crate::model::Bend;
use crate::plan::{CutAt, Plan, StayPose, stay_pose};
use crate::units::Real;
use nalgebra::{Point3, Vector2, Vector3};

/// Rounds of sliding the tube until its mark stands on the datum line. What is left shrinks at least
/// tenfold each time on a stay whose ends run within 15° of its chord.
const ROUNDS: usize = 12;

/// A raw direction with less than this of its length square to the tube's chord says too little of the tube's roll.
const ASIDE: f64 = 0.3;

/// A bent tube as planned.
#[derive(Clone, Debug)]
pub(super) struct BentSetUp {
    turns: Vec<Turn>,
    /// Station of the raw tube at the front reference point.
    trim: f64,
    /// The two places that hold it.
    held: [Point3<f64>; 2],
    /// Their stations from the front reference point.
    pub(super) stations: [f64; 2],
    /// A direction of the raw tube, and where it points when the tube lies as planned, as far as it is square to the line
    /// between the two places.
    marked: (Vector3<f64>, Vector3<f64>),
    /// Station of the rear reference point.
    length: f64,
    /// The straight stays that its two ends are cut as.
    pub(super) front: Line,
    pub(super) rear: Line,
    /// The stretches of its middle line that these run along.
    cut_on: [CutOn; 2],
    /// Its reference points, along and outboard.
    pub(super) chord: [Vector2<f64>; 2],
    /// Its middle line.
    pub(super) line: Centreline,
}

/// The stretch of a bent tube that an end is cut on. A bend nearby that springs back shifts its ends, but not which it is.
#[derive(Clone, Copy, Debug)]
struct CutOn {
    /// Its place among the stretches of the middle line.
    stretch: usize,
    /// A station of it, mm; where the end is cut in a bend, the one that the cut is planned about.
    station: f64,
}

impl CutOn {
    /// The straight stay that the end is cut as.
    fn axis<T: Real>(self, line: &Centreline<T>) -> Line<T> {
        let station = T::of(self.station);
        line.stretches().get(self.stretch).map_or_else(|| line.tangent(station), |on| on.tangent(station))
    }
}

fn square_to<T: Real>(vector: &Vector3<T>, direction: &Vector3<T>) -> Vector3<T> {
    vector - direction * vector.dot(direction)
}

fn turn(bend: &Bend) -> Turn {
    Turn {
        before: bend.before.mm(),
        rotation: bend.rotation.radians(),
        angle: bend.angle.radians(),
        radius: bend.radius.mm(),
    }
}

impl BentSetUp {
    /// `None` for a straight stay. `posts` are the places along the fixture that hold it, where there are two.
    pub(super) fn new(plan: &Plan, at: CutAt, posts: Option<[f64; 2]>) -> Option<Self> {
        let stay = at.stay(plan);
        let bent = stay.bent.as_ref()?;
        let outboard = |v: Vector3<f64>| Vector3::new(v.x, v.y * at.hand.sign(), v.z);
        let direction = |v: &Vector3<f64>| outboard(stay.clamp.local_direction(v));
        let point = |p: &Point3<f64>| Point3::from(outboard(stay.clamp.local(p)));
        let line = bent.line.seen(point, direction);
        let end = |at_front| {
            let StayPose { axis, seen_from, .. } = stay_pose(plan, CutAt { at_front, ..at });
            let axis = Line { point: point(&axis.point), direction: direction(&axis.direction) };
            (axis, CutOn { stretch: line.place(seen_from), station: seen_from })
        };
        let ((front, front_on), (rear, rear_on)) = (end(true), end(false));
        let length = stay.length.mm();
        let crossing = |u: f64| line.level((0.0, length), &Point3::origin(), &Vector3::x(), u);
        let crossed = posts.and_then(|[a, b]| Some([crossing(a)?, crossing(b)?]));
        let stations = crossed.unwrap_or([0.0, length]);
        let held = stations.map(|station| line.at(station).point);
        let turns = plan.job.pair(at.pair).side(at.hand).tube.bends.list.iter().map(turn).collect();
        let along = (held[1] - held[0]).normalize();
        let (mark, tangent) = (line.mark(-bent.trim.mm()), line.at(-bent.trim.mm()).tangent);
        let marks = [(Vector3::y(), mark), (Vector3::z(), tangent.cross(&mark))];
        let marked = marks.map(|(raw, nominal)| (raw, square_to(&nominal, &along)));
        let [first, second] = marked;
        Some(Self {
            turns,
            trim: bent.trim.mm(),
            held,
            stations,
            marked: if first.1.norm() > ASIDE { first } else { second },
            length,
            front,
            rear,
            cut_on: [front_on, rear_on],
            chord: [stay.front_point, stay.rear_point].map(|p| point(&p).coords.xy()),
            line,
        })
    }

    /// How far outboard the nominal tube passes a place along the fixture, and how much it gains outboard there per length along.
    pub(super) fn passes(&self, along: f64) -> Option<(f64, f64)> {
        let station = self.line.level((0.0, self.length), &Point3::origin(), &Vector3::x(), along)?;
        let here = self.line.at(station);
        Some((here.point.y, here.tangent.y / here.tangent.x))
    }

    /// Which bends it has, by number from 1: a bend of angle 0 is none.
    pub(super) fn bends(&self) -> impl Iterator<Item = u8> + '_ {
        (1..).zip(&self.turns).filter(|(_, turn)| turn.angle > 0.0).map(|(number, _)| number)
    }

    /// How far it stands beside the nominal place at its two posts is `aside`, outboard.
    pub(super) fn posed<T: Real>(&self, errors: &StayErrors<T>, aside: [T; 2]) -> Posed<T> {
        let turns: Vec<Turn<T>> =
            self.turns.iter().zip(errors.bends).map(|(turn, off)| bent_otherwise(turn, off)).collect();
        let raw = Centreline::new(Frame::origin(), T::zero(), &turns);
        let [one, other] = self.held.map(|place| place.map(T::of));
        let [one_aside, other_aside] = aside.map(|aside| Vector3::y() * aside);
        let (axis, span) = Line::between(one + one_aside, other + other_aside);
        let grip =
            Grip { axis, span, first: self.rolled(&axis.direction, errors.roll), raw_mark: self.marked.0 };
        let mark = T::of(self.trim) + errors.front_trim;
        let mut station = mark + T::of(self.stations[0]);
        for _ in 0..ROUNDS {
            // A mark that stands behind the datum line wants the tube further forwards.
            station += grip.map(&raw, station).point(&raw.at(mark).point).x;
        }
        let lies = grip.map(&raw, station);
        let line = raw.seen(|point| lies.point(point), |way| lies.way(way)).counted_from(mark);
        let [front, rear] = self.cut_on.map(|on| on.axis(&line));
        Posed { line, front, rear }
    }

    /// Where the marked direction points about `axis` when the roll is off by so many degrees.
    fn rolled<T: Real>(&self, axis: &Vector3<T>, off: T) -> Vector3<T> {
        let nominal = square_to(&self.marked.1.map(T::of), axis).normalize();
        let (sin, cos) = (off * T::of(DEGREE)).sin_cos();
        nominal * cos + axis.cross(&nominal) * sin
    }
}

fn bent_otherwise<T: Real>(turn: &Turn, off: T) -> Turn<T> {
    Turn {
        before: T::of(turn.before),
        rotation: T::of(turn.rotation),
        angle: if turn.angle > 0.0 { T::of(turn.angle) + off * T::of(DEGREE) } else { T::zero() },
        radius: T::of(turn.radius),
    }
}

/// A bent tube as it is held.
#[derive(Clone, Debug)]
pub(super) struct Posed<T: Real> {
    /// Its middle line; stations count from its mark.
    pub(super) line: Centreline<T>,
    /// The straight stays that it is part of at its ends.
    pub(super) front: Line<T>,
    pub(super) rear: Line<T>,
}

/// What holds the tube: two places, and the direction about the line between them in which its marked side points.
struct Grip<T: nalgebra::Scalar> {
    axis: Line<T>,
    span: T,
    first: Vector3<T>,
    raw_mark: Vector3<f64>,
}

impl<T: Real> Grip<T> {
    /// How the raw tube lies when its place at `station` is in the first post and a later one in the second.
    fn map(&self, raw: &Centreline<T>, station: T) -> Lies<T> {
        let from = raw.at(station).point;
        let chord = (raw.at(raw.reach(station, self.span)).point - from) / self.span;
        let normal = square_to(&self.raw_mark.map(T::of), &chord).normalize();
        Lies {
            from,
            to: self.axis.point,
            raw: [chord, normal, chord.cross(&normal)],
            held: [self.axis.direction, self.first, self.axis.direction.cross(&self.first)],
        }
    }
}

/// Where the raw tube's places and directions come to lie.
struct Lies<T: nalgebra::Scalar> {
    from: Point3<T>,
    to: Point3<T>,
    raw: [Vector3<T>; 3],
    held: [Vector3<T>; 3],
}

impl<T: Real> Lies<T> {
    fn way(&self, way: &Vector3<T>) -> Vector3<T> {
        let parts = self.raw.iter().zip(&self.held).map(|(raw, held)| held * way.dot(raw));
        parts.fold(Vector3::zeros(), |sum, part| sum + part)
    }

    fn point(&self, point: &Point3<T>) -> Point3<T> {
        self.to + self.way(&(point - self.from))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::{Bends, Hand, Job, PairName};
    use crate::placement::plan;
    use crate::units::{Angle, Length};

    /// Whatever is off, the tube goes through both posts as they stand and its mark stands on the datum line.
    #[test]
    fn posts_and_mark_hold_the_tube() {
        let bend = |before: f64, rotation: f64, angle: f64, radius: f64| Bend {
            before: Length::from_mm(before),
            rotation: Angle::from_degrees(rotation),
            angle: Angle::from_degrees(angle),
            radius: Length::from_mm(radius),
        };
        let mut job = Job::default();
        let tube = &mut job.chainstays.right.tube;
        tube.bends = Bends::of([bend(90.0, 12.0, 14.0, 180.0), bend(60.0, 150.0, 19.0, 200.0)]);
        tube.bends.roll = Some(Angle::from_degrees(130.0));
        tube.length = Length::from_mm(600.0);
        let plan = plan(&job).expect("a job without faults");
        for hand in Hand::ALL {
            let at = CutAt { pair: PairName::Chainstays, hand, at_front: true };
            let nominal = BentSetUp::new(&plan, at, Some([60.0, 310.0])).expect("bent");
            let mut errors = StayErrors::<f64>::none();
            (errors.front_trim, errors.roll) = (4.0, 3.0);
            (errors.bends[0], errors.bends[1]) = (2.0, -1.5);
            let posed = nominal.posed(&errors, [0.7, -0.4]);
            assert!(posed.line.at(0.0).point.x.abs() < 1e-10, "{}", posed.line.at(0.0).point.x);
            for ((u, aside), held) in [(60.0, 0.7), (310.0, -0.4)].into_iter().zip(nominal.held) {
                let station =
                    posed.line.level((0.0, 500.0), &Point3::origin(), &Vector3::x(), u).expect("crossed");
                let wanted = held + Vector3::y() * aside;
                assert!((posed.line.at(station).point - wanted).norm() < 1e-9);
            }
            let still = nominal.posed(&StayErrors::none(), [0.0; 2]);
            assert!((still.line.at(200.0).point - nominal.line.at(200.0).point).norm() < 1e-9);
        }
    }
}
