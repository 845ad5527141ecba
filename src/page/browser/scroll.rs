//! Bringing a part of the page into view.

use super::size;
use leptos::prelude::*;

/// Scrolls to the element with that id, unless its top is in view already.
pub fn to(id: &str) {
    let Some(element) = document().get_element_by_id(id) else { return };
    let top = element.get_bounding_client_rect().top();
    if top < 0.0 || top > 0.7 * size::window_height() {
        element.scroll_into_view();
    }
}
