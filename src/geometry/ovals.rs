//! The least distance between two bodies about centrelines by their true sections and flat ends.

use super::parts::Part;
use super::pipe::{Best, MOST, OVAL_SURE, ROUNDS, Span, place};
use super::solid::{HalfSpace, Rod};
use super::{Closest, Line, Pipe};
use crate::quantity::Real;
use nalgebra::{Point3, Vector3};

/// Bodies closer than this count as touching.
const TOUCHES: f64 = 1e-6;

/// Times that two sections' nearest points are sought in turn. Each leaves a tenth of what is left or less where the sections are
/// further apart than a third of what they are wide.
const TURNS: usize = 4;

/// The same where the nearest place is brought to its bottom, each turn of which goes along both bodies.
const LAST_TURNS: usize = 8;

/// Two stretches whose middle sections are near each other.
type Near<'a, T> = (Span<'a, T>, Span<'a, T>);

/// A stretch of stations on each body.
struct Pairing<'a, T: nalgebra::Scalar>(Span<'a, T>, Span<'a, T>);

impl<'a, T: Real> Pairing<'a, T> {
    fn halves(self) -> [Self; 2] {
        let Self(one, other) = self;
        if one.half > other.half {
            one.halves().map(|half| Self(half, other))
        } else {
            other.halves().map(|half| Self(one, half))
        }
    }

    /// Offers the distance of the two middle sections; gives the floor under all distances of the two stretches. Nobody asks
    /// for those that are no nearer than the best.
    ///
    /// Bodies are no nearer than two parallel planes between them. Through the nearest points of the middle sections these lie
    /// as far apart as the sections do, and by how much the stretches reach over them falls with the square of their length.
    fn look(&self, best: &mut Best<Near<'a, T>>) -> f64 {
        let Self(one, other) = self;
        let [a, b] = [one, other].map(|span| span.part.stretch.at(T::of(span.middle)).point);
        let below = self.between((&a, &b), |span, plane| span.below(plane));
        if below >= best.least - OVAL_SURE {
            return below;
        }
        let (mut here, mut there) = (a, b);
        for _ in 0..TURNS {
            here = nearest(one, &there);
            there = nearest(other, &here);
        }
        best.offer((here - there).norm().value(), || (*one, *other));
        below.max(self.between((&here, &there), |span, plane| span.floor(plane).1))
    }

    /// How far planes through two points, square to the way from one to the other, keep the stretches apart.
    fn between(
        &self,
        (here, there): (&Point3<T>, &Point3<T>),
        floor: impl Fn(&Span<'a, T>, &HalfSpace<T>) -> f64,
    ) -> f64 {
        let apart = here - there;
        let distance = apart.norm();
        if distance.value() <= TOUCHES {
            return f64::NEG_INFINITY;
        }
        let out = apart / distance;
        let (behind, before) = (HalfSpace { edge: *there, out }, HalfSpace { edge: *here, out: -out });
        floor(&self.0, &behind) + floor(&self.1, &before) - distance.value()
    }
}

/// The point of the ball or of the full section at a span's middle that is nearest to a point.
fn nearest<T: Real>(span: &Span<'_, T>, point: &Point3<T>) -> Point3<T> {
    let (part, station) = (span.part, T::of(span.middle));
    let middle = part.stretch.at(station).point;
    match &part.section {
        Some(section) => section.nearest_to(&part.stretch.marked(station), point, station),
        None => {
            let way = point - middle;
            let distance = way.norm();
            let radius = part.radius(station);
            if distance.value() <= radius.value() { *point } else { middle + way * (radius / distance) }
        }
    }
}

/// Where two pipes come nearest, as seen from the first, and the station on the second. Unlike [`gap_between`](super::gap_between)
/// it takes their ends as flat and their sections as they are, and says nothing of how deep they run into each other: `None` where they
/// touch, and for a pipe without length.
///
/// Branch and bound over pairs of stretches, each with the planes that keep its two apart.
pub fn sections_apart<T: Real>(a: &Pipe<'_, T>, b: &Pipe<'_, T>) -> Option<(Closest<T>, T)> {
    let (ones, others) = (a.flat_parts(), b.flat_parts());
    let mut open: Vec<Pairing<'_, T>> = Vec::with_capacity(ones.len() * others.len());
    for one in ones.iter().enumerate().map(Span::whole) {
        open.extend(others.iter().enumerate().map(|other| Pairing(one, Span::whole(other))));
    }
    let mut best = Best { least: f64::INFINITY, found: None };
    let mut within = OVAL_SURE;
    for round in 1..=ROUNDS {
        let floors: Vec<f64> = open.iter().map(|pairing| pairing.look(&mut best)).collect();
        if best.least <= TOUCHES {
            return None;
        }
        let lowest = floors.iter().copied().fold(f64::INFINITY, f64::min);
        let hopeful = open.into_iter().zip(floors).filter(|(_, floor)| *floor < best.least - OVAL_SURE);
        open = hopeful.flat_map(|(pairing, _)| pairing.halves()).collect();
        if open.is_empty() {
            break;
        }
        if round == ROUNDS || open.len() > MOST {
            within = best.least - lowest;
            break;
        }
    }
    let (one, other) = best.found?;
    Some(settled(&one, &other, within))
}

/// The nearest place of two spans, brought to the bottom of its valley.
fn settled<T: Real>(one: &Span<'_, T>, other: &Span<'_, T>, within: f64) -> (Closest<T>, T) {
    let point = |point: Point3<T>| {
        let axis = Line { point, direction: Vector3::x() };
        Rod { axis, from: T::zero(), to: T::zero(), radius: T::zero() }
    };
    // Where the nearest place is an end, it moves with that end.
    let on = |part: &Part<T>, from: T, to: Point3<T>| {
        let places = [part.from, part.to, from].map(|station| place(part, &point(to), station, within));
        places.into_iter().reduce(|a, b| if b.distance.value() < a.distance.value() { b } else { a })
    };
    let (mut s, mut t) = (T::of(one.middle), T::of(other.middle));
    let (mut here, mut there) =
        (nearest(one, &other.part.stretch.at(t).point), other.part.stretch.at(t).point);
    for _ in 0..LAST_TURNS {
        if let Some(found) = on(one.part, s, there) {
            (s, here) = (found.station, found.here);
        }
        if let Some(found) = on(other.part, t, here) {
            (t, there) = (found.station, found.here);
        }
    }
    (Closest { distance: (here - there).norm(), station: s, here, there, within }, t)
}
