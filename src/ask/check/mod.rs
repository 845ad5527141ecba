//! How far errors carry, what is measured on the finished stays, and what that says.

mod carried;
mod found;
mod measures;
mod moved;

pub use carried::{Carried, SettingLine, ShareLine};
pub use found::{Found, HabitLine, ResultLine};
pub use measures::Measure;

use super::shop_errors::ShopErrors;
use crate::drawing::Differs;
use crate::plan::Plan;
use crate::text::{self, Style};
use crate::tolerance::{Finished, Measurand, Outcome, What};
use crate::units::LengthUnit;
use serde::{Deserialize, Serialize};

/// Nominal figures closer than this, mm or degrees, are one.
const SAME: f64 = 1e-6;

/// Draws of a sample.
const RUNS: usize = 2000;
/// The seed that they follow from.
const SEED: u64 = 1;

/// What is asked about a job.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct ToCheck {
    /// The job, as a link text.
    pub job: String,
    /// The unit of lengths.
    pub unit: LengthUnit,
    /// What the builder knows of the bench.
    pub bench: ShopErrors,
    /// What was read, mm or degrees, by the name of its figure.
    pub readings: Vec<(String, f64)>,
    /// What these figures should have been when they were read, mm or degrees; of others nobody knows.
    pub read_for: Vec<(String, f64)>,
    /// The result that is looked at.
    pub result: String,
    /// The figure of the job that is touched.
    pub touched: Option<String>,
}

/// What there is to say.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Checked {
    /// What can be measured.
    pub measures: Vec<Measure>,
    /// Every setting that can be off.
    pub settings: Vec<SettingLine>,
    /// Every result: its name among them, and what it is called.
    pub results: Vec<(String, String)>,
    /// How far errors carry to the result that is looked at.
    pub carried: Option<Carried>,
    /// What the readings say; `None` without any, and where no stays fit them.
    pub found: Option<Found>,
    /// The stays as found, chainstays and seat stays, right then left; `None` likewise.
    pub differs: Option<[[Differs; 2]; 2]>,
    /// What moves when the touched figure grows by one of its unit, and by how much.
    pub moves: Vec<(String, String)>,
}

impl ToCheck {
    /// The readings on stays that should measure what these should.
    fn read_on_these(&self, measures: &[Measure]) -> Vec<(String, f64)> {
        let now = |id: &str| measures.iter().find(|measure| measure.id == id).map(|measure| measure.nominal);
        let then =
            |id: &str| self.read_for.iter().find(|(known, _)| known == id).map(|(_, nominal)| *nominal);
        let is_of = |id: &str| then(id).zip(now(id)).is_none_or(|(then, now)| (then - now).abs() < SAME);
        self.readings.iter().filter(|(id, _)| is_of(id)).cloned().collect()
    }
}

/// The answer.
pub(super) fn check(plan: &Plan, asked: &ToCheck) -> Checked {
    let style = Style { unit: asked.unit, ..Style::default() };
    let mut finished = Finished::new(plan);
    finished.rear.apply(&asked.bench.known_errors());
    let rear = &finished.rear;
    let measures = measures::measures(&finished, style);
    let own = asked.read_on_these(&measures);
    let read = own.iter().filter_map(|(id, value)| Some((Measurand::from_id(id)?, *value)));
    let readings = finished.readings(&read.collect::<Vec<_>>());
    let estimate = Some(&readings).filter(|list| !list.is_empty()).and_then(|list| finished.estimate(list));
    let name = |one: &Outcome| (one.id(), text::tolerance::outcome(one.what, style));
    Checked {
        measures,
        settings: rear.settings.iter().map(|setting| carried::setting(setting, style)).collect(),
        results: rear.outcomes.iter().map(name).collect(),
        carried: carried::carried(rear, What::from_id(&asked.result), style),
        differs: estimate.as_ref().map(|estimate| found::differs(&finished, estimate)),
        found: estimate.map(|estimate| found::found(&finished, &readings, &estimate, style)),
        moves: moved::moves(&plan.job, asked.touched.as_deref(), style),
    }
}
