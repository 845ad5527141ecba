//! One field of a form: a text, or one of a few.

use super::ids::id;
use crate::browser::part::{Part, part};
use crate::session::forms::FormState;
use leptos::prelude::*;
use staywright::ask::{Change, FormField};

/// A field and where it stands in its form.
#[derive(Clone, Copy)]
struct Entry {
    state: FormState,
    place: StoredValue<(String, String)>,
    /// The text while somebody types it.
    typing: RwSignal<Option<String>>,
}

impl Entry {
    /// What the form says of the field.
    fn says(self, read: fn(&FormField) -> String) -> String {
        self.place.with_value(|(section, path)| {
            let found = self
                .state
                .section(section, |one| one.fields.iter().find(|field| field.path == *path).map(read));
            found.flatten().unwrap_or_default()
        })
    }

    fn path(self) -> String {
        self.place.with_value(|(_, path)| path.clone())
    }

    fn text(self) -> String {
        let waiting = || self.state.waiting(&self.path());
        self.typing.get().or_else(waiting).unwrap_or_else(|| self.says(|field| field.value.clone()))
    }

    fn fault(self) -> Option<String> {
        self.state.fault(&self.path())
    }

    fn put(self, text: String) {
        self.state.act(Change::Type(self.path(), text));
    }
}

/// The field, found again in its section of the form whenever that is answered anew.
pub fn form_field(state: FormState, section: &str, field: &FormField) -> Part {
    let place = StoredValue::new((section.to_owned(), field.path.clone()));
    let entry = Entry { state, place, typing: RwSignal::new(None) };
    let own = id(&format!("form-{}", field.path));
    let said = format!("{own}-said");
    let label = part("label").set("for", &own).words(move || entry.says(|field| field.name.clone()));
    let made = part("div").class("text-field").add(label);
    if !field.options.is_empty() {
        return made.add(menu(entry, &own, field));
    }
    let unit = part("span")
        .class("unit")
        .set("aria-hidden", "true")
        .words(move || entry.says(|field| field.unit.clone()));
    let input = input(entry, &own, &said, !field.range.is_empty());
    let fault = part("p").class("fault").set("id", &said).set("aria-live", "polite");
    let note = part("p").class("understood").set("aria-live", "polite");
    made.toggle("faulty", move || entry.fault().is_some())
        .add(part("div").class(if field.range.is_empty() { "" } else { "field-text" }).add(input).add(unit))
        .add(note.words_if(move || entry.typing.get().and_then(|_| entry.state.note(&entry.path()))))
        .add(fault.words_if(move || entry.fault()))
}

fn menu(entry: Entry, id: &str, field: &FormField) -> Part {
    let options = field.options.iter().map(|(key, words)| part("option").set("value", key).text(words));
    part("select")
        .set("id", id)
        .each(options)
        .value(move || entry.text())
        .on_change(move |key| entry.put(key))
}

fn input(entry: Entry, id: &str, said: &str, is_figure: bool) -> Part {
    let made = part("input")
        .set("id", id)
        .set("type", "text")
        .set("autocomplete", "off")
        .set("enterkeyhint", "done");
    let made = if is_figure { made.set("inputmode", "decimal") } else { made };
    made.set("spellcheck", "false")
        .set("data-text", "")
        .set("aria-describedby", said)
        .follow("aria-invalid", move || entry.fault().map(|_| "true".to_owned()))
        .value(move || entry.text())
        .on_input(move |text| {
            entry.typing.set(Some(text.clone()));
            entry.put(text);
        })
        .on_key(move |event| {
            if event.key() == "Enter" {
                entry.typing.set(None);
            }
        })
        .on("blur", move |_| entry.typing.set(None))
}
