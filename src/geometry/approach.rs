//! A body that slides in a straight line towards a cylinder.

use super::Cylinder;
use super::chord::Chord;
use super::cylinder::AlongView;
use crate::units::Real;
use nalgebra::{Point3, Vector2, Vector3};

/// A straight slide towards a cylinder.
#[derive(Clone, Copy, Debug)]
pub struct Approach<T: nalgebra::Scalar = f64> {
    view: AlongView<T>,
    along: Vector2<T>,
    radius: T,
}

impl<T: Real> Approach<T> {
    /// The slide along `direction`, which has length 1.
    pub fn new(cylinder: &Cylinder<T>, direction: &Vector3<T>) -> Self {
        let view = cylinder.along_view();
        Self { view, along: view.direction(direction), radius: cylinder.radius }
    }

    /// How far a point slides until it comes onto the cylinder; negative where it must first be drawn back.
    /// `None` where its path passes the cylinder by or runs along it.
    pub fn travel(&self, point: &Point3<T>) -> Option<T> {
        let chord = Chord::new(self.view.point(point), self.along)?;
        Some(chord.foot - chord.half(self.radius)?)
    }

    /// Distance of a point from the cylinder once it has slid by `travel`; negative inside.
    pub fn left_after(&self, point: &Point3<T>, travel: T) -> T {
        (self.view.point(point) + self.along * travel).norm() - self.radius
    }
}
