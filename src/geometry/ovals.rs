//! The least distance between two bodies about centrelines by their true sections and flat ends.

use super::parts::Part;
use super::pipe::{Best, MOST, OVAL_SURE, Span, place};
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

/// A turn that brings no more than this is the last.
const SETTLED: f64 = 1e-6;

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

    /// A floor under all distances of the two stretches from the planes through their middles, which costs little.
    fn below(&self) -> f64 {
        let [a, b] = [&self.0, &self.1].map(middle);
        self.between((&a, &b), |span, plane| span.below(plane))
    }

    /// The distance of the two middle sections, and the floor under all distances of the two stretches.
    ///
    /// Bodies are no nearer than two parallel planes between them. Through the nearest points of the middle sections these lie
    /// as far apart as the sections do, and by how much the stretches reach over them falls with the square of their length.
    fn look(&self) -> (f64, f64) {
        let Self(one, other) = self;
        let (mut here, mut there) = (middle(one), middle(other));
        for _ in 0..TURNS {
            here = nearest(one, &there);
            there = nearest(other, &here);
        }
        ((here - there).norm().value(), self.between((&here, &there), |span, plane| span.floor(plane).1))
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

fn middle<T: Real>(span: &Span<'_, T>) -> Point3<T> {
    span.part.stretch.at(T::of(span.middle)).point
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
/// Branch and bound over pairs of stretches, each with the planes that keep its two apart, the lowest first.
pub fn sections_apart<T: Real>(a: &Pipe<'_, T>, b: &Pipe<'_, T>) -> Option<(Closest<T>, T)> {
    let (ones, others) = (a.flat_parts(), b.flat_parts());
    let mut open: Vec<(f64, Pairing<'_, T>)> = Vec::with_capacity(ones.len() * others.len());
    for one in ones.iter().enumerate().map(Span::whole) {
        let pairs = others.iter().enumerate().map(|other| Pairing(one, Span::whole(other)));
        open.extend(pairs.map(|pairing| (pairing.below(), pairing)));
    }
    let mut best = Best { least: f64::INFINITY, found: None };
    let mut within = OVAL_SURE;
    for look in 1.. {
        let Some(lowest) = lowest(&open) else { break };
        let (floor, pairing) = open.swap_remove(lowest);
        if floor >= best.least - OVAL_SURE {
            break;
        }
        if look > MOST {
            within = best.least - floor;
            break;
        }
        let (apart, planes) = pairing.look();
        best.offer(apart, || (pairing.0, pairing.1));
        if best.least <= TOUCHES {
            return None;
        }
        let floor = floor.max(planes);
        open.extend(pairing.halves().map(|half| (floor.max(half.below()), half)));
    }
    let (one, other) = best.found?;
    Some(settled(&one, &other, within))
}

fn lowest<P>(open: &[(f64, P)]) -> Option<usize> {
    open.iter().enumerate().min_by(|a, b| a.1.0.total_cmp(&b.1.0)).map(|(at, _)| at)
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
    let mut apart = f64::INFINITY;
    for _ in 0..LAST_TURNS {
        if let Some(found) = on(one.part, s, there) {
            (s, here) = (found.station, found.here);
        }
        if let Some(found) = on(other.part, t, here) {
            (t, there) = (found.station, found.here);
        }
        let before = std::mem::replace(&mut apart, (here - there).norm().value());
        if before - apart < SETTLED {
            break;
        }
    }
    (Closest { distance: (here - there).norm(), station: s, here, there, within }, t)
}
