//! Counts.

use super::Quantity;
use serde::{Deserialize, Serialize};

/// A number of things, such as teeth. It runs through the solver as any other number does.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Count<T = f64>(T);

impl<T: Copy> Count<T> {
    /// `value` things.
    pub const fn of(value: T) -> Self {
        Self(value)
    }

    /// How many.
    pub const fn number(self) -> T {
        self.0
    }
}

impl<T: Copy> Quantity<T> for Count<T> {
    const UNIT: &'static str = "";
    fn recorded(self) -> T {
        self.0
    }
    fn from_recorded(value: T) -> Self {
        Self(value)
    }
}
