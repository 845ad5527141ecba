//! What a mark that is pointed at is about.

use wasm_bindgen::JsCast;
use web_sys::{Element, Event};

/// The topic of the mark that `event` reached, where it has one.
pub fn touched(event: &Event) -> Option<String> {
    let element: Element = event.target()?.dyn_into().ok()?;
    element.closest("[data-topic]").ok()??.get_attribute("data-topic")
}
