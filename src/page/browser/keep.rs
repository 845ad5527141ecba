//! Settings, ticks and measured figures, kept from one visit to the next.

use super::store;
use crate::session::{Records, Session};
use leptos::prelude::*;

/// Takes over what was kept, and keeps what changes from now on.
pub fn attach(session: Session) {
    session.settings.read(store::read);
    if let Some(text) = store::read("records") {
        session.records.set(Records::from_text(&text));
    }
    Effect::new(move |_| {
        for (key, text) in session.settings.written() {
            store::write(key, text.as_deref());
        }
    });
    Effect::new(move |_| {
        let text = session.records.with(Records::to_text);
        store::write("records", Some(&text));
    });
}
