//! A round cylinder without ends.

use super::Line;
use crate::units::Real;
use nalgebra::{Point3, Vector2, Vector3};

/// All points at distance `radius` from `axis`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cylinder<T: nalgebra::Scalar = f64> {
    /// Its axis.
    pub axis: Line<T>,
    /// Its radius, more than 0.
    pub radius: T,
}

/// Two directions that, with the axis, make a right-handed frame: what is left of space when it is seen along the axis.
#[derive(Clone, Copy, Debug)]
pub(super) struct AlongView<T: nalgebra::Scalar> {
    origin: Point3<T>,
    first: Vector3<T>,
    second: Vector3<T>,
}

impl<T: Real> AlongView<T> {
    pub(super) fn direction(&self, vector: &Vector3<T>) -> Vector2<T> {
        Vector2::new(vector.dot(&self.first), vector.dot(&self.second))
    }

    pub(super) fn point(&self, point: &Point3<T>) -> Vector2<T> {
        self.direction(&(point - self.origin))
    }
}

impl<T: Real> Cylinder<T> {
    /// Distance of a point from the surface, negative inside.
    pub fn distance(&self, point: &Point3<T>) -> T {
        let seen = self.along_view().point(point);
        seen.norm() - self.radius
    }

    pub(super) fn along_view(&self) -> AlongView<T> {
        let a = self.axis.direction;
        // The coordinate axis that leans most away from this one keeps the frame well conditioned.
        let lean = a.map(|x| x.value().abs());
        let other = match lean.imin() {
            0 => Vector3::x(),
            1 => Vector3::y(),
            _ => Vector3::z(),
        };
        let first = a.cross(&other).normalize();
        AlongView { origin: self.axis.point, first, second: a.cross(&first) }
    }
}
