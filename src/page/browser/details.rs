//! Whether a part that can be folded is open.

use leptos::prelude::event_target;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event};

/// Whether the element that sent `event` stands open.
pub fn is_open(event: &Event) -> bool {
    event_target::<wasm_bindgen::JsValue>(event)
        .dyn_ref::<Element>()
        .is_some_and(|element| element.has_attribute("open"))
}
