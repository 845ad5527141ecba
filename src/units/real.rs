//! The number type that the solver runs on.

use nalgebra::RealField;

/// A real number: `f64` for a plan, a dual number where derivatives are carried along.
///
/// Decisions (which branch, which of two crossings) compare values only, so a dual number takes the
/// same branch as the plain number it stands on.
pub trait Real: RealField + Copy {
    /// The plain value, without any derivative that rides along.
    fn value(self) -> f64 {
        nalgebra::convert_unchecked(self)
    }

    /// The constant `x`.
    fn of(x: f64) -> Self {
        nalgebra::convert(x)
    }
}

impl<T: RealField + Copy> Real for T {}
