//! The order of work as it is read at the machine.

use super::cut::tools;
use super::made_for::{MadeFor, made_for};
use super::setting_row::{SettingRow, row};
use super::shop::entered;
use crate::model::shop::{Shop, Toward};
use crate::model::{Hand, Level, PairName, capital};
use crate::plan::{Cut, Plan, Stay};
use crate::procedure::{
    self, Effect, Phase, Problem, Quantity, Reading, Rounding, SetPoint, SettingKey, Step, StepKind, Task,
    Tools, problems,
};
use crate::text::Style;
use crate::text::procedure as words;
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
    /// What it is for, so that a tick finds its step again.
    pub id: String,
    /// The figures that it is done for.
    pub made_for: MadeFor,
    /// The setting that it belongs to; none in an empty line.
    pub setting: Option<SettingKey>,
    /// The pair it belongs to, by its key.
    pub pair: String,
    /// The part of the work that it belongs to.
    pub part: String,
    /// What to do.
    pub task: String,
    /// The figure to set and its unit, apart; empty where there is none. Several are joined.
    pub figure: (String, String),
    /// Each figure to set by itself.
    pub readings: Vec<ReadingLine>,
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
    /// What is to be known here.
    pub notes: Vec<String>,
    /// What can hurt here, and where that was read.
    pub cautions: Vec<(String, String)>,
}

/// One of the figures that are set at a step.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct ReadingLine {
    /// What it is called beside the others, `X`, `post 1`; empty where it needs no name.
    pub name: String,
    /// The figure, as its scale shows it.
    pub number: String,
    /// Its unit.
    pub unit: String,
    /// What the scale's smallest division leaves, and what that does.
    pub rounding: Option<String>,
}

/// How the fixture is tilted for the ends of a pair.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct TiltLine {
    /// The pair.
    pub pair: PairName,
    /// Whether for its front ends.
    pub at_front: bool,
    /// What the gauge shows, degrees.
    pub gauge: f64,
}

/// The order of work, and what of it is read all at once.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Order {
    /// Every step.
    pub steps: Vec<StepLine>,
    /// Each clamping and each cutting, with all that is set for it.
    pub settings: Vec<SettingRow>,
    /// What the shop is called.
    pub shop: String,
    /// Whether the rear ends point to the left of whoever stands at the mill.
    pub rear_left: bool,
    /// Each tilt of the fixture.
    pub tilts: Vec<TiltLine>,
    /// Each setting with its cutter, its speed and its feed.
    pub cutters: Vec<Vec<String>>,
    /// Each finished stay, or both of a mirrored pair, with what it measures: tip to tip, length, the angles of its front and rear cut.
    pub finished: Vec<Vec<String>>,
    /// What cannot be done here, each with the part of the work it belongs to.
    pub beyond: Vec<String>,
    /// Every caution once, and where it was read.
    pub cautions: Vec<(String, String)>,
}

/// What the order of work rests on, and its steps.
pub(super) struct Work {
    pub(super) shop: Shop,
    pub(super) tools: Tools,
    pub(super) steps: Vec<Step>,
}

/// The order of work of a plan in the shop that was asked about.
pub(super) fn work(plan: &Plan, asked: &ToStep) -> Work {
    let (shop, tools) = tools(plan, &asked.shop, &asked.picked);
    let mut steps = procedure::steps(plan, &shop, &tools);
    if !entered(&asked.shop) {
        steps.iter_mut().for_each(of_the_job_alone);
    }
    Work { shop, tools, steps }
}

/// Every step of the job in that shop, with the saws that were picked or are the best on hand.
pub(super) fn order(plan: &Plan, asked: &ToStep) -> Order {
    let style = Style { unit: asked.unit, ..Style::default() };
    let Work { shop, steps, .. } = work(plan, asked);
    let mut order = Order {
        steps: steps
            .iter()
            .zip(made_for(&steps))
            .map(|(step, made_for)| line(step, made_for, style))
            .collect(),
        settings: procedure::settings(&steps).iter().map(|one| row(one, style)).collect(),
        rear_left: shop.mill.rear_toward == Toward::Minus,
        tilts: steps.iter().filter_map(tilt).collect(),
        shop: shop.name,
        cutters: cutters(&steps, style),
        finished: finished(plan, asked.unit),
        beyond: beyond(&steps, style),
        cautions: Vec::new(),
    };
    for caution in order.steps.iter().flat_map(|step| &step.cautions) {
        if !order.cautions.contains(caution) {
            order.cautions.push(caution.clone());
        }
    }
    order
}

fn tilt(step: &Step) -> Option<TiltLine> {
    let Task::Tilt { .. } = step.task else { return None };
    let gauge = step.reading?.number()?;
    Some(TiltLine { pair: step.key.setting.pair, at_front: step.key.setting.at_front()?, gauge })
}

/// What cannot be done in the shop. What the job's own fixture cannot do is among the plan's warnings.
fn beyond(steps: &[Step], style: Style) -> Vec<String> {
    let of_the_shop = problems(steps).filter(|(key, problem)| {
        !matches!(key.kind, StepKind::Slide | StepKind::AxleHeight) && problem.level() > Level::Note
    });
    of_the_shop
        .map(|(key, problem)| format!("{}: {}", words::setting(&key.setting), words::problem(problem, style)))
        .collect()
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

/// Of a machine that nobody has entered nothing can be said to be in the way.
fn of_the_job_alone(step: &mut Step) {
    if matches!(step.key.setting.phase, Phase::Front | Phase::Rear) {
        step.problems.retain(|problem| *problem == Problem::SawsUnknown);
        step.also.retain(|beside| !matches!(beside.what, Quantity::SmallestGap(..)));
    }
}

/// Each setting with its cutter, and how that is run; a cutter that stays mounted for the next setting is named there too.
fn cutters(steps: &[Step], style: Style) -> Vec<Vec<String>> {
    let (mut rows, mut mounted) = (Vec::new(), None);
    for step in steps {
        match step.task {
            Task::MountHoleSaw { .. } => mounted = Some(("hole saw", step)),
            Task::MountSlittingSaw { .. } => mounted = Some(("slitting saw", step)),
            Task::Cut { .. } | Task::Slot { .. } => {
                let title = words::setting(&step.key.setting);
                let is_new = rows.last().and_then(|row: &Vec<String>| row.first()) != Some(&title);
                rows.extend(mounted.filter(|_| is_new).map(|mounted| cutter(title, mounted, step, style)));
            }
            _ => {}
        }
    }
    rows
}

fn cutter(title: String, (kind, mount): (&str, &Step), cut: &Step, style: Style) -> Vec<String> {
    let written =
        |reading: Option<Reading>| reading.map_or_else(|| "—".to_owned(), |reading| reading.text(style.unit));
    let (number, sign) = mount.reading.map_or_else(Default::default, |reading| reading.parts(style.unit));
    vec![
        title,
        format!("{kind} {number} {sign}").trim_end().to_owned(),
        written(cut.beside_of(Quantity::Spindle)),
        written(cut.beside_of(Quantity::Feed)),
    ]
}

fn line(step: &Step, made_for: MadeFor, style: Style) -> StepLine {
    let Style { unit, .. } = style;
    // Where nothing else is set, the spindle's speed is.
    let speed = step.beside_of(Quantity::Spindle).filter(|_| step.reading.is_none());
    let readings: Vec<ReadingLine> = step.set_points().map(|point| reading_line(point, unit)).collect();
    let speed_alone = speed.map(|reading| figure_of(reading, None, unit));
    let figure = joined(&readings)
        .or(speed_alone)
        .or_else(|| Some((words::figure(step.task)?.to_owned(), String::new())));
    let also = step.also.iter().filter(|beside| speed.is_none() || beside.what != Quantity::Spindle);
    let problems = |is_note: bool| {
        let of_kind = step.problems.iter().filter(move |one| (one.level() == Level::Note) == is_note);
        of_kind.map(|problem| words::problem(problem, style)).collect()
    };
    let set_on = words::set_on(step, style);
    StepLine {
        id: step.key.written(),
        setting: Some(step.key.setting),
        made_for,
        pair: step.key.setting.pair.key().to_owned(),
        part: words::setting(&step.key.setting),
        task: words::task(step),
        figure: figure.unwrap_or_default(),
        rounding: said_left(&readings),
        readings,
        set_on: if speed.is_some() { format!("spindle speed; {set_on}") } else { set_on },
        also: also.map(|beside| (words::quantity(beside.what, style), beside.reading.text(unit))).collect(),
        check: words::check(step).map(str::to_owned),
        why: words::why(step).map(str::to_owned),
        beyond: problems(false),
        notes: problems(true),
        cautions: step
            .cautions
            .iter()
            .map(|one| (words::caution(*one).to_owned(), words::source(*one).to_owned()))
            .collect(),
    }
}

fn reading_line(point: SetPoint, unit: LengthUnit) -> ReadingLine {
    let (number, sign) = figure_of(point.reading, point.rounding, unit);
    ReadingLine {
        name: words::label(point.scale).unwrap_or_default(),
        number,
        unit: sign,
        rounding: point.rounding.and_then(|rounding| left(rounding, unit)),
    }
}

/// All figures as one: `X −64.85, Y 45.00`; without names where they are of one scale.
fn joined(readings: &[ReadingLine]) -> Option<(String, String)> {
    let first = readings.first()?;
    let is_named = readings.iter().any(|reading| reading.name != first.name);
    let figures: Vec<String> = readings
        .iter()
        .map(|ReadingLine { name, number, .. }| match is_named && !name.is_empty() {
            true => format!("{name} {number}"),
            false => number.clone(),
        })
        .collect();
    Some((figures.join(", "), first.unit.clone()))
}

/// What the scales leave of each figure.
fn said_left(readings: &[ReadingLine]) -> Option<String> {
    let with_name = |reading: &ReadingLine| {
        let left = reading.rounding.as_ref()?;
        let named = readings.len() > 1 && !reading.name.is_empty();
        Some(if named { format!("{}: {left}", capital(&reading.name)) } else { left.clone() })
    };
    let all: Vec<String> = readings.iter().filter_map(with_name).collect();
    (!all.is_empty()).then(|| all.join(" "))
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
