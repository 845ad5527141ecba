//! Taking all ticks away: asked first, and to be undone.

use super::button::button;
use crate::browser::part::{Part, part};
use crate::session::Session;
use leptos::prelude::*;

/// The button, in its place the question, and then the way back.
pub fn clear_ticks() -> Part {
    let session = Session::here();
    let asking = RwSignal::new(false);
    let state = move || match (asking.get(), session.cleared.with(Vec::len)) {
        (true, _) => "ask".to_owned(),
        (false, 0) => String::new(),
        (false, count) => count.to_string(),
    };
    let show = move |state: &str| match state {
        "" => vec![button("Clear ticks", move || asking.set(true))],
        "ask" => vec![question(session, asking)],
        count => vec![way_back(session, count)],
    };
    part("div").class("clear-ticks").by(state, show)
}

fn question(session: Session, asking: RwSignal<bool>) -> Part {
    let clear = move || {
        session.clear_ticks();
        asking.set(false);
    };
    part("div")
        .set("role", "group")
        .set("aria-label", "Clear ticks")
        .add(part("p").text("Take the ticks of all steps of this job away?"))
        .add(button("Take them away", clear))
        .add(button("Keep them", move || asking.set(false)))
}

fn way_back(session: Session, count: &str) -> Part {
    let words = format!("Ticks taken away: {count}.");
    part("div")
        .set("role", "status")
        .add(part("p").text(&words))
        .add(button("Bring the ticks back", move || session.bring_ticks_back()))
}
