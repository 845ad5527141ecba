//! A stay of a plan as a body: its middle line, and its surface by station.

use super::bed::Bed;
use super::lay::surface_from;
use super::result::Stay;
use crate::geometry::{Centreline, Outline};
use crate::quantity::Real;
use crate::trade::Tube;
use std::borrow::Cow;

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

/// A stay's surface as the stay across the bicycle sees it: an oval counts as round, as wide as it is across where it lies.
pub(super) fn seen_across<T: Real>(line: &Centreline<T>, surface: &Outline<T>, sign: f64) -> Outline<T> {
    surface.seen_along(|station| {
        let (mark, tangent) = (line.mark(station), line.at(station).tangent);
        (mark.y, tangent.cross(&mark).y * T::of(sign))
    })
}
