//! How a stay seats that was cut with a saw of another size than the member.

use crate::geometry::{Approach, Cylinder, Edge};
use crate::units::{Length, Real};
use nalgebra::Vector3;

/// How the finished end meets its member.
pub(super) struct Fit<T> {
    /// How far the stay goes towards the member until it touches.
    pub(super) push: Length<T>,
    /// The largest distance then left.
    pub(super) gap: Length<T>,
}

/// The fit of an edge against the member's own surface, slid along `towards`; `None` where they never meet.
pub(super) fn fit<T: Real>(edge: &Edge<'_, T>, member: &Cylinder<T>, towards: &Vector3<T>) -> Option<Fit<T>> {
    let approach = Approach::new(member, towards);
    let first = edge.least(|point, _| approach.travel(point).map(T::value))?;
    let push = approach.travel(&edge.point(first)?)?;
    let widest = edge.least(|point, _| Some(-approach.left_after(point, push).value()))?;
    let gap = approach.left_after(&edge.point(widest)?, push);
    Some(Fit { push: Length::from_mm(push), gap: Length::from_mm(gap) })
}

/// A saw that cuts slimmer than the member by up to this, mm, counts as of its size: no better is its cut known. Common
/// practice, no source.
const SLIMMER: f64 = 0.1;

/// Whether a stay that was cut so wide seats on a member so thick. One that was cut slimmer touches at its edges alone.
pub fn seats<T: Real>(cutter: Length<T>, member: Length<T>) -> bool {
    // Decimals have no exact numbers: 38.1 less 38 is a little more than 0.1.
    member.mm().value() - cutter.mm().value() <= SLIMMER + 1e-9
}
