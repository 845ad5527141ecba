//! The builder's equipment as a form.

mod acts;
mod bytes;
mod change;
mod joining;
mod lists;
mod machine;
mod saws;
mod section;

pub(super) use bytes::{entered, read};

use super::form::{Change, Edit, Formed, Refused, Said, ToForm};
use crate::link;
use crate::model::capital;
use crate::model::shop::Shop;
use crate::units::LengthUnit;

/// The shop with what was done to it, and what there is to enter.
pub(super) fn formed(asked: &ToForm) -> Formed {
    let as_kept = Some(asked.bytes.clone());
    let mut done =
        Done { shop: read(&asked.bytes), as_kept, unit: asked.unit, notes: Vec::new(), said: None };
    let mut waiting: Vec<&Edit> = Vec::new();
    for edit in &asked.edits {
        match &edit.change {
            Change::Type(path, text) => {
                if done.typed(path, text).is_err() {
                    waiting.push(edit);
                }
            }
            Change::Act(key) => {
                // A list that grows or shrinks gives its fields new names; what waits in it is theirs no more.
                let list = acts::list_of(key);
                waiting.retain(|edit| !list.is_some_and(|list| path_of(edit).starts_with(list)));
                acts::act(&mut done.shop, key);
                // A shop that is taken as it starts is entered all the same.
                done.as_kept = None;
            }
            Change::Replace(bytes) => {
                done.replaced(bytes::opened(bytes), "The shop is taken over.", Some(bytes.clone()));
            }
            Change::Keep(job) => done.keep_fixture(job),
            Change::File(text) => done.replaced(bytes::of_file(text), "The shop file is opened.", None),
        }
    }
    done.retried(&mut waiting);
    let refused = waiting.into_iter().filter_map(|edit| done.refused(edit)).collect();
    Formed {
        bytes: done.as_kept.unwrap_or_else(|| bytes::write(&done.shop)),
        refused,
        notes: done.notes,
        said: done.said,
        sections: section::sections(&done.shop, &asked.open, asked.unit),
        ..Formed::default()
    }
}

/// The job of a link text as it starts in a shop that has a fixture of its own; `None` where there is no such job.
pub(super) fn starting(job: &str, bytes: &[u8]) -> Option<String> {
    let (job, shop) = (link::decode(job).ok()?, read(bytes));
    Some(link::encode(&if shop.has_fixture() { shop.starting(job) } else { job }))
}

/// The shop's own file.
pub(super) fn file(bytes: &[u8]) -> String {
    serde_json::to_string_pretty(&read(bytes).to_json()).unwrap_or_default()
}

fn path_of(edit: &Edit) -> &str {
    if let Change::Type(path, _) = &edit.change { path } else { "" }
}

/// A shop while it is being changed.
struct Done {
    shop: Shop,
    /// The bytes that it was read from, as long as it is what they say.
    as_kept: Option<Vec<u8>>,
    unit: LengthUnit,
    notes: Vec<(String, String)>,
    said: Option<Said>,
}

impl Done {
    fn typed(&mut self, path: &str, text: &str) -> Result<(), String> {
        let (shop, note) = change::typed(&self.shop, path, text, self.unit)?;
        if self.shop != shop {
            self.shop = shop;
            self.as_kept = None;
        }
        self.notes.retain(|(known, _)| known != path);
        self.notes.extend(note.map(|note| (path.to_owned(), note)));
        Ok(())
    }

    /// Takes what fits now that other things have changed.
    fn retried(&mut self, waiting: &mut Vec<&Edit>) {
        loop {
            let before = waiting.len();
            waiting.retain(|edit| match &edit.change {
                Change::Type(path, text) => self.typed(path, text).is_err(),
                _ => false,
            });
            if waiting.len() == before {
                return;
            }
        }
    }

    fn refused(&self, edit: &Edit) -> Option<Refused> {
        let Change::Type(path, text) = &edit.change else { return None };
        let fault = change::typed(&self.shop, path, text, self.unit).err()?;
        Some(Refused { serial: edit.serial, path: path.clone(), text: text.clone(), fault: capital(&fault) })
    }

    fn keep_fixture(&mut self, job: &str) {
        let Ok(job) = link::decode(job) else { return };
        self.shop.keep_fixture(&job);
        self.as_kept = None;
        let words = "The fixture is kept in “This shop”: new jobs start with it.".to_owned();
        self.said = Some(Said { words, bad: false });
    }

    fn replaced(&mut self, shop: Result<Shop, String>, words: &str, kept: Option<Vec<u8>>) {
        self.said = Some(match shop {
            Ok(shop) => {
                (self.shop, self.as_kept) = (shop, kept);
                Said { words: words.to_owned(), bad: false }
            }
            Err(words) => Said { words, bad: true },
        });
    }
}
