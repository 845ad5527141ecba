//! One step of the set-up in the list.

use super::facts_of_text::facts_of_text;
use super::sentence::sourced;
use crate::browser::part::{Part, part};
use crate::session::Session;
use leptos::prelude::*;
use staywright::ask::{MadeFor, StepLine};
use staywright::units::{LengthUnit, show};

/// A difference of figures below this, mm or degrees, is rounding.
const FINEST: f64 = 1e-6;

/// The step with its tick.
pub fn step_item(step: &StepLine) -> Part {
    let session = Session::here();
    let kept = StoredValue::new(step.clone());
    let done = move || kept.with_value(|step| session.ticked(step));
    let tick = part("input")
        .set("type", "checkbox")
        .checked(done)
        .on_tick(move |now| kept.with_value(|step| session.tick(step, now)));
    let label = part("label").class("tick").add(tick).add(part("span").class("task").text(&step.task));
    let (number, sign) = &step.figure;
    let reading = (!number.is_empty()).then(|| part("p").class("reading").text(&format!("{number} {sign}")));
    part("li")
        .class("step-item")
        .toggle("done", done)
        .add(label)
        .each(reading)
        .each(ticked_before(step))
        .each(step_words(step))
}

/// That the step was done for other figures than it has now, and by how much they differ.
pub fn ticked_before(step: &StepLine) -> Option<Part> {
    let session = Session::here();
    let kept = StoredValue::new(step.clone());
    let unit = session.settings.unit;
    let words = move || {
        kept.with_value(|step| {
            let before = session.ticked_before(step)?;
            Some(done_before(step, &before, unit.get()))
        })
    };
    Some(part("p").class("beyond").words_if(words))
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

/// `No longer done: it was set 1.5 mm less.`
fn done_before(step: &StepLine, before: &MadeFor, unit: LengthUnit) -> String {
    let other =
        step.made_for.figures.iter().zip(&before.figures).find(|(now, then)| (*now - *then).abs() >= FINEST);
    let is_angle = step.figure.1 == "°";
    match other {
        Some((now, then)) => {
            let way = if now > then { "less" } else { "more" };
            let by = show::fine((now - then).abs(), is_angle, unit);
            format!("No longer done: it was set {by} {way}.")
        }
        None => "No longer done: what it rests on has changed.".to_owned(),
    }
}
