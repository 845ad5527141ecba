//! The mill in its room: which way its axes, the fixture and the cutter's motions point.

use super::task::Motion;
use crate::model::Hand;
use crate::model::shop::{Axis, Mill, SpindleWay};
use nalgebra::Vector3;

/// A mill as the person before it sees it: x to the right, y away, z up.
#[derive(Clone, Copy)]
pub(super) struct Room<'a> {
    pub(super) mill: &'a Mill,
}

impl Room<'_> {
    /// Out of the work: up, or away into the column where the spindle lies.
    pub(super) fn out(self) -> Vector3<f64> {
        match self.mill.spindle {
            SpindleWay::Vertical => Vector3::z(),
            SpindleWay::Horizontal => Vector3::y(),
        }
    }

    /// Where the cutter goes over the work on the plus way of an axis.
    pub(super) fn axis(self, axis: Axis) -> Vector3<f64> {
        match (axis, self.mill.spindle) {
            (Axis::X, _) => Vector3::x(),
            (Axis::Y, SpindleWay::Vertical) => Vector3::y(),
            (Axis::Y, SpindleWay::Horizontal) => Vector3::z(),
            (Axis::Z, _) => self.out(),
        }
    }

    /// Where a motion goes.
    pub(super) fn motion(self, motion: Motion) -> Vector3<f64> {
        match motion {
            Motion::Right => Vector3::x(),
            Motion::Left => -Vector3::x(),
            Motion::Away => Vector3::y(),
            Motion::Near => -Vector3::y(),
            Motion::Up => Vector3::z(),
            Motion::Down => -Vector3::z(),
            Motion::OutOfWork => self.out(),
            Motion::IntoWork => -self.out(),
        }
    }

    /// Where the fixture's rear end points as it lies.
    pub(super) fn rear(self) -> Vector3<f64> {
        self.axis(self.mill.lies_along) * self.mill.rear_toward.sign()
    }

    /// The fixture's u, v and w where it lies flat, its base away from the spindle.
    pub(super) fn lying(self) -> [Vector3<f64>; 3] {
        self.tilted(0.0)
    }

    /// The same, its rear end raised by an angle in radians.
    pub(super) fn tilted(self, raised: f64) -> [Vector3<f64>; 3] {
        let (flat, out) = (self.rear(), self.out());
        let (sin, cos) = raised.sin_cos();
        standing(flat * cos + out * sin, out.cross(&flat))
    }

    /// The same on its side, that side of the bicycle to the spindle.
    pub(super) fn on_side(self, side: Hand) -> [Vector3<f64>; 3] {
        standing(self.rear(), self.out() * side.sign())
    }
}

fn standing(u: Vector3<f64>, v: Vector3<f64>) -> [Vector3<f64>; 3] {
    [u, v, u.cross(&v)]
}
