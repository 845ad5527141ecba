//! Looking at the job from one side.

use super::sheet::Point;
use crate::geometry::Line;
use crate::plan::ClampFrame;
use nalgebra::{Point3, Vector3};

/// A parallel view: two directions of space that become right and down on the sheet.
#[derive(Clone, Copy, Debug)]
pub(super) struct View {
    origin: Point3<f64>,
    right: Vector3<f64>,
    down: Vector3<f64>,
}

impl View {
    /// From the drive side, the bicycle pointing to the right.
    pub(super) fn side() -> Self {
        Self { origin: Point3::origin(), right: -Vector3::x(), down: -Vector3::z() }
    }

    /// Down on the clamp plane, its front to the right, the drive side at the bottom.
    pub(super) fn clamp_plane(clamp: &ClampFrame) -> Self {
        Self { origin: clamp.origin, right: -clamp.u, down: clamp.v }
    }

    /// From the drive side on the fixture, its front to the right, its base at the bottom.
    pub(super) fn fixture_side(clamp: &ClampFrame) -> Self {
        Self { origin: clamp.origin, right: -clamp.u, down: -clamp.w }
    }

    /// Along a spindle that lies in the centre plane, from above.
    pub(super) fn along(clamp: &ClampFrame, table: Vector3<f64>) -> Self {
        Self { origin: clamp.origin, right: -table, down: clamp.v }
    }

    /// From the drive side, a spindle direction upright.
    pub(super) fn upright(clamp: &ClampFrame, table: Vector3<f64>, up: Vector3<f64>) -> Self {
        Self { origin: clamp.origin, right: -table, down: -up }
    }

    /// Square to an upright spindle, which points away from the work, everything in fixture components; `along` is where the
    /// table reads along the fixture.
    pub(super) fn beside_spindle(axis: &Line, along: Vector3<f64>) -> Self {
        Self { origin: axis.point, right: -along, down: -axis.direction }
    }

    /// A point of space on the sheet.
    pub(super) fn point(&self, point: &Point3<f64>) -> Point {
        self.direction(&(point - self.origin))
    }

    /// A direction of space on the sheet.
    pub(super) fn direction(&self, vector: &Vector3<f64>) -> Point {
        Point::new(vector.dot(&self.right), vector.dot(&self.down))
    }

    /// Towards whoever looks.
    pub(super) fn viewer(&self) -> Vector3<f64> {
        self.down.cross(&self.right)
    }
}
