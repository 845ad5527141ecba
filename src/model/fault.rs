//! What is wrong with a figure that was entered.

use super::given::Given;
use super::group::Spec;
use crate::units::{LengthUnit, said};
use serde::Serialize;
use std::fmt;

/// One fault: where, what stood there, and what would do.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Fault {
    /// The path of the figure, as in the job file; empty when the fault is the whole text's.
    pub field: String,
    /// What stood there, cut short when long.
    pub value: Given,
    /// A sentence for the person who typed it.
    pub message: String,
}

impl Fault {
    /// A fault at `field`.
    pub fn new(field: impl Into<String>, value: impl Into<Given>, message: impl Into<String>) -> Self {
        Self { field: field.into(), value: value.into(), message: message.into() }
    }

    /// A number outside the range of its figure.
    pub fn outside(field: &str, spec: &Spec, value: f64) -> Self {
        let unit = spec.unit();
        let message = format!(
            "{} {}{} is outside {}",
            spec.name,
            if value.is_finite() { said(value, 3) } else { "without a number".to_owned() },
            spaced(unit),
            spec.range(),
        );
        Self::new(field, value, message)
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.field.is_empty() {
            write!(f, "{}", self.message)
        } else {
            write!(f, "{}: {}", self.field, self.message)
        }
    }
}

impl std::error::Error for Fault {}

impl Spec {
    /// The sign of the unit of record: `mm`, `°`, `rpm`; empty for a count.
    pub const fn unit(&self) -> &'static str {
        self.kind.unit(LengthUnit::Millimetre).sign()
    }

    /// The range with its unit: `250 to 800 mm`.
    pub fn range(&self) -> String {
        format!("{}{}", self.bounds, spaced(self.unit()))
    }
}

/// ISO 80000-1: a space before `mm`, none before `°`. A count has no unit.
fn spaced(unit: &str) -> String {
    if matches!(unit, "°" | "") { unit.to_owned() } else { format!(" {unit}") }
}
