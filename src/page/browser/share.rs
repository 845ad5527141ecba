//! The device's own way to share.

use super::{method, promise};
use js_sys::{Object, Reflect};
use leptos::prelude::*;
use wasm_bindgen::JsValue;

/// Whether this browser can share.
pub fn possible() -> bool {
    method::has(&window().navigator(), "share")
}

/// Offers the link to whatever the device shares with. Whoever closes the offer again has not made a mistake.
pub fn share(title: &str, link: &str) {
    let data = Object::new();
    let _ = Reflect::set(&data, &JsValue::from_str("title"), &JsValue::from_str(title));
    let _ = Reflect::set(&data, &JsValue::from_str("url"), &JsValue::from_str(link));
    if let Some(promise) = method::promised(&window().navigator(), "share", &data) {
        promise::then(promise, |_| {});
    }
}
