//! Lengths.

use super::{Kind, Quantity, Real};
use serde::{Deserialize, Serialize};
use std::ops::{Add, Neg, Sub};

/// A length, kept in millimetres.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Length<T = f64>(T);

/// Millimetres in an inch, exact by definition (international yard and pound agreement, 1959).
pub const MM_PER_INCH: f64 = 25.4;

impl<T: Copy> Length<T> {
    /// A length of `value` millimetres.
    pub const fn from_mm(value: T) -> Self {
        Self(value)
    }

    /// The length in millimetres.
    pub const fn mm(self) -> T {
        self.0
    }
}

impl Length {
    /// A length of `value` inches.
    pub fn from_inches(value: f64) -> Self {
        Self(value * MM_PER_INCH)
    }

    /// The length in inches.
    pub fn inches(self) -> f64 {
        self.0 / MM_PER_INCH
    }
}

impl<T: Copy> Quantity<T> for Length<T> {
    const KIND: Kind = Kind::Length;
    fn recorded(self) -> T {
        self.0
    }
    fn from_recorded(value: T) -> Self {
        Self(value)
    }
}

impl<T: Real> Add for Length<T> {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl<T: Real> Sub for Length<T> {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl<T: Real> Neg for Length<T> {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}
