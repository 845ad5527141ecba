//! Offers what is kept on this device and cannot be read.

use super::button::button;
use crate::browser::part::{Part, part};
use crate::browser::unread;
use crate::session::Session;
use leptos::prelude::*;

/// What stands under a key, in a builder's words.
fn name(key: &str) -> &str {
    match key {
        "limits" => "limits of measured figures",
        "bench" => "spreads and corrections of the bench",
        "shop" => "the shop",
        "pad" => "the flat for a brake mount",
        "picked" => "picked saws",
        "shelf" => "your tubes",
        "records" => "ticks and readings",
        "job" => "the job last worked on",
        "fixture" => "the fixture for new jobs",
        other => other,
    }
}

/// The bar; nothing while everything could be read.
pub fn unread_bar() -> Part {
    let session = Session::here();
    let bar = move |keys: &str| {
        let names: Vec<&str> = keys.lines().map(name).collect();
        let words = format!(
            "This version cannot read some of what is kept on this device: {}. It is set aside as it stands, and nothing is \
             written over it.",
            names.join(", ")
        );
        let save = move || {
            if !unread::save() {
                session.say_bad("The file could not be saved.");
            }
        };
        let buttons = part("div")
            .class("buttons")
            .add(button("Save it as a file", save))
            .add(button("Forget it", move || unread::forget(session)));
        vec![part("div").class("notice").add(part("p").text(&words)).add(buttons)]
    };
    let keys = move || session.unread.with(|keys| keys.join("\n"));
    let show = move |keys: &str| if keys.is_empty() { Vec::new() } else { bar(keys) };
    part("div").class("notices").set("role", "status").by(keys, show)
}
