//! The closed range that a figure must lie in.

use super::said;
use std::fmt;

/// A closed range of recorded values.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// Smallest value allowed.
    pub min: f64,
    /// Largest value allowed.
    pub max: f64,
}

impl Bounds {
    /// The range from `min` to `max`, both allowed.
    pub const fn new(min: f64, max: f64) -> Self {
        Self { min, max }
    }

    /// Whether `value` is a number inside the range. Not-a-number and infinity are outside every range.
    pub fn contain(self, value: f64) -> bool {
        value.is_finite() && self.min <= value && value <= self.max
    }

    /// The value of the range nearest to `value`. Unlike the standard library's, it cannot panic.
    pub const fn nearest(self, value: f64) -> f64 {
        value.max(self.min).min(self.max)
    }
}

impl fmt::Display for Bounds {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} to {}", said(self.min, 3), said(self.max, 3))
    }
}
