//! A figure that belongs to no job: taken as it is typed, refused at the field with its range.

use crate::browser::part::{Live, Part, part};
use crate::session::Session;
use leptos::prelude::*;
use staywright::model::Spec;
use staywright::text::entry::{Understood, understand, unit_sign, written};
use staywright::units::LengthUnit;

/// What a figure's field is about.
pub struct NumberField {
    /// What is known of the figure; `None` while nothing is.
    pub spec: Live<Option<Spec>>,
    /// Its name. The unit follows it.
    pub label: Live<String>,
    /// The number that counts, mm or degrees.
    pub value: Live<Option<f64>>,
    /// Takes another.
    pub take: Box<dyn Fn(f64)>,
}

/// A field and what stands in it.
#[derive(Clone, Copy)]
struct Entry {
    field: StoredValue<NumberField, LocalStorage>,
    unit: RwSignal<LengthUnit>,
    /// What is being typed, or was not taken.
    draft: RwSignal<Option<String>>,
}

impl Entry {
    fn new(field: NumberField) -> Self {
        let unit = Session::here().settings.unit;
        Self { field: StoredValue::new_local(field), unit, draft: RwSignal::new(None) }
    }

    fn spec(self) -> Option<Spec> {
        self.field.with_value(|field| (field.spec)())
    }

    fn read(self, text: &str) -> Option<Result<Understood, String>> {
        Some(understand(text, &self.spec()?, self.unit.get()))
    }

    fn fault(self) -> Option<String> {
        self.read(&self.draft.get()?)?.err()
    }

    fn text(self) -> String {
        let value = || self.field.with_value(|field| (field.value)());
        let number = || Some(written(value()?, &self.spec()?, self.unit.get()));
        self.draft.get().or_else(number).unwrap_or_default()
    }

    fn label(self) -> String {
        let label = self.field.with_value(|field| (field.label)());
        self.spec()
            .map_or_else(|| label.clone(), |spec| [&label, unit_sign(&spec, self.unit.get())].join(", "))
    }

    fn type_in(self, text: String) {
        if let Some(Ok(Understood { value, .. })) = untrack(|| self.read(&text)) {
            self.field.with_value(|field| (field.take)(value));
        }
        self.draft.set(Some(text));
    }

    /// Nobody types any more: what was taken is written as the page writes it, what was not stays.
    fn close(self) {
        if untrack(|| self.fault()).is_none() {
            self.draft.set(None);
        }
    }
}

/// The field. What cannot be taken stays in it, with the reason; the number that counted still does.
pub fn number_field(id: &str, field: NumberField) -> Part {
    let entry = Entry::new(field);
    let fault_id = format!("{id}-fault");
    let input = part("input")
        .set("id", id)
        .set("type", "text")
        .set("inputmode", "decimal")
        .set("autocomplete", "off")
        .set("data-text", "")
        .set("aria-describedby", &fault_id)
        .follow("aria-invalid", move || entry.fault().map(|_| "true".to_owned()))
        .value(move || entry.text())
        .on_input(move |text| entry.type_in(text))
        .on("blur", move |_| entry.close());
    let fault = part("p").class("fault").set("id", &fault_id).set("aria-live", "polite");
    part("div")
        .class("text-field")
        .add(part("label").set("for", id).words(move || entry.label()))
        .add(input)
        .add(fault.words_if(move || entry.fault()))
}
