//! The least distance between two bodies about centrelines.

use super::cones::{Cone, cones_apart};
use super::parts::Part;
use super::pipe::{Best, MOST, ROUNDS};
use super::{Closest, Line, Pipe, SURE, sections_apart};
use crate::units::Real;

/// A stretch of stations of one part.
type Span = (f64, f64);

/// A part of each pipe and a stretch of stations on each.
struct Pairing<'a, T: nalgebra::Scalar> {
    parts: (&'a Part<T>, &'a Part<T>),
    spans: (Span, Span),
}

/// Two parts and a station on each.
type Place<'a, T> = (&'a Part<T>, &'a Part<T>, f64, f64);

impl<'a, T: Real> Pairing<'a, T> {
    fn whole(one: &'a Part<T>, other: &'a Part<T>) -> Self {
        let span = |part: &Part<T>| (part.from.value(), part.to.value());
        Self { parts: (one, other), spans: (span(one), span(other)) }
    }

    fn bulges(&self) -> (f64, f64) {
        (bulge(self.parts.0, self.spans.0), bulge(self.parts.1, self.spans.1))
    }

    /// Halves of the arc that bulges more.
    fn halves(&self) -> [Self; 2] {
        let bulges = self.bulges();
        let (parts, spans) = (self.parts, self.spans);
        if bulges.0 >= bulges.1 {
            halves(spans.0).map(|half| Self { parts, spans: (half, spans.1) })
        } else {
            halves(spans.1).map(|half| Self { parts, spans: (spans.0, half) })
        }
    }

    /// Offers the place where the chords come nearest; gives the floor under all distances of the two stretches.
    fn look(&self, best: &mut Best<Place<'a, T>>) -> f64 {
        let ((one, other), spans) = (self.parts, self.spans);
        let ((axis, cone), (other_axis, other_cone)) = (chord(one, spans.0), chord(other, spans.1));
        let (apart, s, t) = cones_apart(&axis, cone, &other_axis, other_cone);
        let on = |span: Span, cone: &Cone<f64>, at: f64| span.0 + (span.1 - span.0) * at / cone.to;
        let (s, t) = (on(spans.0, &cone, s), on(spans.1, &other_cone, t));
        best.offer(room_at(one, other, (T::of(s), T::of(t))).value(), || (one, other, s, t));
        let bulges = self.bulges();
        apart - bulges.0 - bulges.1
    }
}

/// The arc of a span as the chord under it: its ends' line and the cone about that.
fn chord<T: Real>(part: &Part<T>, span: Span) -> (Line<f64>, Cone<f64>) {
    let (from, to) = (part.stretch.at(T::of(span.0)).point, part.stretch.at(T::of(span.1)).point);
    let (from, to) = (from.map(T::value), to.map(T::value));
    let (direction, length) = ((to - from), (to - from).norm());
    let (ball, slope) = (part.ball.value(), part.slope.value());
    // Stations on a chord are a little shorter than on its arc.
    let scale = (span.1 - span.0) / length;
    let cone = Cone { from: 0.0, to: length, at_zero: ball + slope * span.0, slope: slope * scale };
    (Line { point: from, direction: direction / length }, cone)
}

/// No point of an arc is further than this from its like on the chord: the square of its length over eight radii.
fn bulge<T: Real>(part: &Part<T>, span: Span) -> f64 {
    let length = span.1 - span.0;
    part.stretch.curvature() * length * length / 8.0
}

/// What two pipes leave between them at two stations.
fn room_at<T: Real>(a: &Part<T>, b: &Part<T>, (s, t): (T, T)) -> T {
    let apart = a.stretch.at(s).point - b.stretch.at(t).point;
    let square = apart.norm_squared();
    let distance = if square.value() == 0.0 { T::zero() } else { square.sqrt() };
    distance - a.radius(s) - b.radius(t)
}

/// Halves of a span.
fn halves(span: Span) -> [Span; 2] {
    let middle = 0.5 * (span.0 + span.1);
    [(span.0, middle), (middle, span.1)]
}

/// Where two pipes come nearest, as seen from the first, and the station on the second; `None` for a pipe without length.
///
/// Branch and bound over pairs of arcs: the chords under them have an exact distance, and the arcs lie no further from the
/// chords than their bulge, which falls with the square of the length. Straight parts need no halving. Sections count as the balls
/// that hold them; where the nearest place is on one of these, [`sections_apart`] finds it. How deep two pipes run into each other
/// is told by balls.
pub fn gap_between<T: Real>(a: &Pipe<'_, T>, b: &Pipe<'_, T>) -> Option<(Closest<T>, T)> {
    let (ones, others) = (a.flat_parts(), b.flat_parts());
    let (found, within) = nearest_balls(&ones, &others)?;
    let (closest, station) = place(found, within);
    if found.0.section.is_none() && found.1.section.is_none() {
        return Some((closest, station));
    }
    let depth = if closest.distance.value() > 0.0 { T::zero() } else { closest.distance };
    sections_apart(a, b).or(Some((Closest { distance: depth, ..closest }, station)))
}

/// Where the balls of two pipes come nearest, and what that is sure to.
fn nearest_balls<'a, T: Real>(ones: &'a [Part<T>], others: &'a [Part<T>]) -> Option<(Place<'a, T>, f64)> {
    let pairs = |one| others.iter().map(move |other| Pairing::whole(one, other));
    let mut open: Vec<Pairing<'_, T>> = ones.iter().flat_map(pairs).collect();
    let mut best: Best<Place<'_, T>> = Best { least: f64::INFINITY, found: None };
    let mut within = SURE;
    for round in 1..=ROUNDS {
        let floors: Vec<f64> = open.iter().map(|pairing| pairing.look(&mut best)).collect();
        let lowest = floors.iter().copied().fold(f64::INFINITY, f64::min);
        let hopeful = open.into_iter().zip(floors).filter(|(_, floor)| *floor < best.least - SURE);
        open = hopeful.flat_map(|(pairing, _)| pairing.halves()).collect();
        if open.is_empty() {
            break;
        }
        if round == ROUNDS || open.len() > MOST {
            within = best.least - lowest;
            break;
        }
    }
    Some((best.found?, within))
}

fn place<T: Real>((one, other, s, t): Place<'_, T>, within: f64) -> (Closest<T>, T) {
    // Where the nearest place is an end, it moves with that end.
    let on = |part: &Part<T>, station: f64| {
        let mut ends = [part.to, part.from].into_iter();
        ends.find(|end| (end.value() - station).abs() < 1e-9).unwrap_or(T::of(station))
    };
    let (s, t) = (on(one, s), on(other, t));
    let (from, to) = (one.stretch.at(s).point, other.stretch.at(t).point);
    let apart = to - from;
    let square = apart.norm_squared();
    let way = if square.value() == 0.0 { apart } else { apart / square.sqrt() };
    let closest = Closest {
        distance: room_at(one, other, (s, t)),
        station: s,
        here: from + way * one.radius(s),
        there: to - way * other.radius(t),
        error_bound: within,
    };
    (closest, t)
}

#[cfg(test)]
mod tests {
    use super::super::{Centreline, Frame, Outline, Turn};
    use super::*;
    use nalgebra::Point3;
    use std::f64::consts::FRAC_PI_2;

    /// By hand: two quarter turns about one middle, 100 and 160, in planes 80 apart: 100 between their lines.
    #[test]
    fn two_arcs_about_one_axis() {
        let at = |y: f64, z: f64| Frame { point: Point3::new(0.0, y, z), ..Frame::origin() };
        let arc = |radius: f64| [Turn { before: 0.0, rotation: 0.0, angle: FRAC_PI_2, radius }];
        let (inner, outer) = (
            Centreline::new(at(60.0, 0.0), 0.0, &arc(100.0)),
            Centreline::new(at(0.0, 80.0), 0.0, &arc(160.0)),
        );
        let level = Outline::level(10.0);
        let a = Pipe { line: &inner, outline: &level, from: 20.0, to: 150.0 };
        let b = Pipe { line: &outer, outline: &level, from: 0.0, to: 250.0 };
        let (found, _) = gap_between(&a, &b).unwrap();
        assert!((found.distance - 80.0).abs() < 1e-5, "{found:?}");
        assert!(((found.here - found.there).norm() - 80.0).abs() < 1e-5);
    }

    #[test]
    fn the_answer_is_the_least_of_many_samples() {
        let turns = [
            Turn { before: 60.0, rotation: 0.4, angle: 0.5, radius: 90.0 },
            Turn { before: 40.0, rotation: 2.0, angle: 0.7, radius: 70.0 },
        ];
        let one = Centreline::new(Frame::origin(), 0.0, &turns);
        let other = Centreline::new(
            Frame { point: Point3::new(20.0, 60.0, 25.0), ..Frame::origin() },
            0.0,
            &turns[..1],
        );
        let (thick, thin) = (Outline::through(&[(80.0, 11.0), (260.0, 7.0)]), Outline::level(5.0));
        let a = Pipe { line: &one, outline: &thick, from: 3.0, to: 300.0 };
        let b = Pipe { line: &other, outline: &thin, from: 0.0, to: 200.0 };
        let (found, _) = gap_between(&a, &b).unwrap();
        let mut least = f64::INFINITY;
        for s in a.flat_parts() {
            for t in b.flat_parts() {
                for (i, j) in (0..=150).flat_map(|i| (0..=150).map(move |j| (f64::from(i), f64::from(j)))) {
                    let on = |part: &Part<f64>, i: f64| part.from + (part.to - part.from) * i / 150.0;
                    least = least.min(room_at(&s, &t, (on(&s, i), on(&t, j))));
                }
            }
        }
        // The balls that hold the circles of the taper in the bends stand proud of them by radius · slope² / 2, 0.003.
        assert!(
            found.distance <= least + 3e-3 && found.distance > least - 0.05,
            "{} {least}",
            found.distance
        );
    }
}
