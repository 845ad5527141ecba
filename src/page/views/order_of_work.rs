//! The order of work at the machine.

use super::drawing::sheet_view;
use super::pair_choice::pair_choice;
use super::stale::stale_too;
use super::step_item::step_item;
use super::until_answered::until_answered;
use crate::browser::part::{Part, part};
use crate::session::Session;
use leptos::prelude::*;
use staywright::ask::{Order, StepLine};
use staywright::drawing::{OnMachine, clamp_plane, fixture_tilt};
use staywright::model::{Hand, PairName};
use staywright::plan::CutAt;
use staywright::units::Angle;

const CAUTION: &str = "A hole saw can catch a tube and throw it. Your machine's manual and local rules come first, and licensed practice.";

/// What can hurt at the machine, and what comes first.
pub fn cautions() -> Part {
    part("p").class("caution").text(CAUTION)
}

/// The steps of a pair with their ticks, and the drawings of its set-up.
pub fn order_of_work() -> Vec<Part> {
    let session = Session::here();
    let pair = move || session.settings.pick.get().pair;
    let steps = until_answered(part("div"), session.answers.order)
        .add(parts(move || last(session, |order| steps_of(order, pair()))));
    let drawings = part("div")
        .class("drawings")
        .set("role", "region")
        .set("aria-label", "Drawings")
        .set("tabindex", "0")
        .by(
            move || pair().key().to_owned(),
            |key| {
                PairName::ALL.into_iter().filter(|pair| pair.key() == key).flat_map(pair_drawings).collect()
            },
        );
    vec![pair_choice(), stale_too(), steps, drawings]
}

/// What the order of work says that was answered last; it is hidden while it is of another plan.
fn last<T: Default>(session: Session, what: impl Fn(&Order) -> T) -> T {
    session.answers.order.last().map(|order| what(&order)).unwrap_or_default()
}

fn steps_of(order: &Order, pair: PairName) -> Vec<StepLine> {
    order.steps.iter().filter(|step| step.pair == pair.key()).cloned().collect()
}

/// The machine as the drawings show it: rear ends where they point there, and the figure that its gauge shows.
fn on_machine(session: Session, at: CutAt) -> OnMachine {
    let of_order = |order: &Order| OnMachine {
        rear_left: order.rear_left,
        gauge: order
            .tilts
            .iter()
            .find(|tilt| (tilt.pair, tilt.at_front) == (at.pair, at.at_front))
            .map(|tilt| Angle::from_degrees(tilt.gauge)),
    };
    session.order.get().map(|order| of_order(&order)).unwrap_or_default()
}

/// The pair in its fixture, and how the fixture stands for each of its round cuts.
pub fn pair_drawings(pair: PairName) -> Vec<Part> {
    let session = Session::here();
    let plan = session.follow.plan;
    let stands = move |at_front: bool| {
        let at = CutAt { pair, hand: Hand::Right, at_front };
        let is_round = move || plan.with(|plan| at.cut(plan).round().is_some());
        let draw = move || {
            sheet_view(0.4, true, move |room| {
                let machine = on_machine(session, at);
                plan.with(|plan| fixture_tilt(plan, at, machine, room))
            })
        };
        part("div").when(is_round, draw)
    };
    let clamped = sheet_view(0.5, true, move |room| plan.with(|plan| clamp_plane(plan, pair, room)));
    vec![clamped, stands(true), stands(false)]
}

/// The steps under the headings of their parts.
pub fn parts(steps: impl Fn() -> Vec<StepLine> + 'static) -> Part {
    let part_of = |steps: &[StepLine]| {
        let title = steps.first().map_or("", |step| &step.part);
        part("section")
            .class("part")
            .add(part("h2").text(title))
            .add(part("ol").each(steps.iter().map(step_item)))
    };
    part("div").class("parts").live(move || steps().chunk_by(|a, b| a.part == b.part).map(part_of).collect())
}
