//! A form whose meaning the page does not know: what was entered as bytes, and what is being done to it.

use super::follow::Shared;
use leptos::prelude::*;
use staywright::ask::{Change, Edit, FormSection, Formed, Question, Said, Subject, ToForm};
use staywright::units::LengthUnit;

/// What was typed into a form and is not taken yet: what was entered then, paths with texts, and the sections that stood open.
pub type Waiting = (Vec<u8>, Vec<(String, String)>, Vec<String>);

/// The state of one form.
#[derive(Clone, Copy)]
pub struct FormState {
    subject: Subject,
    /// What was entered.
    pub bytes: RwSignal<Vec<u8>>,
    /// What stood there before it was last changed by more than typing.
    pub earlier: RwSignal<Option<Vec<u8>>>,
    edits: RwSignal<Vec<Edit>>,
    open: RwSignal<Vec<String>>,
    formed: RwSignal<Option<Shared<Formed>>>,
    notes: RwSignal<Vec<(String, String)>>,
    last: StoredValue<u32>,
}

impl FormState {
    /// A form that starts with its section `top` open.
    pub fn new(subject: Subject, bytes: RwSignal<Vec<u8>>, top: &str) -> Self {
        Self {
            subject,
            bytes,
            earlier: RwSignal::new(None),
            edits: RwSignal::new(Vec::new()),
            open: RwSignal::new(vec![top.to_owned()]),
            formed: RwSignal::new(None),
            notes: RwSignal::new(Vec::new()),
            last: StoredValue::new(0),
        }
    }

    /// The form and what is done to it. Where nobody looks, nothing is asked unless something is to be done.
    pub fn question(self, looked_at: bool, unit: LengthUnit) -> Option<Question> {
        let (subject, bytes, edits) = (self.subject, self.bytes.get(), self.edits.get());
        let open = self.open.get();
        let asked = looked_at || !edits.is_empty();
        asked.then(|| Question::Form(Box::new(ToForm { subject, bytes, edits, open, unit })))
    }

    /// Takes over what was answered; what is to be said about it.
    pub fn take(self, formed: Formed) -> Option<Said> {
        let done = |edit: &Edit| {
            edit.serial <= formed.done && !formed.refused.iter().any(|one| one.serial == edit.serial)
        };
        let more = self.edits.with_untracked(|edits| {
            edits.iter().any(|edit| done(edit) && !matches!(edit.change, Change::Type(..)))
        });
        let before = self.bytes.get_untracked();
        if before != formed.bytes {
            if more {
                self.earlier.set(Some(before));
            }
            self.bytes.set(formed.bytes.clone());
        }
        if self.edits.with_untracked(|edits| edits.iter().any(done)) {
            self.edits.update(|edits| edits.retain(|edit| !done(edit)));
        }
        if !formed.notes.is_empty() {
            self.notes.set(formed.notes.clone());
        }
        let said = formed.said.clone();
        self.formed.set(Some(Shared::new(formed)));
        said
    }

    /// Does something to the form.
    pub fn act(self, change: Change) {
        self.last.update_value(|last| *last += 1);
        self.notes.update(Vec::clear);
        let edit = Edit { serial: self.last.get_value(), change };
        self.edits.update(|edits| {
            edits.retain(|known| !same_field(known, &edit));
            edits.push(edit);
        });
    }

    /// Opens a section or closes it, with all that is in it.
    pub fn show(self, key: &str, open: bool) {
        if self.open.with_untracked(|known| known.iter().any(|known| known == key)) != open {
            self.open.update(|known| {
                known.retain(|known| known != key);
                known.extend(open.then(|| key.to_owned()));
            });
        }
    }

    /// Whether a section stands open.
    pub fn shows(self, key: &str) -> bool {
        self.open.with_untracked(|open| open.iter().any(|open| open == key))
    }

    /// What `read` finds in a section of the form as last answered.
    pub fn section<T>(self, key: &str, read: impl FnOnce(&FormSection) -> T) -> Option<T> {
        self.formed.with(|formed| find(&formed.as_ref()?.sections, key).map(read))
    }

    /// What was typed into a field and is not taken yet.
    pub fn waiting(self, path: &str) -> Option<String> {
        self.edits.with(|edits| {
            edits.iter().find_map(|edit| match &edit.change {
                Change::Type(known, text) if known == path => Some(text.clone()),
                _ => None,
            })
        })
    }

    /// All that was typed and is not taken yet; `None` where there is nothing.
    pub fn all_waiting(self) -> Option<Waiting> {
        let typed = |edit: Edit| match edit.change {
            Change::Type(path, text) => Some((path, text)),
            _ => None,
        };
        let texts: Vec<_> = self.edits.get_untracked().into_iter().filter_map(typed).collect();
        (!texts.is_empty()).then(|| (self.bytes.get_untracked(), texts, self.open.get_untracked()))
    }

    /// Takes up what was typed before, where it was typed into what is entered now.
    pub fn wait_again(self, (bytes, texts, open): Waiting) {
        if bytes == self.bytes.get_untracked() {
            self.open.set(open);
            texts.into_iter().for_each(|(path, text)| self.act(Change::Type(path, text)));
        }
    }

    /// Why it was not taken.
    pub fn fault(self, path: &str) -> Option<String> {
        self.formed.with(|formed| {
            let refused = formed.as_ref()?.refused.iter().find(|one| one.path == path)?;
            Some(refused.fault.clone())
        })
    }

    /// What was understood of it.
    pub fn note(self, path: &str) -> Option<String> {
        self.notes.with(|notes| notes.iter().find(|(known, _)| known == path).map(|(_, note)| note.clone()))
    }
}

/// Whether both edits are texts of one field.
fn same_field(one: &Edit, other: &Edit) -> bool {
    matches!((&one.change, &other.change), (Change::Type(one, _), Change::Type(other, _)) if one == other)
}

fn find<'a>(sections: &'a [FormSection], key: &str) -> Option<&'a FormSection> {
    sections
        .iter()
        .find_map(|section| if section.key == key { Some(section) } else { find(&section.sections, key) })
}
