//! The field of one figure: a text that is read as it is typed, with buttons to step it.

use super::ids::id;
use super::step_button::step_button;
use crate::browser::part::{Part, part};
use crate::browser::steady::steady;
use crate::session::{Faulty, Session};
use leptos::prelude::*;
use staywright::model::Spec;
use staywright::model::capital;
use staywright::text::entry::{stepped, unit_sign, written};
use staywright::units::LengthUnit;

/// What is being typed, and the number it stands for.
#[derive(Clone, PartialEq)]
struct Draft {
    text: String,
    value: f64,
    note: Option<String>,
}

/// What the field shows.
#[derive(Clone, Default, PartialEq)]
struct Shown {
    text: String,
    note: Option<String>,
    fault: Option<String>,
}

/// The figure at a path, as the rest of its field needs it.
#[derive(Clone, Copy)]
struct Entry {
    session: Session,
    path: StoredValue<String>,
    spec: &'static Spec,
    draft: RwSignal<Option<Draft>>,
    typing: RwSignal<bool>,
    /// The number that stood there when typing began.
    before: StoredValue<Option<f64>>,
}

impl Entry {
    fn new(path: &str) -> Option<Self> {
        let session = Session::here();
        let (spec, _) = session.follow.figure(path)?;
        let path = StoredValue::new(path.to_owned());
        let (draft, typing, before) = (RwSignal::new(None), RwSignal::new(false), StoredValue::new(None));
        Some(Self { session, path, spec, draft, typing, before })
    }

    /// The number that the job holds.
    fn value(self) -> Option<f64> {
        self.path.with_value(|path| self.session.follow.figure(path).map(|(_, value)| value))
    }

    fn unit(self) -> LengthUnit {
        self.session.settings.unit.get()
    }

    fn shown(self) -> Shown {
        if let Some(Faulty { text, message, .. }) = self.path.with_value(|path| self.session.refused(path)) {
            return Shown { text, note: None, fault: Some(message) };
        }
        let value = self.value();
        // The draft, as long as the figure is still what it says.
        let draft = self.draft.get().filter(|draft| Some(draft.value) == value);
        let text = match &draft {
            Some(draft) if self.typing.get() => draft.text.clone(),
            _ => value.map_or_else(String::new, |value| written(value, self.spec, self.unit())),
        };
        let fault = self.path.with_value(|path| self.session.fault_words(path));
        let fault = fault.map(|message| format!("{}.", capital(&message)));
        Shown { text, note: draft.and_then(|draft| draft.note), fault }
    }

    fn type_in(self, text: String) {
        if !self.typing.get_untracked() {
            self.before.set_value(untrack(|| self.value()));
        }
        self.typing.set(true);
        let path = self.path.get_value();
        let (value, note) = match self.shown_before(&text) {
            Some(value) => {
                self.session.set_figure(&path, value);
                (value, None)
            }
            None => match self.session.type_in(&path, text.clone()) {
                Some(read) => (read.value, read.note),
                None => return,
            },
        };
        self.draft.set(Some(Draft { text, value, note }));
    }

    /// The number that stood there before, where the text is what was shown for it: that may have more decimals than are shown.
    fn shown_before(self, text: &str) -> Option<f64> {
        let unit = self.session.settings.unit.get_untracked();
        self.before.get_value().filter(|value| written(*value, self.spec, unit) == text.trim())
    }

    fn put(self, change: impl FnOnce(f64) -> f64) {
        let Some(value) = untrack(|| self.value()) else { return };
        self.typing.set(false);
        self.draft.set(None);
        self.path.with_value(|path| self.session.set_figure(path, change(value)));
    }

    fn step(self, count: f64) {
        let unit = self.session.settings.unit.get_untracked();
        self.put(|value| stepped(value, count, self.spec, unit));
    }

    fn turn_sign(self) {
        let bounds = self.spec.bounds;
        self.put(|value| bounds.min.max(-value).min(bounds.max));
    }

    /// Nobody types any more: the text is written as the page writes it.
    fn close(self) {
        self.typing.set(false);
        self.session.settle();
    }

    fn key(self, event: &leptos::ev::KeyboardEvent) {
        let count = match event.key().as_str() {
            "ArrowUp" => 1.0,
            "ArrowDown" => -1.0,
            "PageUp" => 10.0,
            "PageDown" => -10.0,
            "Enter" => return self.close(),
            _ => return,
        };
        event.prevent_default();
        self.step(count);
    }

    fn lit(self) -> bool {
        self.session.lit.with(|lit| lit.as_deref() == Some(self.path.read_value().as_str()))
    }

    fn touch(self) {
        self.session.lit.set(Some(self.path.get_value()));
    }
}

/// The field of the figure at `path`; `None` where the job holds no such figure.
pub fn figure_field(path: &str) -> Option<Part> {
    let entry = Entry::new(path)?;
    let shown = steady(move || entry.shown());
    let own = id(path);
    let name = capital(entry.spec.name);
    let (note_id, fault_id) = (format!("{own}-note"), format!("{own}-fault"));
    let unit = part("span")
        .class("unit")
        .set("aria-hidden", "true")
        .words(move || unit_sign(entry.spec, entry.unit()).to_owned());
    let text = part("div")
        .class("field-text")
        .add(input(entry, shown, &own).set("aria-describedby", &format!("{note_id} {fault_id}")))
        .add(unit);
    let row = part("div")
        .class("field-row")
        .add(step_button("less", &name, "−", move || entry.step(-1.0)))
        .add(text)
        .each(sign_button(entry, &name))
        .add(step_button("more", &name, "+", move || entry.step(1.0)));
    let note = part("p").class("understood").set("id", &note_id).set("aria-live", "polite");
    let fault = part("p").class("fault").set("id", &fault_id).set("aria-live", "polite");
    let field = part("div")
        .class("field")
        .toggle("faulty", move || shown.with(|shown| shown.fault.is_some()))
        .toggle("lit", move || entry.lit())
        .on("pointerenter", move |_| entry.touch())
        .add(part("label").set("for", &own).text(&name))
        .add(row)
        .add(note.words_if(move || shown.with(|shown| shown.note.clone())))
        .add(fault.words_if(move || shown.with(|shown| shown.fault.clone())));
    Some(field)
}

fn input(entry: Entry, shown: ReadSignal<Shown>, id: &str) -> Part {
    let keypad = move || if entry.unit() == LengthUnit::Inch { "text" } else { "decimal" };
    part("input")
        .set("id", id)
        .set("type", "text")
        .set("autocomplete", "off")
        .set("spellcheck", "false")
        .set("enterkeyhint", "done")
        .follow("inputmode", move || Some(keypad().to_owned()))
        .follow_if("data-typing", move || entry.typing.get())
        .follow("aria-invalid", move || shown.with(|shown| shown.fault.as_ref().map(|_| "true".to_owned())))
        .value(move || shown.with(|shown| shown.text.clone()))
        .on_input(move |text| entry.type_in(text))
        .on_key(move |event| entry.key(&event))
        .on("focus", move |_| entry.touch())
        .on("blur", move |_| entry.close())
}

/// A figure that may be negative has a button for it: a phone's keypad for figures has no minus.
fn sign_button(entry: Entry, name: &str) -> Option<Part> {
    let negatable = entry.spec.bounds.min < 0.0 && entry.spec.bounds.max > 0.0;
    negatable.then(|| {
        part("button")
            .class("step sign")
            .set("type", "button")
            .set("aria-label", &format!("change sign of {name}"))
            .text("±")
            .on_click(move || entry.turn_sign())
    })
}
