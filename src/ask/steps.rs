//! The order of work as it is read at the machine.

use crate::plan::Plan;
use crate::quantity::{LengthUnit, fixed, show};
use crate::trade::shop::Shop;
use crate::work::{self, Effect, Reading, Rounding, Step, Tools};
use nanoserde::{DeBin, SerBin};

/// One thing to do.
#[derive(Clone, Debug, Default, PartialEq, SerBin, DeBin)]
pub struct StepLine {
    /// Stays the same while the job does, so that a tick finds its step again.
    pub id: String,
    /// The pair it belongs to, by its key.
    pub pair: String,
    /// The part of the work that it belongs to.
    pub part: String,
    /// What to do.
    pub task: String,
    /// The figure to set and its unit, apart; empty where there is none.
    pub figure: (String, String),
    /// What it is set on, and which way round.
    pub set_on: String,
    /// Names and figures beside it.
    pub also: Vec<(String, String)>,
    /// What the scale's smallest division leaves, and what that does.
    pub rounding: Option<String>,
    /// How to see that it was done right.
    pub check: Option<String>,
    /// Why it comes now and not later.
    pub why: Option<String>,
    /// What cannot be done here, each with the figure by which it fails.
    pub beyond: Vec<String>,
    /// What can hurt here, and where that was read.
    pub cautions: Vec<(String, String)>,
}

/// Every step of the job, in a shop of which nothing is known but its fixture.
pub(super) fn lines(plan: &Plan, unit: LengthUnit) -> Vec<StepLine> {
    work::steps(plan, &Shop::default(), &Tools::default()).iter().map(|step| line(step, unit)).collect()
}

fn line(step: &Step, unit: LengthUnit) -> StepLine {
    let figure = step.reading.map(|reading| figure_of(reading, step.rounding, unit)).unwrap_or_default();
    StepLine {
        id: step.id.clone(),
        pair: step.id.split('.').next().unwrap_or_default().to_owned(),
        part: step.part.clone(),
        task: step.task.clone(),
        figure,
        set_on: step.set_on.clone(),
        also: step.also.iter().map(|named| (named.name.clone(), named.reading.text(unit))).collect(),
        rounding: step.rounding.and_then(|rounding| left(rounding, unit)),
        check: step.check.map(str::to_owned),
        why: step.why.map(str::to_owned),
        beyond: step.beyond.iter().map(|words| show::in_sentence(words, unit)).collect(),
        cautions: step.cautions.iter().map(|one| (one.words.to_owned(), one.source.to_owned())).collect(),
    }
}

/// The figure with as many decimals as its scale shows.
fn figure_of(reading: Reading, rounding: Option<Rounding>, unit: LengthUnit) -> (String, String) {
    let (mut number, sign) = reading.parts(unit);
    if let (Some(rounding), Reading::Length(length)) = (rounding, reading) {
        number = show::minus(&fixed(show::in_unit(length.mm(), unit), rounding.decimals(unit)));
    }
    (number, sign.to_owned())
}

/// A remainder below this, mm or degrees, is nobody's concern.
const NOTHING: f64 = 0.0005;

fn left(rounding: Rounding, unit: LengthUnit) -> Option<String> {
    let number = rounding.left.number().filter(|number| number.abs() >= NOTHING)?;
    let fine = |number: f64, is_angle| show::fine(number, is_angle, unit);
    let is_angle = matches!(rounding.left, Reading::Angle(_));
    let division = fine(rounding.division.number()?, is_angle);
    let said = format!("To the scale's {division}: {} is left", fine(number, is_angle));
    let Effect { along, offset, angle } = rounding.effect;
    let moved = [
        ("along the stay", along.mm(), false),
        ("across it", offset.mm(), false),
        ("in its angle", angle.degrees(), true),
    ];
    let does: Vec<String> = moved
        .into_iter()
        .filter(|(_, by, _)| by.abs() >= NOTHING)
        .map(|(way, by, is_angle)| format!("{} {way}", fine(by, is_angle)))
        .collect();
    Some(if does.is_empty() {
        format!("{said}.")
    } else {
        format!("{said}, which moves the cut by {}.", does.join(", "))
    })
}
