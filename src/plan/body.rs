//! A stay of a plan as a body: its middle line, and its surface by station.

use super::bed::Bed;
use super::result::Stay;
use super::tube_surface::surface_from;
use crate::geometry::{
    Centreline, Closest, Frame, HalfSpace, Outline, Pipe, gap, gap_between, sections_apart,
};
use crate::model::Tube;
use crate::units::Real;
use nalgebra::{Point3, Vector3};
use std::borrow::Cow;

/// Places of two stays that mirror each other to within this do, mm.
const MIRRORED: f64 = 1e-9;

/// A stay's middle line, straight or bent; stations count from the front reference point.
pub fn stay_line<T: Real>(stay: &Stay<T>) -> Cow<'_, Centreline<T>> {
    match &stay.bent {
        Some(bent) => Cow::Borrowed(&bent.line),
        None => Cow::Owned(Bed::new(stay.front_point, stay.rear_point, stay.hand.sign()).straight()),
    }
}

/// The outer surface of a stay that is made of `tube`, by station along its middle line. Its ovals are turned from the line's mark.
pub fn stay_surface<T: Real>(stay: &Stay<T>, tube: &Tube<T>) -> Outline<T> {
    let trim = stay.bent.as_ref().map_or(tube.front_trim, |bent| bent.trim);
    surface_from(tube, trim.mm())
}

/// All that lies beyond the centre plane from a stay on the side `sign`. The mirror of a body is twice as far from it as this.
pub(crate) fn beyond_centre<T: Real>(sign: f64) -> HalfSpace<T> {
    HalfSpace { edge: Point3::origin(), out: Vector3::y() * T::of(sign) }
}

/// Where two stays of a pair come nearest, as seen from the right one, and the station on the left one: by their sections and flat
/// ends.
// Kept whole, here and in the page's build.
#[inline(never)]
pub(crate) fn stays_apart<T: Real>(right: &Pipe<'_, T>, left: &Pipe<'_, T>) -> Option<(Closest<T>, T)> {
    if mirrored(right, left) {
        let (one, other) = (gap(right, &beyond_centre(1.0))?, gap(left, &beyond_centre(-1.0))?);
        let distance = one.distance + other.distance;
        return Some((
            Closest { distance, there: other.here, error_bound: one.error_bound + other.error_bound, ..one },
            other.station,
        ));
    }
    if !right.outline.is_oval() && !left.outline.is_oval() {
        return gap_between(right, left);
    }
    sections_apart(right, left).or_else(|| {
        let seen =
            [(right, 1.0), (left, -1.0)].map(|(pipe, sign)| seen_across(pipe.line, pipe.outline, sign));
        let (closest, station) =
            gap_between(&Pipe { outline: &seen[0], ..*right }, &Pipe { outline: &seen[1], ..*left })?;
        // They run into each other: how deep is told by tubes that are round and as wide.
        let distance = if closest.distance.value() > 0.0 { T::zero() } else { closest.distance };
        Some((Closest { distance, ..closest }, station))
    })
}

/// What two straight round stays leave between them where the left one is the mirror of the right one; `None` where it is not.
///
/// Twice what the right one leaves to the centre plane, which is least at an end or where its taper starts or ends.
pub(super) fn mirrored_straight_apart<T: Real>(right: &Pipe<'_, T>, left: &Pipe<'_, T>) -> Option<T> {
    let plane = beyond_centre::<T>(1.0);
    let height = |station: T| {
        let Frame { point, tangent, .. } = right.line.at(station);
        let along = tangent.dot(&plane.out);
        let reach = right.outline.radius(station) * (T::one() - along * along).sqrt();
        (point - plane.edge).dot(&plane.out) - reach
    };
    let knots = right.outline.pieces().iter().skip(1).map(|piece| piece.from);
    let inside = knots.filter(|knot| right.from.value() < knot.value() && knot.value() < right.to.value());
    let lower = |a: T, b: T| if b.value() < a.value() { b } else { a };
    let least = inside.chain([right.to]).map(height).fold(height(right.from), lower);
    mirrored(right, left).then(|| least * T::of(2.0))
}

/// Whether a left stay is the mirror of the right one.
fn mirrored<T: Real>(right: &Pipe<'_, T>, left: &Pipe<'_, T>) -> bool {
    let same = |a: T, b: T| (a - b).value().abs() < MIRRORED;
    let mirror = |station: T| {
        let (a, b) = (right.line.at(station).point, left.line.at(station).point);
        same(a.x, b.x) && same(a.y, -b.y) && same(a.z, b.z)
    };
    let joints =
        right.line.stretches().iter().map(|stretch| stretch.from).filter(|from| from.value().is_finite());
    let middle = (right.from + right.to) * T::of(0.5);
    right.outline == left.outline
        && same(right.from, left.from)
        && same(right.to, left.to)
        && joints.chain([right.from, middle, right.to]).all(mirror)
}

/// A stay's surface as the stay across the bicycle sees it: an oval counts as round, as wide as it is across where it lies.
fn seen_across<T: Real>(line: &Centreline<T>, surface: &Outline<T>, sign: f64) -> Outline<T> {
    surface.seen_along(|station| {
        let (mark, tangent) = (line.mark(station), line.at(station).tangent);
        (mark.y, tangent.cross(&mark).y * T::of(sign))
    })
}
