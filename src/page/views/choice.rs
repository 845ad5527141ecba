//! One of a few: radio buttons in a row.

use crate::browser::part::{Live, Part, part};
use std::rc::Rc;

/// What is done with the key that was chosen.
type Choose = Rc<dyn Fn(String)>;

/// The row.
///
/// `legend` says what is chosen, and is shown if `titled`; `name` ties the buttons together and stands once on the page;
/// `options` are pairs of a key and the word shown; `chosen` is the key that is chosen; `choose` takes another one.
pub fn choice(
    legend: &str,
    name: &str,
    titled: bool,
    options: &[(&'static str, &str)],
    chosen: impl Fn() -> String + 'static,
    choose: impl Fn(String) + 'static,
) -> Part {
    row(
        legend,
        name,
        titled,
        options,
        &(Rc::new(chosen) as Rc<dyn Fn() -> String>),
        &(Rc::new(choose) as Choose),
    )
}

fn row(
    legend: &str,
    name: &str,
    titled: bool,
    options: &[(&'static str, &str)],
    chosen: &Rc<dyn Fn() -> String>,
    choose: &Choose,
) -> Part {
    let buttons = options.iter().map(|&(key, word)| {
        let chosen = Rc::clone(chosen);
        button(name, key, word, Box::new(move || chosen() == key), Rc::clone(choose))
    });
    part("fieldset")
        .class("choice")
        .add(part("legend").class(if titled { "" } else { "hidden" }).text(legend))
        .add(part("div").class("choice-row").each(buttons))
}

fn button(name: &str, key: &str, word: &str, chosen: Live<bool>, choose: Choose) -> Part {
    let input = part("input")
        .set("type", "radio")
        .set("name", name)
        .set("value", key)
        .checked(chosen)
        .on_change(move |key| choose(key));
    part("label").class("choice-option").add(input).add(part("span").text(word))
}
