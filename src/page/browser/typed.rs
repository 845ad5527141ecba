//! Texts in fields that are not figures yet, carried over a reload of this tab.

use super::store;
use crate::session::Session;
use leptos::prelude::*;
use serde_json::{Value, json};

const KEY: &str = "typed";

/// Brings back what was typed before a reload, and keeps it before the next.
pub fn attach(session: Session) {
    let kept = store::tab_read(KEY).and_then(|text| serde_json::from_str(&text).ok()).unwrap_or_default();
    let mark = move || session.follow.mark.get_untracked();
    for (path, text) in typed(&kept, &mark()) {
        session.type_in(path, text.to_owned());
    }
    let keep = move || {
        let faulty = session.faulty.get_untracked();
        let texts: Vec<Value> = faulty.iter().map(|one| json!([one.path, one.text])).collect();
        let kept = (!texts.is_empty()).then(|| json!([mark(), texts]).to_string());
        store::tab_write(KEY, kept.as_deref());
    };
    window_event_listener_untyped("staywright-flush", move |_| keep());
    window_event_listener_untyped("pagehide", move |_| keep());
}

/// Paths and texts that belong to the job with that mark; what cannot be read is passed over.
fn typed<'a>(kept: &'a Value, mark: &str) -> impl Iterator<Item = (&'a str, &'a str)> {
    let same = kept.get(0).and_then(Value::as_str) == Some(mark);
    let texts = kept.get(1).filter(|_| same).and_then(Value::as_array);
    texts.into_iter().flatten().filter_map(|one| Some((one.get(0)?.as_str()?, one.get(1)?.as_str()?)))
}
