//! The least distance between two bodies about centrelines by their true sections and flat ends.

use super::parts::Part;
use super::pipe::{Best, OVAL_SURE, Span, place};
use super::solid::{HalfSpace, Rod};
use super::{Closest, Pipe};
use crate::units::Real;
use nalgebra::Point3;

/// Pairs of stretches looked at, at most; some dozens do, unless edges nearly touch.
const LOOKS: usize = 1000;

/// Stretches of a pair that are shorter than this are as good as their sections, mm.
const HAIR: f64 = 0.05;

/// Points closer than this have no way from one to the other.
const SAME: f64 = 1e-6;

/// Two sections' nearest points are sought in turn until a turn brings no more than this, mm.
const TURN: f64 = 1e-4;

/// Turns at most of that, and of going along both bodies.
const TURNS: (usize, usize) = (20, 100);

/// A turn along both bodies that brings no more than this is the last, mm.
const SETTLED: f64 = 1e-9;

/// A stretch of stations on each body.
#[derive(Clone, Copy)]
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
        let (here, there) = self.facing();
        ((here - there).norm().value(), self.between((&here, &there), |span, plane| span.floor(plane).1))
    }

    /// The nearest points of the two middle sections.
    fn facing(&self) -> (Point3<T>, Point3<T>) {
        let Self(one, other) = self;
        let (mut here, mut there) = (middle(one), middle(other));
        until(TURNS.0, TURN, || {
            here = nearest(one.part, T::of(one.middle), &there);
            there = nearest(other.part, T::of(other.middle), &here);
            (here - there).norm().value()
        });
        (here, there)
    }

    /// Whether the stretches run into each other for certain: balls within them do, or so little is left of them that planes would
    /// keep them apart if any could.
    fn meet(&self, floor: f64) -> bool {
        let Self(one, other) = self;
        let apart = (middle(one) - middle(other)).norm().value();
        apart < core(one) + core(other) - OVAL_SURE || (floor <= 0.0 && one.half.max(other.half) < HAIR)
    }

    /// How far planes through two points, square to the way from one to the other, keep the stretches apart.
    fn between(
        &self,
        (here, there): (&Point3<T>, &Point3<T>),
        floor: impl Fn(&Span<'a, T>, &HalfSpace<T>) -> f64,
    ) -> f64 {
        let apart = here - there;
        let distance = apart.norm();
        if distance.value() <= SAME {
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

/// The radius of a ball about a span's middle that lies within its part.
fn core<T: Real>(span: &Span<'_, T>) -> f64 {
    let Some(section) = &span.part.section else { return span.part.radius(T::of(span.middle)).value() };
    let to_end = (span.middle - span.part.from.value()).min(span.part.to.value() - span.middle);
    section.narrowest().min(to_end)
}

/// The point of the ball or of the full section at a station that is nearest to a point.
fn nearest<T: Real>(part: &Part<T>, station: T, point: &Point3<T>) -> Point3<T> {
    if let Some(section) = &part.section {
        return section.nearest_to(&part.stretch.marked(station), point, station);
    }
    let middle = part.stretch.at(station).point;
    let way = point - middle;
    let (distance, radius) = (way.norm(), part.radius(station));
    if distance.value() <= radius.value() { *point } else { middle + way * (radius / distance) }
}

/// Where two pipes come nearest, as seen from the first, and the station on the second. Unlike [`gap_between`](super::gap_between)
/// it takes their ends as flat and their sections as they are, and says nothing of how deep they run into each other: `None` where they
/// touch as far as the search is sure, and for a pipe without length.
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
        if look > LOOKS {
            within = best.least - floor;
            break;
        }
        if pairing.meet(floor) {
            return None;
        }
        let (apart, planes) = pairing.look();
        if apart <= OVAL_SURE {
            return None;
        }
        best.offer(apart, || pairing);
        let floor = floor.max(planes);
        open.extend(pairing.halves().map(|half| (floor.max(half.below()), half)));
    }
    Some(settled(&best.found?, within))
}

fn lowest<P>(open: &[(f64, P)]) -> Option<usize> {
    open.iter().enumerate().min_by(|a, b| a.1.0.total_cmp(&b.1.0)).map(|(at, _)| at)
}

/// Takes turns, as many as are given, until one lowers the value by no more than `enough`.
fn until(turns: usize, enough: f64, mut turn: impl FnMut() -> f64) {
    let mut value = f64::INFINITY;
    for _ in 0..turns {
        let before = std::mem::replace(&mut value, turn());
        if before - value <= enough {
            break;
        }
    }
}

/// The nearest place of a pairing, brought to the bottom of its valley.
fn settled<T: Real>(found: &Pairing<'_, T>, within: f64) -> (Closest<T>, T) {
    let Pairing(one, other) = found;
    // Where the nearest place is on an end, it moves with that end.
    let on = |part: &Part<T>, from: T, to: &Point3<T>| {
        let inside = place(part, &Rod::ball(*to, T::zero()), from, within);
        let ends = [part.from, part.to].map(|end| (end, nearest(part, end, to)));
        let away = |place: &(T, Point3<T>)| (place.1 - to).norm().value();
        let lower = |a, b| if away(&b) <= away(&a) { b } else { a };
        ends.into_iter().fold((inside.station, inside.here), lower)
    };
    let (mut s, mut t) = (T::of(one.middle), T::of(other.middle));
    let (mut here, mut there) = found.facing();
    until(TURNS.1, SETTLED, || {
        (s, here) = on(one.part, s, &there);
        (t, there) = on(other.part, t, &here);
        (here - there).norm().value()
    });
    (Closest { distance: (here - there).norm(), station: s, here, there, error_bound: within }, t)
}

#[cfg(test)]
mod tests {
    use super::super::{Centreline, Convex, ConvexRod, Frame, Line, Outline, OvalStretch};
    use super::*;
    use nalgebra::Vector3;

    /// A straight line from a point along a direction, its mark square to it and as near to y as can be.
    fn straight(point: [f64; 3], along: [f64; 3]) -> Centreline {
        let tangent = Vector3::from(along).normalize();
        let up = if tangent.y.abs() < 0.9 { Vector3::y() } else { Vector3::z() };
        let normal = (up - tangent * tangent.dot(&up)).normalize();
        let frame = Frame { point: point.into(), tangent, normal, side: tangent.cross(&normal) };
        Centreline::new(frame, 0.0, &[])
    }

    fn oval(halves: (f64, f64), turn: f64) -> Outline {
        Outline::level(10.0).pressed(&[OvalStretch { from: -50.0, to: 150.0, blend: 20.0, halves, turn }])
    }

    /// By hand: side by side ellipses leave what their halves towards each other leave; a quarter turn gives the other halves.
    #[test]
    fn parallel_ovals_are_as_far_apart_as_their_halves_leave() {
        let (one, other) =
            (straight([0.0; 3], [1.0, 0.0, 0.0]), straight([20.0, 40.0, 0.0], [1.0, 0.0, 0.0]));
        for (turn, reach) in [(0.0, 7.0), (std::f64::consts::FRAC_PI_2, 13.0)] {
            let (here, there) = (oval((7.0, 13.0), turn), oval((8.0, 12.0), 0.0));
            let a = Pipe { line: &one, outline: &here, from: 0.0, to: 100.0 };
            let b = Pipe { line: &other, outline: &there, from: 0.0, to: 70.0 };
            let (found, _) = sections_apart(&a, &b).unwrap();
            assert!((found.distance - (40.0 - reach - 8.0)).abs() < 1e-9, "{found:?}");
        }
    }

    /// By hand: an end that looks at another tube's side comes nearest with its face, at its middle.
    #[test]
    fn a_face_may_be_nearest() {
        let (one, other) =
            (straight([0.0; 3], [1.0, 0.0, 0.0]), straight([50.0, 42.0, 0.0], [0.0, -1.0, 0.0]));
        let (here, there) = (oval((7.0, 13.0), 0.0), Outline::level(9.0));
        let a = Pipe { line: &one, outline: &here, from: 0.0, to: 100.0 };
        let b = Pipe { line: &other, outline: &there, from: 0.0, to: 20.0 };
        let (found, _) = sections_apart(&a, &b).unwrap();
        assert!((found.distance - 15.0).abs() < 1e-6, "{found:?}");
    }

    #[test]
    fn tubes_that_meet_have_no_distance() {
        let (one, other) =
            (straight([0.0; 3], [1.0, 0.0, 0.0]), straight([50.0, 19.0, -30.0], [0.0, 0.0, 1.0]));
        let (here, there) = (oval((13.0, 7.0), 0.0), Outline::level(9.0));
        let a = Pipe { line: &one, outline: &here, from: 0.0, to: 100.0 };
        assert!(sections_apart(&a, &Pipe { line: &other, outline: &there, from: 0.0, to: 60.0 }).is_none());
        assert!(sections_apart(&a, &Pipe { line: &other, outline: &there, from: 5.0, to: 5.0 }).is_none());
    }

    /// Round cylinders in any position, down to a hair apart, against the distance of convex bodies.
    #[test]
    fn round_cylinders_are_as_far_apart_as_convex_bodies() {
        let outlines = (Outline::level(9.0), Outline::level(6.0));
        let mut compared = 0;
        for i in 0..400 {
            // A spread of places that favours none (Roberts' R sequence).
            let part = |share: f64| (f64::from(i) * share).fract() - 0.5;
            let point = [60.0 * part(0.819_17), 60.0 * part(0.671_04), 60.0 * part(0.549_7)];
            let along = [part(0.450_31), part(0.368_88), 0.02 + part(0.302_18)];
            let (one, other) = (straight([0.0; 3], [1.0, 0.0, 0.0]), straight(point, along));
            let a = Pipe { line: &one, outline: &outlines.0, from: 0.0, to: 50.0 };
            let b = Pipe { line: &other, outline: &outlines.1, from: 0.0, to: 40.0 };
            let rod = |line: &Centreline, to: f64, radius: f64| {
                let Frame { point, tangent, .. } = line.at(0.0);
                Convex::Rod(ConvexRod::cylinder(Line { point, direction: tangent }, 0.0, to, radius))
            };
            let expected = rod(&one, 50.0, 9.0).distance(&rod(&other, 40.0, 6.0));
            match sections_apart(&a, &b) {
                None => assert!(expected < 0.011, "{i}: {expected}"),
                Some((found, _)) => {
                    assert!(found.distance > expected - 1e-5, "{i}: {found:?} {expected}");
                    assert!(found.distance < expected + found.error_bound, "{i}: {found:?} {expected}");
                    // Where two edges nearly touch the search may end before it is as sure as that.
                    let sure = if found.distance > 1.0 { 0.011 } else { 0.2 };
                    assert!(found.error_bound < sure, "{i}: {found:?}");
                    compared += 1;
                }
            }
        }
        assert!(compared > 150, "{compared}");
    }
}
