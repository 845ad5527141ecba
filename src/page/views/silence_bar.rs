//! Says what is missing because the worker gave no answer.

use super::button::button;
use crate::browser::part::{Part, part};
use crate::session::Session;
use leptos::prelude::*;

/// The bar; nothing while everything was answered.
pub fn silence_bar() -> Part {
    let session = Session::here();
    let bar = move |about: &str| {
        let words = format!(
            "Not worked out: {about}. What works it out broke down, was started anew and broke down again. Nothing that you \
             entered is lost."
        );
        vec![
            part("div")
                .class("notice bad")
                .add(part("p").text(&words))
                .add(button("Try again", move || session.ask_again())),
        ]
    };
    let about = move || session.silent.with(|silent| silent.join(", "));
    let show = move |about: &str| if about.is_empty() { Vec::new() } else { bar(about) };
    part("div").class("notices").set("role", "alert").by(about, show)
}
