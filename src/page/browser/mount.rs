//! The element that the page is put into.

use leptos::mount::mount_to;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// Puts the component in place of whatever stood in the element with that id.
pub fn mount<V: IntoView + 'static>(id: &str, component: impl FnOnce() -> V + 'static) {
    let place = document().get_element_by_id(id).and_then(|element| element.dyn_into::<HtmlElement>().ok());
    let Some(place) = place else { return };
    place.set_text_content(None);
    mount_to(place, component).forget();
}
