//! The place for the frame and its parts: the drawing, pinned, and what belongs to the selected part.

mod part_figures;
mod part_picker;
mod stage;
mod welcome;

use crate::browser::after;
use crate::session::Session;
use leptos::prelude::*;
use part_figures::PartFigures;
use part_picker::PartPicker;
use stage::Stage;
use welcome::Welcome;

/// The place.
#[component]
pub fn Design() -> impl IntoView {
    // On a page that is just opening the drawing comes first.
    let painted = after::painted();
    let figures = move || painted.get().then(|| view! { <PartFigures /> });
    let is_first = Session::here().is_first_visit;
    let panel = move || {
        if is_first.get() {
            view! { <Welcome /> }.into_any()
        } else {
            view! { <PartPicker /> {figures} }.into_any()
        }
    };
    view! {
        <Stage />
        <div class="parts-panel">{panel}</div>
    }
}
