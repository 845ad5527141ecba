//! Findings as a list.

use crate::browser::part::{Part, part};

/// The sentences under a label for those who cannot see it, read out when they change; nothing while there are none.
pub fn warning_list(label: &'static str, sentences: impl Fn() -> Vec<String> + 'static) -> Part {
    part("div").set("role", "status").by(
        move || sentences().join("\n"),
        move |sentences| {
            let items: Vec<Part> = sentences.lines().map(|one| part("li").text(one)).collect();
            let list = || part("ul").class("warnings").set("aria-label", label);
            if items.is_empty() { items } else { vec![list().each(items)] }
        },
    )
}
