//! Names with what is written of them, one under the other.

use crate::browser::part::{Part, part};

/// The list.
pub fn facts_of_text(facts: impl Fn() -> Vec<(String, String)> + 'static) -> Part {
    let row = |(name, words): (String, String)| {
        part("div").class("fact").add(part("dt").text(&name)).add(part("dd").text(&words))
    };
    part("dl").class("facts").live(move || facts().into_iter().map(row).collect())
}
