//! One cut drawn large, with its figures, its fit, its profile and where its numbers come from.

use super::cut_shop::cut_shop;
use super::drawing::sheet_beside;
use super::explained::explained;
use super::facts::facts;
use super::profile_table::profile_table;
use super::warning_list::warning_list;
use crate::browser::part::{Part, part};
use crate::session::Session;
use crate::session::cut_facts::all;
use leptos::prelude::*;
use staywright::ask::Drawing;
use staywright::model::capital;

/// The cut that is picked.
pub fn cut_detail() -> Part {
    let session = Session::here();
    let Session { settings, follow, .. } = session;
    let (pick, plan) = (settings.pick, follow.plan);
    let figures = move || plan.with(|plan| all(pick.get().stay(plan), pick.get().cut(plan)));
    let title = part("h2").set("id", "cut-title").words(move || capital(&pick.get().name()));
    part("section")
        .class("detail")
        .set("aria-labelledby", "cut-title")
        .add(title)
        .add(warning_list("Warnings of this cut", move || session.findings_of_cut(pick.get())))
        .add(sheet_beside(0.45, move || Some(Drawing::AlongSpindle(pick.get()))))
        .add(facts(figures))
        .add(cut_shop())
        .add(sheet_beside(0.3, move || Some(Drawing::Profile(pick.get()))))
        .add(profile_table())
        .add(explained())
}
