//! Waiting for what a browser promised.

use js_sys::Promise;
use leptos::task::spawn_local;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::JsFuture;

/// Does `act` with what the promise brings, or with what is wrong.
pub fn then(promise: Promise, act: impl FnOnce(Result<JsValue, JsValue>) + 'static) {
    then_boxed(promise, Box::new(act));
}

fn then_boxed(promise: Promise, act: Box<dyn FnOnce(Result<JsValue, JsValue>)>) {
    spawn_local(async move { act(JsFuture::from(promise).await) });
}
