//! One step of the set-up in the list.

use super::facts::facts;
use crate::browser::part::{Part, part};
use crate::session::Session;
use crate::session::reading::Written;
use crate::session::steps::Step;
use leptos::prelude::*;

/// The step with its tick.
pub fn step_item(step: &Step) -> Part {
    let session = Session::here();
    let id = StoredValue::new(step.id.clone());
    let done = move || id.with_value(|id| session.ticked(id));
    let tick = part("input")
        .set("type", "checkbox")
        .checked(done)
        .on_tick(move |now| id.with_value(|id| session.tick(id, now)));
    let label = part("label").class("tick").add(tick).add(part("span").class("task").text(&step.task));
    let unit = session.settings.unit;
    let reading =
        step.reading.map(|reading| part("p").class("reading").words(move || reading.text(unit.get())));
    part("li").class("step-item").toggle("done", done).add(label).each(reading).each(step_words(step))
}

/// Where the step is set, what else belongs to it, and its caution.
pub fn step_words(step: &Step) -> Vec<Part> {
    let also = step.also.clone();
    let mut words = vec![part("p").class("set-on").text(&step.set_on)];
    if !also.is_empty() {
        words.push(facts(move || also.clone()));
    }
    words.extend(step.beyond.iter().map(|beyond| part("p").class("caution").text(beyond)));
    words.extend(step.cautions.iter().map(|caution| part("p").class("caution").text(caution.words)));
    words
}
