//! The way between the five places.

use crate::browser::part::{Part, part};
use crate::session::Session;
use crate::session::advice;
use crate::session::place::Place;
use leptos::prelude::*;

/// The five places; on a phone at the bottom edge.
pub fn nav() -> Part {
    let links = Place::ALL.into_iter().zip(1..).map(|(place, number)| link(place, number));
    part("nav").class("places").set("aria-label", "Places").add(part("ul").each(links))
}

fn link(place: Place, number: usize) -> Part {
    let Session { settings, follow, .. } = Session::here();
    let count = move || follow.plan.with(|plan| advice::at(&plan.warnings, place).len());
    let badge = |count: &str| {
        let words = match count {
            "0" => return Vec::new(),
            "1" => " warning",
            _ => " warnings",
        };
        let hidden = part("span").class("hidden").text(words);
        vec![part("span").class("count").text(count).add(hidden)]
    };
    let current = move || (settings.place.get() == place).then(|| "page".to_owned());
    let number = part("span").class("nav-number").set("aria-hidden", "true").text(&number.to_string());
    let button = part("button")
        .set("type", "button")
        .follow("aria-current", current)
        .add(number)
        .add(part("span").text(place.name()))
        .by(move || count().to_string(), badge)
        .on_click(move || settings.place.set(place));
    part("li").add(button)
}
