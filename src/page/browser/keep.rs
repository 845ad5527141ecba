//! Settings, ticks and measured figures, kept from one visit to the next.

use super::{after, store};
use crate::session::{Records, Session, kept};
use leptos::prelude::*;
use staywright::ask::{Change, StepLine};
use staywright::link;

const FIXTURE: &str = "fixture";

/// Takes over what was kept, and keeps what changes from now on.
pub fn attach(session: Session) {
    session.settings.read(store::read);
    move_fixture(session);
    read_records(session);
    read_steps(session);
    // Another tab has ticked or measured something.
    window_event_listener_untyped("storage", move |_| read_records(session));
    // The first time everything still is as it was read.
    after::follow(move |first| {
        for (key, text) in session.settings.written().into_iter().filter(|_| !first) {
            store::write(key, text.as_deref());
        }
    });
    after::follow(move |first| {
        let text = session.records.with(Records::to_text);
        if !first {
            store::write("records", Some(&text));
        }
    });
}

/// A fixture that an earlier version kept beside the shop goes into it, and is forgotten once the shop has it.
fn move_fixture(session: Session) {
    let shop = session.equipment.shop;
    let Some(old) = store::read(FIXTURE) else { return };
    if link::decode(&old).is_err() {
        store::write(FIXTURE, None);
        return;
    }
    shop.act(Change::Keep(old));
    after::follow(move |first| {
        shop.bytes.track();
        if !first {
            store::write(FIXTURE, None);
        }
    });
}

/// The steps as last answered, with the mark of their job: there at once when the page is opened again at the mill.
type Steps = (String, Vec<StepLine>);

fn read_steps(session: Session) {
    if session.settings.mill.with_untracked(Option::is_some) {
        let kept: Steps = store::read("steps").and_then(|text| kept::from_text(&text)).unwrap_or_default();
        if kept.0 == session.follow.mark.get_untracked() {
            session.steps.set(kept.1);
        }
    }
    after::follow(move |first| {
        let steps = session.steps.get();
        if !first && session.settings.mill.with(Option::is_some) && !steps.is_empty() {
            store::write("steps", Some(&kept::to_text(&(session.follow.mark.get_untracked(), steps))));
        }
    });
}

fn read_records(session: Session) {
    let Some(records) = store::read("records").map(|text| Records::from_text(&text)) else { return };
    if session.records.with_untracked(|known| *known != records) {
        session.records.set(records);
    }
}
