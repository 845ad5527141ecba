//! Where the keyboard's focus is.

use super::after;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// Moves the focus into the element once it stands, and back to where it was when the caller's owner goes.
pub fn into_and_back(node: NodeRef<leptos::html::Section>) {
    let before = StoredValue::new_local(document().active_element());
    node.on_load(move |element| {
        let _ = element.focus();
    });
    after::gone(move || {
        // What was in focus may have gone meanwhile; the next frame knows.
        let before = before.try_get_value().flatten();
        after::frame(move || {
            if let Some(element) = before.and_then(|element| element.dyn_into::<HtmlElement>().ok()) {
                let _ = element.focus();
            }
        });
    });
}

/// Moves the focus into a field and selects its text.
pub fn select_text(node: NodeRef<leptos::html::Input>) {
    node.on_load(move |field| {
        let _ = field.focus();
        field.select();
    });
}

/// The path of the figure that stands behind the one at `path` in the rows on screen; the first where there is none behind it.
pub fn next_figure(path: &str) -> Option<String> {
    let rows = document().query_selector_all("button.figure-row").ok()?;
    let paths: Vec<String> = (0..rows.length())
        .filter_map(|index| rows.item(index)?.dyn_into::<HtmlElement>().ok())
        .filter(|row| row.offset_parent().is_some())
        .filter_map(|row| row.get_attribute("data-path"))
        .collect();
    let at = paths.iter().position(|one| one == path)?;
    paths.get(at + 1).or_else(|| paths.first()).filter(|next| *next != path).cloned()
}
