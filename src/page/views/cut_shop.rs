//! The cut that is looked at, on the builder's own machine.

use super::button::button;
use super::drawing::sheet_asked;
use super::form::form_body;
use super::form_field::form_field;
use super::sentence::told;
use super::until_answered::until_answered;
use crate::browser::part::{Part, part};
use crate::session::Session;
use crate::session::follow::Shared;
use leptos::prelude::*;
use staywright::ask::{CutTold, FormField, Question, SawLine};

/// As many saws as are shown unasked.
const FIRST: usize = 4;

/// What was answered last, as long as it is about the cut that is looked at. It is hidden while it is of another plan.
fn answered(session: Session) -> Option<Shared<CutTold>> {
    let cut = session.settings.pick.get().key();
    session.equipment.cut.last().filter(|told| told.cut == cut)
}

/// Cutters on hand, speed, reach, stiffness, and the flat for a brake mount.
pub fn cut_shop() -> Part {
    let session = Session::here();
    let body = move || answered(session).map(|told| body(session, &told)).unwrap_or_default();
    let pad = move || answered(session).is_some_and(|told| told.pad.is_some());
    // Where a saw is used, its way in is drawn.
    let used = move || answered(session).is_some_and(|told| told.is_drawn);
    let drawing =
        move || sheet_asked(0.6, move |room| Some(Question::WayIn(Box::new(session.cut_asked()?), room)));
    part("div")
        .class("told-all")
        .add(until_answered(part("div").class("told-all"), session.equipment.cut).live(body))
        .when(used, drawing)
        .add(joint(session))
        .when(pad, move || pad_box(session))
}

fn body(session: Session, answer: &CutTold) -> Vec<Part> {
    let mut parts = Vec::new();
    if !answer.saws.is_empty() {
        parts.push(saws(session, answer));
    }
    parts.extend(answer.told.iter().map(told));
    parts
}

fn saws(session: Session, answer: &CutTold) -> Part {
    // What is used is seen even where it is none of the best.
    let (first, others): (Vec<_>, Vec<_>) =
        answer.saws.iter().enumerate().partition(|(i, saw)| *i < FIRST || saw.used);
    let list = |saws: Vec<(usize, &SawLine)>| {
        part("ul").class("cuts").each(saws.into_iter().map(|(_, saw)| saw_row(session, saw)))
    };
    let title = part("h3").text("Cutters on hand");
    let made = part("section").class("told").add(title).add(part("p").class("set-on").text(&answer.picked));
    let made = made.add(list(first));
    let made = if answer.is_own {
        made.add(button("Leave the pick to the page", move || session.pick_saw(None)))
    } else {
        made
    };
    if others.is_empty() {
        return made;
    }
    let more = part("summary").text(&format!("The other {} saws", others.len()));
    made.add(part("details").class("more").add(more).add(list(others)))
}

fn saw_row(session: Session, saw: &SawLine) -> Part {
    let key = saw.key.clone();
    let made = part("button")
        .class(if saw.fits { "cut" } else { "cut unfit" })
        .set("type", "button")
        .set("aria-pressed", if saw.used { "true" } else { "false" })
        .add(part("span").class("cut-name").text(&saw.name))
        .add(part("span").class("cut-figures").text(&saw.words));
    part("li").add(made.on_click(move || session.pick_saw(Some(key.clone()))))
}

/// Metal and way of joining, which are the shop's.
fn joint(session: Session) -> Part {
    let shop = session.equipment.shop;
    let there = move || shop.section("shop", |_| ()).is_some();
    let field = move |path: &str| form_field(shop, "shop", &known(shop, path));
    let fields = move || part("div").class("figure-grid").add(field("metal")).add(field("joined_by"));
    part("section").class("told").add(part("h3").text("Metal and joint")).when(there, fields)
}

fn known(shop: crate::session::forms::FormState, path: &str) -> FormField {
    let found = shop.section("shop", |one| one.fields.iter().find(|field| field.path == path).cloned());
    found.flatten().unwrap_or_default()
}

fn pad_box(session: Session) -> Part {
    let result = move || {
        let answer = answered(session);
        answer.and_then(|answer| answer.pad.as_ref().map(told)).into_iter().collect()
    };
    part("details")
        .class("more")
        .add(part("summary").text("Flat for a brake mount"))
        .add(form_body(session.equipment.pad, "pad"))
        .add(until_answered(part("div"), session.equipment.cut).live(result))
}
