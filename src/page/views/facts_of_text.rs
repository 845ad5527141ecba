//! Names with what is written of them, one under the other.

use crate::browser::part::{Part, part};
use leptos::prelude::*;

/// Tells the rows.
type Rows = Box<dyn Fn() -> Vec<(String, String)> + Send + Sync>;

/// The list. As long as the names stay, only words change in it.
pub fn facts_of_text(facts: impl Fn() -> Vec<(String, String)> + Send + Sync + 'static) -> Part {
    list(Box::new(facts))
}

fn list(facts: Rows) -> Part {
    let facts = Memo::new(move |_| facts());
    let names = move || facts.with(|facts| facts.iter().map(|(name, _)| format!("{name}\n")).collect());
    let row = move |(index, name): (usize, &str)| {
        let words = move || facts.with(|facts| facts.get(index).map(|(_, words)| words.clone()));
        part("div").class("fact").add(part("dt").text(name)).add(part("dd").words_if(words))
    };
    part("dl").class("facts").by(names, move |names| names.lines().enumerate().map(row).collect())
}
