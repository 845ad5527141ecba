//! The element that the page is put into.

use super::part::Part;
use leptos::mount::mount_to;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// Puts what `make` makes in place of whatever stood in the element with that id.
pub fn mount(id: &str, make: impl FnOnce() -> Part + 'static) {
    let place = document().get_element_by_id(id).and_then(|element| element.dyn_into::<HtmlElement>().ok());
    let Some(place) = place else { return };
    place.set_text_content(None);
    let part = place.clone();
    mount_to(place, move || make().mount(&part)).forget();
}
