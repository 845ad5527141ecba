//! A screen that stays awake at the mill, where the browser allows it.

use super::{method, promise};
use leptos::prelude::*;
use wasm_bindgen::JsValue;

/// Whether this browser can keep its screen awake.
pub fn possible() -> bool {
    method::get(&window().navigator(), "wakeLock").is_some()
}

/// Keeps the screen awake until the owner of this call goes. A hidden page loses its lock, so it is asked for again when
/// the page comes back.
pub fn stay_awake() {
    let lock: StoredValue<Option<JsValue>, LocalStorage> = StoredValue::new_local(None);
    request(lock);
    let listener = window_event_listener_untyped("visibilitychange", move |_| request(lock));
    on_cleanup(move || {
        listener.remove();
        if let Some(Some(lock)) = lock.try_get_value() {
            let _ = method::promised(&lock, "release", &JsValue::UNDEFINED);
        }
    });
}

fn request(lock: StoredValue<Option<JsValue>, LocalStorage>) {
    if document().hidden() {
        return;
    }
    let Some(locks) = method::get(&window().navigator(), "wakeLock") else { return };
    let Some(promise) = method::promised(&locks, "request", &JsValue::from_str("screen")) else { return };
    promise::then(promise, move |got| {
        let Ok(got) = got else { return };
        if lock.try_set_value(Some(got.clone())).is_some() {
            // The view is gone already.
            let _ = method::promised(&got, "release", &JsValue::UNDEFINED);
        }
    });
}
