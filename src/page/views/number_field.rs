//! A number that belongs to no job: taken when its field is left, refused with a reason.

use crate::browser::part::{Live, Part, part};
use leptos::prelude::*;

/// Takes the text of a field; `false` where it is no such number.
type Take = Box<dyn Fn(&str) -> bool>;

/// The field. `value` is what it shows, `why` what is said of a text that `take` refuses.
pub fn number_field(
    id: &str,
    label: impl Fn() -> String + 'static,
    value: impl Fn() -> String + 'static,
    take: impl Fn(&str) -> bool + 'static,
    why: &'static str,
) -> Part {
    field(id, Box::new(label), Box::new(value), Box::new(take), why)
}

fn field(id: &str, label: Live<String>, value: Live<String>, take: Take, why: &'static str) -> Part {
    let bad = RwSignal::new(false);
    let fault_id = format!("{id}-fault");
    let input = part("input")
        .set("id", id)
        .set("type", "text")
        .set("inputmode", "decimal")
        .set("autocomplete", "off")
        .set("data-text", "")
        .set("aria-describedby", &fault_id)
        .follow("aria-invalid", move || bad.get().then(|| "true".to_owned()))
        .value(value)
        .on_change(move |text| bad.set(!take(&text)));
    let fault = part("p").class("fault").set("id", &fault_id).set("aria-live", "polite");
    part("div")
        .class("text-field")
        .add(part("label").set("for", id).words(label))
        .add(input)
        .add(fault.words_if(move || bad.get().then_some(why)))
}
