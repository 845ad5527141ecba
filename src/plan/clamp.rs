//! The clamp frame: what lies on the bench.

use crate::units::Real;
use nalgebra::{Point3, Vector3};

/// The plane that holds a stay's axis, square to the centre plane, with the directions the fixture goes by.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ClampFrame<T: nalgebra::Scalar = f64> {
    /// The front datum: the front reference point, brought onto the centre plane.
    pub origin: Point3<T>,
    /// Along the fixture, rearwards.
    pub u: Vector3<T>,
    /// Across the fixture, to the drive side: the frame's `y`.
    pub v: Vector3<T>,
    /// Up from the stay plane, away from the fixture's base.
    pub w: Vector3<T>,
}

impl<T: Real> ClampFrame<T> {
    /// The frame with its origin at `origin` and `u` along the centre-plane direction `along`, which need not have
    /// length 1 but must not be zero.
    pub fn new(origin: Point3<T>, along: Vector3<T>) -> Self {
        let u = along.normalize();
        let v = Vector3::y();
        Self { origin, u, v, w: u.cross(&v) }
    }

    /// A point of the bicycle in fixture coordinates `(u, v, w)`, mm.
    pub fn local(&self, point: &Point3<T>) -> Vector3<T> {
        self.local_direction(&(point - self.origin))
    }

    /// A direction of the bicycle in fixture components `(u, v, w)`.
    pub fn local_direction(&self, vector: &Vector3<T>) -> Vector3<T> {
        Vector3::new(vector.dot(&self.u), vector.dot(&self.v), vector.dot(&self.w))
    }
}
