//! What to measure on the finished stays.

use crate::model::PairName;
use crate::text::{self, Style};
use crate::tolerance::{Finished, Measurement};
use crate::units::Kind;
use serde::{Deserialize, Serialize};

/// One figure to measure.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Measure {
    /// Stays the same while the job does.
    pub id: String,
    /// The pair that it is measured on.
    pub pair: PairName,
    /// What is measured.
    pub name: String,
    /// With what, and from where to where.
    pub how: String,
    /// What it should be, mm or degrees.
    pub nominal: f64,
    /// Whether it is an angle.
    pub is_angle: bool,
}

pub(super) fn measures(finished: &Finished, style: Style) -> Vec<Measure> {
    let measure = |one: &Measurement| Measure {
        id: one.measurand.id(),
        pair: one.measurand.pair(),
        name: text::measure::measurand(one, style),
        how: text::measure::method(one.method, style).to_owned(),
        nominal: one.nominal,
        is_angle: one.measurand.quantity() == Kind::Angle,
    };
    finished.measurements.iter().map(measure).collect()
}
