//! One step of the set-up in the list.

use super::facts_of_text::facts_of_text;
use crate::browser::part::{Part, part};
use crate::session::Session;
use leptos::prelude::*;
use staywright::ask::StepLine;

/// The step with its tick.
pub fn step_item(step: &StepLine) -> Part {
    let session = Session::here();
    let id = StoredValue::new(step.id.clone());
    let done = move || id.with_value(|id| session.ticked(id));
    let tick = part("input")
        .set("type", "checkbox")
        .checked(done)
        .on_tick(move |now| id.with_value(|id| session.tick(id, now)));
    let label = part("label").class("tick").add(tick).add(part("span").class("task").text(&step.task));
    let (number, sign) = &step.figure;
    let reading = (!number.is_empty()).then(|| part("p").class("reading").text(&format!("{number} {sign}")));
    part("li").class("step-item").toggle("done", done).add(label).each(reading).each(step_words(step))
}

/// Where the step is set, what else belongs to it, and its caution.
pub fn step_words(step: &StepLine) -> Vec<Part> {
    let mut words = vec![part("p").class("set-on").text(&step.set_on)];
    if !step.also.is_empty() {
        let also = step.also.clone();
        words.push(facts_of_text(move || also.clone()));
    }
    let more = [&step.check, &step.rounding, &step.why].into_iter().flatten();
    words.extend(more.map(|more| part("p").class("set-on").text(more)));
    let cautions = step.beyond.iter().chain(step.cautions.iter().map(|(words, _)| words));
    words.extend(cautions.map(|caution| part("p").class("caution").text(caution)));
    words
}
