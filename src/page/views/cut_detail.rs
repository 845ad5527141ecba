//! One cut drawn large, with its figures, its fit, its profile and where its numbers come from.

use super::cut_shop::cut_shop;
use super::drawing::sheet_beside;
use super::explained::explained;
use super::facts::facts;
use super::profile_table::profile_table;
use super::warnings::warning_list;
use crate::browser::part::{Part, part};
use crate::session::Session;
use crate::session::advice::about;
use crate::session::cut_facts::{all, contact_words, cut_of, stay_of};
use crate::session::pick::Pick;
use leptos::prelude::*;
use staywright::ask::Drawing;
use staywright::plan::{Plan, RoundCut};
use staywright::quantity::{LengthUnit, show};
use staywright::trade::capital;
use staywright::work::{Named, Reading};

/// The cut that is picked.
pub fn cut_detail() -> Part {
    let Session { settings, follow, .. } = Session::here();
    let (pick, plan) = (settings.pick, follow.plan);
    let figures = move || plan.with(|plan| all(stay_of(plan, pick.get()), cut_of(plan, pick.get())));
    let title = part("h2").set("id", "cut-title").words(move || capital(&pick.get().name()));
    part("section")
        .class("detail")
        .set("aria-labelledby", "cut-title")
        .add(title)
        .add(warning_list("Warnings of this cut", move || {
            plan.with(|plan| warnings_of(plan, pick.get(), settings.unit.get()))
        }))
        .add(sheet_beside(0.45, move || Some(Drawing::AlongSpindle(pick.get().at()))))
        .add(facts(figures))
        .add(fit())
        .add(cut_shop())
        .add(sheet_beside(0.3, move || Some(Drawing::Profile(pick.get().at()))))
        .add(profile_table())
        .add(explained())
}

/// What the plan warns of at a cut, its stay or its pair.
fn warnings_of(plan: &Plan, pick: Pick, unit: LengthUnit) -> Vec<String> {
    let here = plan.warnings.iter().filter(|warning| about(warning, pick));
    here.map(|warning| show::in_sentence(&warning.message, unit)).collect()
}

/// How well the cut will seat where the saw is not the member's diameter, and how the saw meets the tube.
fn fit() -> Part {
    let Session { settings, follow, .. } = Session::here();
    let of_round = move |say: fn(&RoundCut) -> String| {
        follow.plan.with(|plan| cut_of(plan, settings.pick.get()).round().map(say))
    };
    let same = move || of_round(|cut| (cut.cutter == cut.member).to_string());
    part("div").class("fit").by(
        move || same().unwrap_or_default(),
        move |same| {
            if same.is_empty() {
                return Vec::new();
            }
            let contact = move || of_round(|cut| format!("The saw {}.", contact_words(cut.contact)));
            let seat = if same == "true" {
                part("p").text("The saw is the size of the round member, so the cut seats all along.")
            } else {
                facts(move || follow.plan.with(|plan| fit_figures(plan, settings.pick.get())))
            };
            vec![part("h3").text("Cutter and fit"), part("p").words_if(contact), seat]
        },
    )
}

fn fit_figures(plan: &Plan, pick: Pick) -> Vec<Named> {
    let Some(cut) = cut_of(plan, pick).round() else { return Vec::new() };
    let figures = [("Largest gap when pushed home", cut.gap), ("Push until it touches", cut.push)];
    let named = |(name, length): (_, Option<_>)| Some(Named::new(name, Reading::Length(length?)));
    figures.into_iter().filter_map(named).collect()
}
