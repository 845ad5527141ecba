//! Angles.

use super::{Kind, Quantity, Real};
use serde::{Deserialize, Serialize};

/// An angle, kept in degrees as every file writes it.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Angle<T = f64>(T);

impl<T: Copy> Angle<T> {
    /// An angle of `value` degrees.
    pub const fn from_degrees(value: T) -> Self {
        Self(value)
    }

    /// The angle in degrees.
    pub const fn degrees(self) -> T {
        self.0
    }
}

impl<T: Real> Angle<T> {
    /// An angle of `value` radians.
    pub fn from_radians(value: T) -> Self {
        Self(value * T::of(180.0 / std::f64::consts::PI))
    }

    /// The angle in radians.
    pub fn radians(self) -> T {
        self.0 * T::of(std::f64::consts::PI / 180.0)
    }

    /// What is left to a right angle.
    pub fn complement(self) -> Self {
        Self(T::of(90.0) - self.0)
    }
}

impl<T: Copy> Quantity<T> for Angle<T> {
    const KIND: Kind = Kind::Angle;
    fn recorded(self) -> T {
        self.0
    }
    fn from_recorded(value: T) -> Self {
        Self(value)
    }
}
