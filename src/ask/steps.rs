//! The order of work as it is read at the machine.

use super::cut::tools;
use super::shop::entered;
use crate::model::{Hand, PairName, capital};
use crate::plan::{Cut, Plan, Stay};
use crate::procedure::{self, Effect, Reading, Rounding, Step};
use crate::units::{LengthUnit, fixed, show};
use serde::{Deserialize, Serialize};

/// What is asked of the order of work.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct ToStep {
    /// The job, as a link text.
    pub job: String,
    /// The shop, as the page keeps it.
    pub shop: Vec<u8>,
    /// The saws that the builder has picked: cuts by their keys, and the keys of saws.
    pub picked: Vec<(String, String)>,
    /// The unit of lengths.
    pub unit: LengthUnit,
}

/// One thing to do.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
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

/// The order of work, and what of it is read all at once.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Order {
    /// Every step.
    pub steps: Vec<StepLine>,
    /// What the shop is called.
    pub shop: String,
    /// Each setting with its cutter, its speed and its feed.
    pub cutters: Vec<Vec<String>>,
    /// Each finished stay, or both of a mirrored pair, with what it measures: tip to tip, length, the angles of its front and rear cut.
    pub finished: Vec<Vec<String>>,
    /// What cannot be done here, each with the part of the work it belongs to.
    pub beyond: Vec<String>,
    /// Every caution once, and where it was read.
    pub cautions: Vec<(String, String)>,
}

/// Every step of the job in that shop, with the saws that were picked or are the best on hand.
pub(super) fn order(plan: &Plan, asked: &ToStep) -> Order {
    let (shop, tools) = tools(plan, &asked.shop, &asked.picked);
    let mut steps = procedure::steps(plan, &shop, &tools);
    if !entered(&asked.shop) {
        steps.iter_mut().for_each(of_the_job_alone);
    }
    let steps: Vec<StepLine> = steps.iter().map(|step| line(step, asked.unit)).collect();
    let finished = finished(plan, asked.unit);
    let mut order = Order { shop: shop.name, finished, ..Order::default() };
    for part in steps.chunk_by(|a, b| a.part == b.part) {
        order.cutters.extend(cutter(part));
        // What the job's own fixture cannot do is among the plan's warnings.
        let of_the_shop =
            part.iter().filter(|step| !step.id.ends_with(".slide") && !step.id.ends_with(".axle-height"));
        let beyond = of_the_shop.flat_map(|step| &step.beyond);
        order
            .beyond
            .extend(beyond.map(|words| format!("{}: {words}", part.first().map_or("", |step| &step.part))));
    }
    for caution in steps.iter().flat_map(|step| &step.cautions) {
        if !order.cautions.contains(caution) {
            order.cautions.push(caution.clone());
        }
    }
    Order { steps, ..order }
}

fn finished(plan: &Plan, unit: LengthUnit) -> Vec<Vec<String>> {
    let angle = |cut: &Cut| match cut {
        Cut::Cope(cut) | Cut::Boss(cut) => show::angle(cut.angle),
        Cut::Slot(cut) => show::angle(cut.angle),
        Cut::Square(_) => "square".to_owned(),
    };
    let row = |name: &str, stay: &Stay| {
        let lengths = [show::length_or_dash(stay.tip_to_tip, unit), show::length(stay.length, unit)];
        [capital(name)].into_iter().chain(lengths).chain([&stay.front, &stay.rear].map(angle)).collect()
    };
    let of_pair = |pair: PairName| {
        let of_hand = |hand: Hand| row(&format!("{} {}", hand.key(), pair.one()), plan.pair(pair).stay(hand));
        match plan.job.pair(pair).left {
            Some(_) => Hand::ALL.map(of_hand).to_vec(),
            None => vec![row(pair.name(), &plan.pair(pair).right)],
        }
    };
    PairName::ALL.into_iter().flat_map(of_pair).collect()
}

/// Of a machine that nobody has entered nothing can be said to be in the way. A step of clamping has a shorter name.
fn of_the_job_alone(step: &mut Step) {
    if step.id.split('.').count() > 3 {
        step.beyond.clear();
        step.also.retain(|named| !named.name.starts_with("Smallest gap"));
    }
}

/// The cutter of one setting, and how it is run.
fn cutter(part: &[StepLine]) -> Option<Vec<String>> {
    let mount = part.iter().find(|step| step.id.ends_with(".cutter") || step.id.ends_with(".saw"))?;
    let cut = part.iter().find(|step| step.id.ends_with(".cut"))?;
    let written = |(number, sign): &(String, String)| match number.as_str() {
        "" => "—".to_owned(),
        number => format!("{number} {sign}").trim_end().to_owned(),
    };
    let kind = if mount.id.ends_with(".saw") { "slitting saw" } else { "hole saw" };
    let feed = cut.also.iter().find(|(name, _)| name == FEED).map_or("—", |(_, feed)| feed);
    Some(vec![
        mount.part.clone(),
        format!("{kind} {}", written(&mount.figure)),
        written(&cut.figure),
        feed.to_owned(),
    ])
}

/// What speed and feed are called at the step at which a cutter turns.
const SPINDLE: &str = "Spindle";
const FEED: &str = "Feed, at most";

fn line(step: &Step, unit: LengthUnit) -> StepLine {
    // Where nothing else is set, the spindle's speed is.
    let speed = step.also.iter().find(|named| named.name == SPINDLE && step.reading.is_none());
    let reading = step.reading.or(speed.map(|named| named.reading));
    let figure = reading.map(|reading| figure_of(reading, step.rounding, unit)).unwrap_or_default();
    let also = step.also.iter().filter(|named| speed.is_none_or(|speed| speed.name != named.name));
    StepLine {
        id: step.id.clone(),
        pair: step.id.split('.').next().unwrap_or_default().to_owned(),
        part: step.part.clone(),
        task: step.task.clone(),
        figure,
        set_on: if speed.is_some() { format!("spindle speed; {}", step.set_on) } else { step.set_on.clone() },
        also: also.map(|named| (named.name.clone(), named.reading.text(unit))).collect(),
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
