//! What is kept on this device and cannot be read here: set aside as it stands, and never written over.

use super::{files, store};
use crate::session::Session;
use leptos::prelude::*;

/// Sets aside what stands under `key`, so that the key can be written again.
pub fn set_aside(session: Session, key: &'static str) {
    store::set_aside(key);
    refresh(session);
}

/// Tells the session what has been set aside, in this visit or an earlier one.
pub fn refresh(session: Session) {
    let mut names: Vec<String> = store::aside().into_iter().map(|(name, _)| name).collect();
    names.sort();
    names.dedup();
    if session.unread.with_untracked(|known| *known != names) {
        session.unread.set(names);
    }
}

/// Offers all of it as a file: its keys and texts, one to a line. Whether the browser took it.
pub fn save() -> bool {
    let lines: Vec<String> = store::aside().iter().map(|(key, text)| format!("{key}\t{text}\n")).collect();
    files::save("staywright-unread.txt", "text/plain", &lines.concat()).is_ok()
}

/// Forgets it.
pub fn forget(session: Session) {
    store::forget_aside();
    refresh(session);
}
