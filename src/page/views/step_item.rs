//! One step of the set-up in the list.

use super::facts_of_text::facts_of_text;
use super::sentence::sourced;
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

/// Where the step is set, what else belongs to it, and its cautions.
pub fn step_words(step: &StepLine) -> Vec<Part> {
    let mut words = vec![part("p").class("set-on").text(&step.set_on)];
    words.extend(step.beyond.iter().map(|beyond| part("p").class("beyond").text(beyond)));
    words.extend(step.notes.iter().map(|note| part("p").class("quiet").text(note)));
    if !step.also.is_empty() {
        let also = step.also.clone();
        words.push(facts_of_text(move || also.clone()));
    }
    let quiet = [("Check: ", &step.check), ("", &step.rounding), ("Why now: ", &step.why)];
    let quiet = quiet.into_iter().filter_map(|(name, more)| Some(format!("{name}{}", more.as_ref()?)));
    words.extend(quiet.map(|more| part("p").class("quiet").text(&more)));
    words.extend(step.cautions.iter().map(|(words, source)| sourced(words, source, "caution")));
    words
}
