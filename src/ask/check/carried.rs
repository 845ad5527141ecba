//! How far errors carry to a result, in words.

use crate::model::capital;
use crate::tolerance::{Budget, Hold, Outcome, RearEnd, Sample, Setting, Share};
use crate::units::{LengthUnit, show, trimmed};
use serde::{Deserialize, Serialize};

/// A setting that can be off.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SettingLine {
    /// Its name among the settings.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// Whether it is an angle.
    pub is_angle: bool,
    /// Its largest error, mm or degrees.
    pub half_width: f64,
    /// Where that comes from.
    pub source: String,
}

/// A setting's part in a result.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ShareLine {
    /// What it is called.
    pub name: String,
    /// Its part of the variance, 0 to 1.
    pub part: f64,
    /// How far it can be off, and what that gives.
    pub gives: String,
    /// What to hold it to.
    pub hold: String,
}

/// How far errors carry to one result.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Carried {
    /// Its limit, mm.
    pub limit: f64,
    /// Where the starting limit comes from.
    pub source: String,
    /// Sentences on the whole.
    pub totals: Vec<String>,
    /// One for each setting that moves it, the largest first.
    pub shares: Vec<ShareLine>,
}

/// The part of drawn results that the interval holds.
const DRAWN_PART: f64 = 0.95;

pub(super) fn setting(setting: &Setting) -> SettingLine {
    SettingLine {
        id: setting.id(),
        name: capital(&setting.name()),
        is_angle: is_angle(setting),
        half_width: setting.spread.worst(),
        source: setting.source.to_owned(),
    }
}

fn is_angle(setting: &Setting) -> bool {
    setting.place.kind.unit() == "°"
}

/// How far errors carry to the result of that name.
pub(super) fn carried(rear: &RearEnd, id: &str, unit: LengthUnit) -> Option<Carried> {
    let place = rear.outcomes.iter().position(|outcome| outcome.id == id)?;
    let outcome = rear.outcomes.get(place)?;
    let carried = rear.carried().into_iter().nth(place)?;
    let sample = rear.sampled(super::RUNS, super::SEED).into_iter().nth(place)?;
    let (_, high) = outcome.limit.range();
    let limit = if high.is_finite() { high } else { outcome.limit.range().0 };
    let (totals, shares) = match &carried.budget {
        Some(budget) => (totals(budget, outcome, &sample, unit), shares(rear, budget, &carried.holds, unit)),
        None => (vec!["This result does not exist for this job.".to_owned()], Vec::new()),
    };
    Some(Carried { limit, source: outcome.source.to_owned(), totals, shares })
}

fn totals(budget: &Budget, outcome: &Outcome, sample: &Sample, unit: LengthUnit) -> Vec<String> {
    let mm = |value| show::fine(value, false, unit);
    let mut all = vec![
        format!("As told: {}.", mm(budget.value)),
        format!("Root of squares: ± {} (two standard uncertainties).", mm(2.0 * budget.standard)),
        format!("Everything at its worst together: ± {}.", mm(budget.worst)),
    ];
    all.extend(sample.interval(DRAWN_PART).map(|(low, high)| {
        let kept = sample.part(|value| outcome.limit.keeps(value));
        format!(
            "Drawn {} times (seed {}): 95 % lie from {} to {}; {} keep the limit.",
            super::RUNS,
            super::SEED,
            mm(low),
            mm(high),
            per_cent(kept)
        )
    }));
    all
}

/// The settings that move a result, the largest share first, each with what it must be held to.
fn shares(rear: &RearEnd, budget: &Budget, holds: &[Hold], unit: LengthUnit) -> Vec<ShareLine> {
    let line = |share: &Share| {
        let setting = rear.settings.get(share.input).filter(|_| share.slope != 0.0)?;
        let fine = |value| show::fine(value, is_angle(setting), unit);
        let hold = holds.iter().find(|hold| hold.input == share.input);
        let gives = show::fine(share.worst, false, unit);
        Some(ShareLine {
            name: capital(&setting.name()),
            part: share.part,
            gives: format!("± {} gives ± {gives}", fine(setting.spread.worst())),
            hold: hold.map_or_else(String::new, |hold| format!("hold to ± {}", fine(hold.by_squares))),
        })
    };
    budget.shares.iter().filter_map(line).collect()
}

/// Nothing is certain, and nothing that was found is impossible.
pub(super) fn per_cent(part: f64) -> String {
    match part {
        part if part > 0.995 => "over 99 %".to_owned(),
        part if part < 0.005 => "under 1 %".to_owned(),
        part => format!("{} %", trimmed(part * 100.0, 0)),
    }
}
