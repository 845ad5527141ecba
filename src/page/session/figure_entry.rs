//! One figure of the job while it is entered.

use super::{Faulty, Session};
use leptos::prelude::*;
use staywright::model::{Spec, capital};
use staywright::text::entry::{range, stepped, written};
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
pub struct Shown {
    /// The text in it.
    pub text: String,
    /// What was understood, where the text does not say so itself.
    pub note: Option<String>,
    /// Why the text is not taken.
    pub fault: Option<String>,
}

/// The figure at a path while it is entered: what is typed, what was understood, what was refused.
#[derive(Clone, Copy)]
pub struct FigureEntry {
    session: Session,
    path: StoredValue<String>,
    /// What is known of the figure.
    pub spec: &'static Spec,
    draft: RwSignal<Option<Draft>>,
    /// Whether somebody types.
    pub typing: RwSignal<bool>,
    /// The number that stood there when typing began.
    before: StoredValue<Option<f64>>,
}

impl FigureEntry {
    /// The figure at `path`; `None` where the job has none.
    pub fn new(path: &str) -> Option<Self> {
        let session = Session::here();
        let (spec, _) = session.follow.figure(path)?;
        let path = StoredValue::new(path.to_owned());
        let (draft, typing, before) = (RwSignal::new(None), RwSignal::new(false), StoredValue::new(None));
        Some(Self { session, path, spec, draft, typing, before })
    }

    /// Its path.
    pub fn path(self) -> String {
        self.path.get_value()
    }

    /// The number that the job holds.
    fn value(self) -> Option<f64> {
        self.path.with_value(|path| self.session.follow.figure(path).map(|(_, value)| value))
    }

    /// The unit of lengths.
    pub fn unit(self) -> LengthUnit {
        self.session.settings.unit.get()
    }

    /// What the field shows now.
    pub fn shown(self) -> Shown {
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

    /// Takes the text of the field.
    pub fn type_in(self, text: String) {
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

    /// Steps the figure `count` times.
    pub fn step(self, count: f64) {
        let unit = self.session.settings.unit.get_untracked();
        self.put(|value| stepped(value, count, self.spec, unit));
    }

    /// Changes the sign, within the range.
    pub fn turn_sign(self) {
        let bounds = self.spec.bounds;
        self.put(|value| bounds.min.max(-value).min(bounds.max));
    }

    /// Ends the typing: the text is written as the page writes it.
    pub fn close(self) {
        self.typing.set(false);
        self.session.settle();
    }

    /// Steps the figure for the arrow and page keys; whether `key` was one of them.
    pub fn take_key(self, key: &str) -> bool {
        let count = match key {
            "ArrowUp" => 1.0,
            "ArrowDown" => -1.0,
            "PageUp" => 10.0,
            "PageDown" => -10.0,
            _ => return false,
        };
        self.step(count);
        true
    }

    /// Whether the figure may be negative as well as positive.
    pub fn has_sign(self) -> bool {
        self.spec.bounds.min < 0.0 && self.spec.bounds.max > 0.0
    }

    /// What may be entered: `250 to 800 mm`.
    pub fn range(self) -> String {
        range(self.spec, self.unit())
    }
}
