//! The clipboard.

use super::method;
use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::JsFuture;

/// Copies `text`, then says whether it worked.
pub fn copy(text: &str, done: impl FnOnce(bool) + 'static) {
    let promise = method::get(&window().navigator(), "clipboard")
        .and_then(|clipboard| method::promised(&clipboard, "writeText", &JsValue::from_str(text)));
    spawn_local(async move {
        let copied = match promise {
            Some(promise) => JsFuture::from(promise).await.is_ok(),
            None => false,
        };
        done(copied);
    });
}
