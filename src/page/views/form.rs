//! A form laid out from data: sections that fold, their fields, buttons and sections.

use super::button::button;
use super::form_field::form_field;
use crate::browser::details;
use crate::browser::part::{Part, part};
use crate::session::forms::FormState;
use leptos::prelude::*;
use staywright::ask::{Change, FormSection};

/// A section that folds.
pub fn form_section(state: FormState, key: &str) -> Part {
    let own = StoredValue::new(key.to_owned());
    let title = move || own.with_value(|key| state.section(key, |one| one.title.clone())).unwrap_or_default();
    let made = part("details").class("more");
    let made = if state.shows(key) { made.set("open", "") } else { made };
    made.on("toggle", move |event| own.with_value(|key| state.show(key, details::is_open(&event))))
        .add(part("summary").words(title))
        .add(form_body(state, key))
}

/// What is in a section. It is made anew only where its fields, buttons or sections are others.
pub fn form_body(state: FormState, key: &str) -> Part {
    let own = StoredValue::new(key.to_owned());
    let outline = move || own.with_value(|key| state.section(key, outline)).unwrap_or_default();
    let make =
        move |_: &str| own.with_value(|key| state.section(key, |one| filled(state, one)).unwrap_or_default());
    part("div").class("form").by(outline, make)
}

/// All that decides which parts there are; what stands in them follows by itself.
fn outline(section: &FormSection) -> String {
    let fields = section.fields.iter().flat_map(|field| {
        let options = field.options.iter().map(|(key, _)| key.as_str());
        [field.path.as_str()].into_iter().chain(options)
    });
    let acts = section.acts.iter().map(|(key, _)| key.as_str());
    let sections = section.sections.iter().map(|one| one.key.as_str());
    let keys: Vec<&str> = fields.chain(acts).chain(sections).collect();
    keys.join("\n") + &section.words
}

fn filled(state: FormState, section: &FormSection) -> Vec<Part> {
    let words = (!section.words.is_empty()).then(|| part("p").class("set-on").text(&section.words));
    let fields = section.fields.iter().map(|field| form_field(state, &section.key, field));
    let grid = part("div").class("figure-grid").each(fields);
    let acts = part("div")
        .class("buttons")
        .each(section.acts.iter().map(|act| act_button(state, &section.key, act)));
    let sections = section.sections.iter().map(|one| form_section(state, &one.key));
    words.into_iter().chain([grid]).chain(sections).chain([acts]).collect()
}

fn act_button(state: FormState, section: &str, (key, words): &(String, String)) -> Part {
    let (key, section) = (key.clone(), section.to_owned());
    button(words, move || {
        if key.starts_with("remove") {
            state.show(&section, false);
        }
        state.act(Change::Act(key.clone()));
    })
}
