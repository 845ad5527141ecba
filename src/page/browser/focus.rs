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

/// Moves the focus into the field of the figure at `path` and selects its text; once the field has gone, and nothing else has the
/// focus, to the figure's row.
pub fn into_field(node: NodeRef<leptos::html::Input>, path: String) {
    node.on_load(move |field| {
        let _ = field.focus();
        field.select();
    });
    after::gone(move || {
        after::frame(move || {
            let is_free = document().active_element().is_none_or(|element| element.tag_name() == "BODY");
            if let Some(row) = row(&path).filter(|_| is_free) {
                let _ = row.focus();
            }
        });
    });
}

/// The row of the figure at `path`, where it is on the page.
fn row(path: &str) -> Option<HtmlElement> {
    let row = document().query_selector(&format!("button.figure-row[data-path=\"{path}\"]")).ok()??;
    row.dyn_into().ok()
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
