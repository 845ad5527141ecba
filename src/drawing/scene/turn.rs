//! How a scene is turned before whoever looks at it.

use crate::drawing::Point;
use crate::units::Angle;
use nalgebra::{Point3, Vector3};

/// The steepest look down or up: straight.
const STRAIGHT: f64 = 90.0;

/// A way of looking at a scene, its third axis always upright on the sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turn {
    /// How far the viewer has gone round the upright axis, from looking against +y: towards −x.
    pub yaw: Angle,
    /// How far the viewer looks down from above the horizon, −90 to 90°.
    pub pitch: Angle,
}

impl Turn {
    /// That far round and that far down; a look steeper than straight is straight, and what is no number is 0.
    pub fn new(yaw: Angle, pitch: Angle) -> Self {
        let plain = |degrees: f64| if degrees.is_finite() { degrees } else { 0.0 };
        let steep = plain(pitch.degrees());
        let pitch = if steep.abs() > STRAIGHT { STRAIGHT.copysign(steep) } else { steep };
        let yaw = plain(yaw.degrees()).rem_euclid(360.0);
        Self { yaw: Angle::from_degrees(yaw), pitch: Angle::from_degrees(pitch) }
    }

    /// From the drive side, behind and above.
    pub const fn start() -> Self {
        Self { yaw: Angle::from_degrees(325.0), pitch: Angle::from_degrees(24.0) }
    }

    /// The same after a drag by that many degrees to the right and down.
    pub fn dragged(self, right: Angle, down: Angle) -> Self {
        let yaw = self.yaw.degrees() - right.degrees();
        let pitch = self.pitch.degrees() + down.degrees();
        Self::new(Angle::from_degrees(yaw), Angle::from_degrees(pitch))
    }

    pub(super) fn view(self) -> SceneView {
        let (yaw, pitch) = (self.yaw.radians(), self.pitch.radians());
        let level = Vector3::new(-yaw.sin(), yaw.cos(), 0.0);
        let right = Vector3::new(-yaw.cos(), -yaw.sin(), 0.0);
        let towards = level * pitch.cos() + Vector3::z() * pitch.sin();
        SceneView { right, up: towards.cross(&right), towards }
    }
}

/// The directions of a parallel view, of length 1.
#[derive(Clone, Copy, Debug)]
pub(super) struct SceneView {
    /// To the right on the sheet.
    pub(super) right: Vector3<f64>,
    /// Upwards on the sheet.
    pub(super) up: Vector3<f64>,
    /// To whoever looks.
    pub(super) towards: Vector3<f64>,
}

impl SceneView {
    /// A point of space on the sheet, mm to the right and down.
    pub(super) fn point(&self, point: &Point3<f64>) -> Point {
        Point::new(point.coords.dot(&self.right), -point.coords.dot(&self.up))
    }
}
