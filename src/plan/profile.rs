//! The edge of a cut as a list, degree by degree.

use super::result::ProfilePoint;
use crate::geometry::Node;
use crate::units::{Angle, Length, Real};

/// The edge at every whole degree that has one; `degrees` holds all of them from 0.
pub(super) fn profile<T: Real>(degrees: impl Iterator<Item = (Node, Option<T>)>) -> Vec<ProfilePoint<T>> {
    let point = |(degree, (_, station)): (u16, (Node, Option<T>))| {
        Some(ProfilePoint {
            phi: Angle::from_degrees(T::of(f64::from(degree))),
            s: Length::from_mm(station?),
        })
    };
    (0..).zip(degrees).filter_map(point).collect()
}
