//! The edge of a cut as a list, degree by degree.

use super::result::ProfilePoint;
use crate::geometry::{Edge, Node};
use crate::quantity::{Angle, Length, Real};

/// The edge at every whole degree that has one.
pub(super) fn profile<T: Real>(edge: &Edge<'_, T>) -> Vec<ProfilePoint<T>> {
    edge.degrees().filter_map(|(node, station)| station.map(|s| point(node, s))).collect()
}

fn point<T: Real>(node: Node, station: T) -> ProfilePoint<T> {
    ProfilePoint {
        phi: Angle::from_degrees(T::of(node.phi.to_degrees().round())),
        s: Length::from_mm(station),
    }
}
