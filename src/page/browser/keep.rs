//! Settings, ticks and measured figures, kept from one visit to the next.

use super::{after, store};
use crate::session::{Records, Session};
use leptos::prelude::*;

/// Takes over what was kept, and keeps what changes from now on.
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
}
