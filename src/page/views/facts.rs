//! Named figures, one under the other.

use super::facts_of_text::facts_of_text;
use crate::browser::part::Part;
use crate::session::Session;
use leptos::prelude::*;
use staywright::procedure::Named;

/// The list.
pub fn facts(facts: impl Fn() -> Vec<Named> + Send + Sync + 'static) -> Part {
    let unit = Session::here().settings.unit;
    facts_of_text(move || {
        facts().into_iter().map(|named| (named.name, named.reading.text(unit.get()))).collect()
    })
}
