//! The job's name and notes.

use crate::browser::part::{Part, part};
use crate::session::Session;
use leptos::prelude::*;
use staywright::model::{Job, capital};

/// Two texts.
pub fn job_text() -> Part {
    let name = part("input").set("type", "text").set("autocomplete", "off").set("enterkeyhint", "done");
    let notes = part("textarea").set("rows", "2");
    part("div")
        .class("job-text")
        .add(text_field(name, "Job name", "name", |job| &job.name, |job| &mut job.name))
        .add(text_field(notes, "Notes", "notes", |job| &job.notes, |job| &mut job.notes))
}

/// A text of the job with its label and what is wrong with it.
fn text_field(
    field: Part,
    label: &str,
    key: &'static str,
    of: fn(&Job) -> &String,
    of_mut: fn(&mut Job) -> &mut String,
) -> Part {
    let session = Session::here();
    let id = format!("job-{key}");
    let fault_id = format!("{id}-fault");
    let field = field
        .set("id", &id)
        .set("data-text", "")
        .set("aria-describedby", &fault_id)
        .value(move || session.job().with(|job| of(job).clone()))
        .on_input(move |text| session.edit(key, |job| *of_mut(job) = text))
        .on_change(move |_| session.settle());
    let fault = part("p").class("fault").set("id", &fault_id).set("aria-live", "polite");
    part("div")
        .class("text-field")
        .add(part("label").set("for", &id).text(label))
        .add(field)
        .add(fault.words_if(move || session.fault_words(key).map(|why| format!("{}.", capital(&why)))))
}
