//! A button with a word on it.

use crate::browser::part::{Part, part};

/// The button.
pub fn button(word: &str, act: impl FnMut() + 'static) -> Part {
    part("button").set("type", "button").text(word).on_click(act)
}
