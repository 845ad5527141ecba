//! A straight line against a circle.

use crate::units::Real;
use nalgebra::Vector2;

/// A generator that passes the cylinder by less than this still touches it. Far below what a shop can measure, far
/// above what rounding leaves of figures in the hundreds.
pub(super) const TOUCH: f64 = 1e-9;

/// A straight line in the view, `from + s · along`, against the circle.
pub(super) struct Chord<T: nalgebra::Scalar> {
    /// Station of the point nearest to the circle's middle.
    pub(super) foot: T,
    /// Distance of the line from the circle's middle.
    distance: T,
    speed: T,
}

impl<T: Real> Chord<T> {
    /// `None` where the line is seen end-on.
    #[inline(always)]
    pub(super) fn new(from: Vector2<T>, along: Vector2<T>) -> Option<Self> {
        let square = along.norm_squared();
        (square.value() > f64::MIN_POSITIVE).then(|| {
            let speed = square.sqrt();
            Self { foot: -from.dot(&along) / square, distance: from.perp(&along) / speed, speed }
        })
    }

    /// The line's least distance from the circle's middle between two stations.
    #[inline(always)]
    pub(super) fn nearest_between(&self, from: f64, to: f64) -> f64 {
        let distance = self.distance.value();
        let foot = self.foot.value();
        // Mostly the foot lies between the two, and no square root is needed.
        let beyond = foot - foot.max(from).min(to);
        if beyond == 0.0 { distance.abs() } else { distance.hypot(beyond * self.speed.value()) }
    }

    /// Half the chord, in stations; 0 where the line touches; `None` where it passes by.
    #[inline(always)]
    pub(super) fn half(&self, radius: T) -> Option<T> {
        let reach = self.distance.abs();
        let room = radius - reach;
        if room.value() < -TOUCH {
            return None;
        }
        if room.value() <= 0.0 {
            return Some(T::zero());
        }
        Some((room * (radius + reach)).sqrt() / self.speed)
    }
}
