//! The browser's own small stores. Where they are switched off, nothing is kept and nothing breaks.

use leptos::prelude::window;
use std::cell::RefCell;
use web_sys::Storage;

const PREFIX: &str = "staywright.";

/// Before the key of what was set aside; after that key stands a digest of the text.
const ASIDE: &str = "staywright.unread.";

thread_local! {
    /// Keys whose text can neither be read nor set aside: nothing is written over it.
    static LOCKED: RefCell<Vec<&'static str>> = const { RefCell::new(Vec::new()) };
}

/// What is kept under `key`.
pub fn read(key: &str) -> Option<String> {
    read_from(lasting(), key)
}

/// Keeps `text` under `key`, or forgets the key.
pub fn write(key: &str, text: Option<&str>) {
    if !LOCKED.with_borrow(|locked| locked.contains(&key)) {
        write_to(lasting(), key, text);
    }
}

/// What this tab keeps under `key`, as long as it is open.
pub fn tab_read(key: &str) -> Option<String> {
    read_from(of_tab(), key)
}

/// Keeps `text` under `key` for this tab, or forgets the key.
pub fn tab_write(key: &str, text: Option<&str>) {
    write_to(of_tab(), key, text);
}

/// Copies what stands under `key` to a place of its own. Where there is no room for that, the key is not written any more.
pub fn set_aside(key: &'static str) {
    let Some((store, text)) = lasting().zip(read(key)) else { return };
    let aside = format!("{ASIDE}{key}.{:016x}", staywright::link::digest(text.as_bytes()));
    if store.set_item(&aside, &text).is_err() {
        LOCKED.with_borrow_mut(|locked| locked.push(key));
    }
}

/// The keys and texts that were set aside, and those that could not be.
pub fn aside() -> Vec<(String, String)> {
    let locked: Vec<&'static str> = LOCKED.with_borrow(Clone::clone);
    let locked = locked.into_iter().filter_map(|key| Some((key.to_owned(), read(key)?)));
    let kept = aside_keys().into_iter().filter_map(|key| {
        let name = key.strip_prefix(ASIDE)?.rsplit_once('.')?.0.to_owned();
        Some((name, lasting()?.get_item(&key).ok()??))
    });
    kept.chain(locked).collect()
}

/// Forgets all of that.
pub fn forget_aside() {
    let locked = LOCKED.take();
    if let Some(store) = lasting() {
        for key in aside_keys().into_iter().chain(locked.iter().map(|key| format!("{PREFIX}{key}"))) {
            let _ = store.remove_item(&key);
        }
    }
}

fn aside_keys() -> Vec<String> {
    let Some(store) = lasting() else { return Vec::new() };
    let keys = (0..store.length().unwrap_or(0)).filter_map(|index| store.key(index).ok()?);
    keys.filter(|key| key.starts_with(ASIDE)).collect()
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
