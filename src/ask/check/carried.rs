//! How far errors carry to a result, in words.

use crate::model::capital;
use crate::text::{self, Style};
use crate::tolerance::{Budget, RearEnd, Setting, Share, ToleranceAllocation, What};
use crate::units::Kind;
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

pub(super) fn setting(setting: &Setting, style: Style) -> SettingLine {
    SettingLine {
        id: setting.id(),
        name: capital(&text::bench::setting(&setting.place, style)),
        is_angle: setting.place.kind.quantity() == Kind::Angle,
        half_width: setting.spread.worst(),
        source: text::bench::starting_spread(setting.place.kind, style),
    }
}

/// How far errors carry to a result; `None` where the job has no such result.
pub(super) fn carried(rear: &RearEnd, what: Option<What>, style: Style) -> Option<Carried> {
    let place = rear.outcomes.iter().position(|outcome| Some(outcome.what) == what)?;
    let outcome = rear.outcomes.get(place)?;
    let carried = rear.carried().into_iter().nth(place)?;
    let sample = rear.sampled(super::RUNS, super::SEED).into_iter().nth(place)?;
    let (_, high) = outcome.limit.range();
    let limit = if high.is_finite() { high } else { outcome.limit.range().0 };
    let (totals, shares) = match &carried.budget {
        Some(budget) => {
            let mut totals = text::tolerance::totals(budget, style).to_vec();
            totals.extend(text::tolerance::simulated(&sample, outcome.limit, style));
            (totals, shares(rear, budget, &carried.allocations, style))
        }
        None => (vec!["This result does not exist for this job.".to_owned()], Vec::new()),
    };
    Some(Carried { limit, source: text::tolerance::starting_limit(outcome.what, style), totals, shares })
}

/// The settings that move a result, the largest share first, each with what it must be held to.
fn shares(
    rear: &RearEnd,
    budget: &Budget,
    allocations: &[ToleranceAllocation],
    style: Style,
) -> Vec<ShareLine> {
    let line = |share: &Share| {
        let setting = rear.settings.get(share.input).filter(|_| share.slope != 0.0)?;
        let kind = setting.place.kind.quantity();
        let allocation = allocations.iter().find(|one| one.input == share.input);
        Some(ShareLine {
            name: capital(&text::bench::setting(&setting.place, style)),
            part: share.part,
            gives: text::tolerance::share(kind, setting.spread, share.worst, style),
            hold: allocation.map_or_else(String::new, |one| text::tolerance::allocation(kind, one, style)),
        })
    };
    budget.shares.iter().filter_map(line).collect()
}
