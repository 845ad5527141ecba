//! What the readings say, in words.

use crate::ask::Learned;
use crate::drawing::Differs;
use crate::model::{Hand, PairName, capital};
use crate::text::{self, Style};
use crate::tolerance::{
    self, Finished, Judged, Measurand, Measurement, Mend, Outcome, Part, Reading, SystematicError, Unknown,
    Verdict,
};
use crate::units::Kind;
use serde::{Deserialize, Serialize};

/// A result and what was found of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ResultLine {
    /// What it is.
    pub name: String,
    /// Its value with its doubt; empty where it does not exist.
    pub value: String,
    /// `within`, `marginal`, `out`, `open` or `none`.
    pub verdict: String,
    /// The verdict in words.
    pub words: String,
}

/// A correction of the bench that the readings suggest.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct HabitLine {
    /// A sentence.
    pub words: String,
    /// What is kept if it is taken as a correction.
    pub learned: Learned,
}

/// What the readings say.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Found {
    /// Whether they agree, and what to look at if not.
    pub agreement: String,
    /// Whether they contradict each other.
    pub contradicts: bool,
    /// The results.
    pub results: Vec<ResultLine>,
    /// What brings the wheel straight.
    pub mends: Vec<String>,
    /// What the bench seems to do again and again.
    pub habits: Vec<HabitLine>,
}

/// The stays as found, pair by pair, right then left.
pub(super) fn differs(finished: &Finished, found: &tolerance::Estimate) -> [[Differs; 2]; 2] {
    let of = |pair: PairName, hand: Hand, part: Part| {
        let mut known = finished.unknowns.iter().zip(&found.stays);
        known
            .find(|(unknown, _)| **unknown == Unknown { pair, hand, part })
            .map_or(0.0, |(_, known)| known.value)
    };
    PairName::ALL.map(|pair| {
        Hand::ALL.map(|hand| Differs {
            length: of(pair, hand, Part::Length),
            front_angle: of(pair, hand, Part::FrontAngle),
            dropout: of(pair, hand, Part::Dropout),
        })
    })
}

pub(super) fn found(
    finished: &Finished,
    readings: &[Reading],
    estimate: &tolerance::Estimate,
    style: Style,
) -> Found {
    let outcomes = finished.rear.outcomes.iter().zip(&estimate.results).enumerate();
    let result = |(place, (outcome, judged))| {
        result(
            outcome,
            judged,
            || further(finished, &finished.further_readings(estimate, readings, place)),
            style,
        )
    };
    let agreement = &estimate.agreement;
    let worst = agreement.worst.and_then(|(measurand, _)| measurement(finished, measurand));
    let errors = finished.systematic_errors(estimate);
    Found {
        agreement: text::tolerance::agreement(agreement, worst, style),
        contradicts: agreement.contradicts(),
        results: outcomes.filter_map(result).collect(),
        mends: mends(&finished.mend(estimate), style),
        habits: errors.iter().filter(|one| one.is_clear()).map(|one| systematic_error(one, style)).collect(),
    }
}

fn measurement(finished: &Finished, measurand: Measurand) -> Option<&Measurement> {
    finished.measurements.iter().find(|one| one.measurand == measurand)
}

fn further(finished: &Finished, measurands: &[Measurand]) -> Vec<Measurement> {
    measurands.iter().filter_map(|one| measurement(finished, *one).cloned()).collect()
}

fn result(
    outcome: &Outcome,
    judged: &Judged,
    further: impl FnOnce() -> Vec<Measurement>,
    style: Style,
) -> Option<ResultLine> {
    let is_open = judged.verdict == Verdict::Open;
    // What hangs on a single joint is told once it is known.
    if is_open && !outcome.what.is_of_frame() {
        return None;
    }
    let known = judged.known.filter(|_| !is_open);
    let further = if is_open { further() } else { Vec::new() };
    Some(ResultLine {
        name: text::tolerance::outcome(outcome.what, style),
        value: known.map_or_else(String::new, |known| text::tolerance::with_doubt(known, style)),
        verdict: key(judged.verdict).to_owned(),
        words: text::tolerance::verdict(judged.verdict, &further, style),
    })
}

const fn key(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Within(_) => "within",
        Verdict::Marginal(_) => "marginal",
        Verdict::Out(_) => "out",
        Verdict::Open => "open",
        Verdict::None => "none",
    }
}

fn mends(mend: &Mend, style: Style) -> Vec<String> {
    let trims = mend.trims.iter().filter(|trim| trim.needed && trim.amount.standard.is_some());
    let moved = mend.moved.filter(|moved| moved.needed && moved.to_right.standard.is_some());
    let moved = moved.map(|moved| text::tolerance::move_across(&moved, style));
    trims.map(|one| text::tolerance::trim(one, style)).chain(moved).collect()
}

fn systematic_error(error: &SystematicError, style: Style) -> HabitLine {
    let learned = Learned {
        id: error.place.id(),
        name: capital(&text::bench::setting(&error.place, style)),
        is_angle: error.place.kind.quantity() == Kind::Angle,
        off: error.off.value,
    };
    HabitLine { words: text::tolerance::systematic_error(error, style), learned }
}
