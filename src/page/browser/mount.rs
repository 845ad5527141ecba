//! The element that the page is put into.

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// The element with that id, emptied of what stood in it until now.
pub fn place(id: &str) -> Option<HtmlElement> {
    let place: HtmlElement = document().get_element_by_id(id)?.dyn_into().ok()?;
    place.set_text_content(None);
    Some(place)
}
