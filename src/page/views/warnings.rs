//! The plan's warnings, where they belong.

use crate::browser::part::{Part, part};
use crate::session::Session;
use crate::session::advice::at;
use crate::session::place::Place;
use leptos::prelude::*;
use staywright::text::plan_warning;

/// The warnings of one place.
pub fn warnings(place: Place) -> Part {
    let Session { follow, settings, .. } = Session::here();
    warning_list("Warnings", move || {
        let style = settings.style();
        follow
            .plan
            .with(|plan| at(&plan.warnings, place).iter().map(|one| plan_warning(one, style)).collect())
    })
}

/// A list of warnings, read out when it changes; nothing while there are none.
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
