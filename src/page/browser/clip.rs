//! The clipboard.

use super::{method, promise};
use leptos::prelude::*;
use wasm_bindgen::JsValue;

/// Copies `text`, then says whether it worked.
pub fn copy(text: &str, done: impl FnOnce(bool) + 'static) {
    let promise = method::get(&window().navigator(), "clipboard")
        .and_then(|clipboard| method::promised(&clipboard, "writeText", &JsValue::from_str(text)));
    match promise {
        Some(promise) => promise::then(promise, |copied| done(copied.is_ok())),
        None => done(false),
    }
}
