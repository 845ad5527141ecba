//! Touch a figure, see what moves and how far.

use super::drawing::sheet_view;
use super::facts_of_text::facts_of_text;
use crate::browser::part::{Part, part};
use crate::session::Session;
use leptos::prelude::*;
use staywright::drawing::clamp_plane;
use staywright::units::LengthUnit;

/// The pair's drawing, and what moves with the figure that is touched in it.
pub fn touched() -> Part {
    let Session { settings, follow, lit, checked, .. } = Session::here();
    let pair = move || settings.pick.get().pair;
    let drawing = sheet_view(0.4, true, move |room| follow.plan.with(|plan| clamp_plane(plan, pair(), room)));
    let name =
        move || lit.get().and_then(|path| follow.figure(&path)).map(|(spec, _)| (spec.name, spec.unit()));
    let words = move || {
        match name() {
        Some((name, "°")) => format!("For each degree more of the {name}:"),
        Some((name, _)) if settings.unit.get() == LengthUnit::Inch => format!("For each inch more of the {name}:"),
        Some((name, _)) => format!("For each millimetre more of the {name}:"),
        None => "Touch a figure of the drawing that is entered (a spacing, the reach, the length) to see what moves with it.".to_owned(),
    }
    };
    let list = move || checked.get().map(|checked| checked.moves.clone()).unwrap_or_default();
    part("section")
        .class("touched")
        .add(drawing)
        .add(part("p").set("aria-live", "polite").words(words))
        .add(facts_of_text(list))
}
