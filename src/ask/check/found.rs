//! What the readings say, in words.

use super::carried::per_cent;
use crate::ask::Learned;
use crate::drawing::Differs;
use crate::model::{Hand, PairName, capital};
use crate::tolerance::{
    self, Finished, Habit, Judged, Known, Mend, Outcome, Part, Reading, Trim, Unknown, Verdict, What,
};
use crate::units::{LengthUnit, show};
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
pub(super) fn differs(finished: &Finished, found: &tolerance::Found) -> [[Differs; 2]; 2] {
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
    found: &tolerance::Found,
    unit: LengthUnit,
) -> Found {
    let outcomes = finished.rear.outcomes.iter().zip(&found.results).enumerate();
    let result = |(place, (outcome, judged))| {
        result(outcome, judged, || open(finished, &finished.asks(found, readings, place)), unit)
    };
    let habits = finished.habits(found);
    Found {
        agreement: agreement(finished, found),
        contradicts: found.agreement.contradicts(),
        results: outcomes.filter_map(result).collect(),
        mends: mends(&finished.mend(found), unit),
        habits: habits.iter().filter(|habit| habit.is_clear()).map(|one| habit(one, unit)).collect(),
    }
}

fn name_of<'a>(finished: &'a Finished, id: &'a str) -> &'a str {
    finished.figures.iter().find(|figure| figure.id == id).map_or(id, |figure| &figure.name)
}

fn agreement(finished: &Finished, found: &tolerance::Found) -> String {
    if found.agreement.freedom < 1 {
        return "No reading is checked by another yet.".to_owned();
    }
    if !found.agreement.contradicts() {
        return "The readings agree with each other.".to_owned();
    }
    let worst = found.agreement.worst.as_ref().map_or("", |(id, _)| name_of(finished, id));
    format!("The readings contradict each other. Read this one again first: {worst}.")
}

fn result(
    outcome: &Outcome,
    judged: &Judged,
    open: impl FnOnce() -> String,
    unit: LengthUnit,
) -> Option<ResultLine> {
    let (verdict, words) = match judged.verdict {
        // What hangs on a single joint is told once it is known.
        Verdict::Open if outcome.id.contains('.') => return None,
        Verdict::Open => ("open", open()),
        Verdict::Within(p) => ("within", format!("within its limit ({})", per_cent(p))),
        Verdict::Marginal(p) => ("marginal", format!("marginal: {} likely within", per_cent(p))),
        Verdict::Out(p) => ("out", format!("out: {} likely within", per_cent(p))),
        Verdict::None => ("none", "has no value".to_owned()),
    };
    let known = judged.known.filter(|_| verdict != "open");
    Some(ResultLine {
        name: outcome.name.clone(),
        value: known.map_or_else(String::new, |known| with_doubt(known, unit)),
        verdict: verdict.to_owned(),
        words,
    })
}

/// What to read besides.
fn open(finished: &Finished, asks: &[String]) -> String {
    let names: Vec<&str> = asks.iter().map(|id| name_of(finished, id)).collect();
    if names.is_empty() { "left open".to_owned() } else { format!("measure also: {}", names.join("; ")) }
}

fn with_doubt(known: Known, unit: LengthUnit) -> String {
    let value = show::signed_length(known.value, unit);
    let doubt = known.standard.map(|standard| format!(" ± {}", show::fine(2.0 * standard, false, unit)));
    format!("{value}{}", doubt.unwrap_or_default())
}

fn mends(mend: &Mend, unit: LengthUnit) -> Vec<String> {
    let trims = mend.trims.iter().filter(|trim| trim.needed && trim.amount.standard.is_some());
    let moved = mend.moved.filter(|moved| moved.needed && moved.to_right.standard.is_some()).map(|moved| {
        let value = moved.to_right.value;
        let side = if value > 0.0 { "right" } else { "left" };
        let by = show::fine(value.abs(), false, unit);
        format!(
            "Set both chainstays {by} further to the {side} on the shell: that brings the axle to the middle."
        )
    });
    trims.map(|one| trim(one, unit)).chain(moved).collect()
}

fn trim(trim: &Trim, unit: LengthUnit) -> String {
    let why = match trim.mends {
        What::Square => "that puts the wheel square",
        What::Lean => "that stands the wheel upright",
        _ => "that brings the axle to the middle",
    };
    let amount = with_doubt(trim.amount, unit);
    format!("Take {} off the {}: {why}.", amount.trim_start_matches('+'), trim.at.name())
}

fn habit(habit: &Habit, unit: LengthUnit) -> HabitLine {
    let (off, is_angle) = (habit.off.value, habit.place.kind.unit() == "°");
    let name = capital(&habit.place.name());
    let more = if off < 0.0 { "less" } else { "more" };
    let words = format!("{name}: {} {more} than told", show::fine(off.abs(), is_angle, unit));
    HabitLine { words, learned: Learned { id: habit.place.id(), name, is_angle, off } }
}
