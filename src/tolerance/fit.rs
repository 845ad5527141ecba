//! How a cope seats whose saw was not the member's size: closed form for a tube that is a cylinder at its end.
//!
//! Seen along the member's axis the tube comes on in a straight line, the cope is an arc of radius `r` and the member a
//! circle of radius `R`. The point of the arc that lies `y` beside the way comes onto the member after
//! `√(r² − y²) − √(R² − y²)`. That grows with |y| where `r > R` and falls where `r < R`, so the first touch and the
//! widest gap lie at the smallest and the largest |y| of the tube, or the other way round.

use crate::units::Real;

/// The seat of a cope.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Fit<T> {
    /// How far the tube goes on, square to the member's axis, until it touches; negative where it must stay off.
    pub(super) push: T,
    /// The widest gap that is then left.
    pub(super) gap: T,
}

/// The seat of a tube of `radius` whose axis passes the member's at `offset`, cut by a saw of radius `saw`. `None` where
/// part of the tube passes either circle by.
///
/// For a saw of the member's own size, slopes are those of a larger saw.
pub(super) fn fit<T: Real>(member: T, saw: T, offset: T, radius: T) -> Option<Fit<T>> {
    let (low, high) = (offset - radius, offset + radius);
    let far = if low.value().abs() > high.value().abs() { low } else { high };
    let near = if low.value() <= 0.0 && 0.0 <= high.value() {
        T::zero()
    } else if low.value().abs() < high.value().abs() {
        low
    } else {
        high
    };
    let (first, last) = if saw.value() < member.value() { (far, near) } else { (near, far) };
    let depth = |reach: T, beside: T| {
        let square = (reach - beside) * (reach + beside);
        (square.value() > 0.0).then(|| square.sqrt())
    };
    let push = depth(saw, first)? - depth(member, first)?;
    let left = depth(saw, last)? - push;
    Some(Fit { push, gap: (left * left + last * last).sqrt() - member })
}
