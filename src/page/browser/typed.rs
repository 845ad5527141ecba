//! Texts in fields that are not figures yet, carried over a reload of this tab.

use super::store;
use crate::session::{Session, kept};
use leptos::prelude::*;

const KEY: &str = "typed";

/// The mark of the job, and paths with texts that belong to it.
type Typed = (String, Vec<(String, String)>);

/// Brings back what was typed before a reload, and keeps it before the next.
pub fn attach(session: Session) {
    let before: Typed = store::tab_read(KEY).and_then(|text| kept::from_text(&text)).unwrap_or_default();
    let mark = move || session.follow.mark.get_untracked();
    if before.0 == mark() {
        for (path, text) in before.1 {
            session.type_in(&path, text);
        }
    }
    let keep = move || {
        let faulty = session.faulty.get_untracked();
        let texts: Vec<(String, String)> = faulty.into_iter().map(|one| (one.path, one.text)).collect();
        let now = (!texts.is_empty()).then(|| kept::to_text(&(mark(), texts)));
        store::tab_write(KEY, now.as_deref());
    };
    window_event_listener_untyped("staywright-flush", move |_| keep());
    window_event_listener_untyped("pagehide", move |_| keep());
}
