//! The place for every cut of the job.

use super::cut_detail::cut_detail;
use super::layout::place;
use super::warnings::warnings;
use crate::browser::part::{Part, part};
use crate::browser::scroll;
use crate::session::Session;
use crate::session::cut_facts::{brief, contact_words, kind_word};
use crate::session::place::Place;
use leptos::prelude::*;
use staywright::model::capital;
use staywright::plan::{CutAt, Plan};
use staywright::units::LengthUnit;

/// The place.
pub fn cuts_place() -> Vec<Part> {
    let list = part("ul").class("cuts").each(CutAt::all().map(cut_row));
    place("Cuts", vec![warnings(Place::Cuts), list], vec![cut_detail()])
}

/// One cut in the list; the one that is looked at is marked.
fn cut_row(pick: CutAt) -> Part {
    let Session { settings, follow, .. } = Session::here();
    let current = move || (settings.pick.get() == pick).then(|| "true".to_owned());
    let choose = move || {
        settings.pick.set(pick);
        scroll::to("cut-title");
    };
    let words = move || follow.plan.with(|plan| summary(plan, pick, settings.unit.get()));
    let button = part("button")
        .class("cut")
        .set("type", "button")
        .follow("aria-current", current)
        .add(part("span").class("cut-name").text(&capital(&pick.name())))
        .add(part("span").class("cut-figures").words(words));
    part("li").add(button.on_click(choose))
}

fn summary(plan: &Plan, pick: CutAt, unit: LengthUnit) -> String {
    let cut = pick.cut(plan);
    let mut parts = vec![kind_word(cut).to_owned()];
    parts.extend(brief(cut).into_iter().map(|named| format!("{} {}", named.name, named.reading.text(unit))));
    parts.extend(cut.round().map(|round| contact_words(round.contact).to_owned()));
    parts.join(" · ")
}
