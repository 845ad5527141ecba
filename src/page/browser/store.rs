//! The browser's own small stores. Where they are switched off, nothing is kept and nothing breaks.

use leptos::prelude::window;
use web_sys::Storage;

const PREFIX: &str = "staywright.";

/// What is kept under `key`.
pub fn read(key: &str) -> Option<String> {
    read_from(lasting(), key)
}

/// Keeps `text` under `key`, or forgets the key.
pub fn write(key: &str, text: Option<&str>) {
    write_to(lasting(), key, text);
}

/// What this tab keeps under `key`, as long as it is open.
pub fn tab_read(key: &str) -> Option<String> {
    read_from(of_tab(), key)
}

/// Keeps `text` under `key` for this tab, or forgets the key.
pub fn tab_write(key: &str, text: Option<&str>) {
    write_to(of_tab(), key, text);
}

fn lasting() -> Option<Storage> {
    window().local_storage().ok()?
}

fn of_tab() -> Option<Storage> {
    window().session_storage().ok()?
}

fn read_from(store: Option<Storage>, key: &str) -> Option<String> {
    store?.get_item(&format!("{PREFIX}{key}")).ok()?
}

fn write_to(store: Option<Storage>, key: &str, text: Option<&str>) {
    let Some(store) = store else { return };
    let key = format!("{PREFIX}{key}");
    // A full store is no reason to stop: the link still holds the job.
    let _ = match text {
        Some(text) => store.set_item(&key, text),
        None => store.remove_item(&key),
    };
}
