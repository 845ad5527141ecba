//! The browser's own small store. Where it is switched off, nothing is kept and nothing breaks.

use leptos::prelude::window;

const PREFIX: &str = "staywright.";

/// What is kept under `key`.
pub fn read(key: &str) -> Option<String> {
    window().local_storage().ok()??.get_item(&format!("{PREFIX}{key}")).ok()?
}

/// Keeps `text` under `key`, or forgets the key.
pub fn write(key: &str, text: Option<&str>) {
    let Ok(Some(store)) = window().local_storage() else { return };
    let key = format!("{PREFIX}{key}");
    // A full store is no reason to stop: the link still holds the job.
    let _ = match text {
        Some(text) => store.set_item(&key, text),
        None => store.remove_item(&key),
    };
}
