//! The set-up card as it is printed: every step of the job, the drawings, and the link.

use super::place_set_up::{pair_drawings, parts};
use super::qr_view::qr_view;
use super::stale::stale;
use super::warnings::warning_list;
use crate::browser::address;
use crate::browser::part::{Part, part};
use crate::session::Session;
use crate::session::advice::sentence;
use leptos::prelude::*;
use staywright::trade::PairName;

const FOOT: &str = "Staywright set-up card. The machine's manual, local rules and licensed practice come first; a frame to \
                    be ridden is proved by test (ISO 4210).";

fn all_warnings() -> Vec<String> {
    let Session { follow, settings, .. } = Session::here();
    follow
        .plan
        .with(|plan| plan.warnings.iter().map(|warning| sentence(warning, settings.unit.get())).collect())
}

/// The card.
pub fn print_card() -> Part {
    let session = Session::here();
    let link = address::link(session);
    let drawings = PairName::ALL.map(|pair| part("div").class("card-drawings").each(pair_drawings(pair)));
    let foot = part("footer")
        .add(part("p").text(FOOT))
        .each(qr_view(&link))
        .add(part("p").class("card-link").text(&link));
    part("article")
        .class("card")
        .add(part("h1").words(move || session.title()))
        .add(part("p").words(move || session.job().with(|job| job.notes.clone())))
        .add(stale())
        .add(warning_list("Warnings", all_warnings))
        .each(drawings)
        .add(parts(move || session.steps.get()))
        .add(foot)
}
