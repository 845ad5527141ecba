//! Yes or no.

use crate::browser::part::{Live, Part, part};

/// The switch. `on` says how it stands, `set` takes what it is turned to.
pub fn switch(words: &str, on: impl Fn() -> bool + 'static, set: impl Fn(bool) + 'static) -> Part {
    boxed(words, Box::new(on), Box::new(set))
}

fn boxed(words: &str, on: Live<bool>, set: Box<dyn Fn(bool)>) -> Part {
    let input = part("input").set("type", "checkbox").set("role", "switch").checked(on).on_tick(set);
    part("label").class("switch").add(input).add(part("span").text(words))
}
