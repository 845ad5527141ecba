//! Settings, ticks and measured figures, kept from one visit to the next.

use super::{after, store};
use crate::session::{Records, Session};
use leptos::prelude::*;

/// Takes over what was kept, and keeps what changes from now on.
pub fn attach(session: Session) {
    session.settings.read(store::read);
    read_records(session);
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

fn read_records(session: Session) {
    let Some(records) = store::read("records").map(|text| Records::from_text(&text)) else { return };
    if session.records.with_untracked(|known| *known != records) {
        session.records.set(records);
    }
}
