//! Texts in fields that are not figures yet, carried over a reload of this tab.

use super::store;
use crate::session::Session;
use crate::session::forms::{FormState, Waiting};
use crate::session::kept::{self, Typed};
use leptos::prelude::*;

const KEY: &str = "typed";

/// Brings back what was typed before a reload, and keeps it before the next.
pub fn attach(session: Session) {
    attach_job(session);
    attach_form("typed-shop", session.equipment.shop);
    attach_form("typed-pad", session.equipment.pad);
}

fn before_leaving(keep: impl Fn() + Copy + 'static) {
    window_event_listener_untyped("staywright-flush", move |_| keep());
    window_event_listener_untyped("pagehide", move |_| keep());
}

fn attach_form(key: &'static str, form: FormState) {
    if let Some(before) = store::tab_read(key).and_then(|text| kept::from_text::<Waiting>(&text)) {
        form.wait_again(before);
    }
    before_leaving(move || {
        store::tab_write(key, form.all_waiting().map(|now| kept::to_text(&now)).as_deref())
    });
}

fn attach_job(session: Session) {
    let before: Typed = store::tab_read(KEY).and_then(|text| kept::from_text(&text)).unwrap_or_default();
    let mark = move || session.follow.mark.get_untracked();
    if before.mark == mark() {
        for (path, text) in before.texts {
            session.type_in(&path, text);
        }
    }
    before_leaving(move || {
        let faulty = session.faulty.get_untracked();
        let texts: Vec<(String, String)> = faulty.into_iter().map(|one| (one.path, one.text)).collect();
        let now = (!texts.is_empty()).then(|| kept::to_text(&Typed { mark: mark(), texts }));
        store::tab_write(KEY, now.as_deref());
    });
}
