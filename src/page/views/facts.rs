//! Named figures, one under the other.

use crate::browser::part::{Part, part};
use crate::session::Session;
use leptos::prelude::*;
use staywright::work::Named;

/// The list.
pub fn facts(facts: impl Fn() -> Vec<Named> + 'static) -> Part {
    let unit = Session::here().settings.unit;
    let row = move |named: Named| {
        let text = named.reading.text(unit.get());
        part("div").class("fact").add(part("dt").text(&named.name)).add(part("dd").text(&text))
    };
    part("dl").class("facts").live(move || facts().into_iter().map(row).collect())
}
