//! Settings, ticks and measured figures, kept from one visit to the next.

use super::{after, store};
use crate::session::{Records, Session};
use leptos::prelude::*;

/// Takes over what was kept, and keeps what changes from now on. Tabs that are open at once follow each other's records.
pub fn attach(session: Session) {
    session.settings.read(store::read);
    if let Some(text) = store::read("records") {
        session.records.set(Records::from_text(&text));
    }
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
    // Sent when another tab has written.
    window_event_listener_untyped("storage", move |_| {
        if let Some(text) = store::read("records") {
            session.records.set(Records::from_text(&text));
        }
    });
}
