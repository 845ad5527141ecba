//! The place for the frame and its parts: the drawing, pinned, and what belongs to the selected part.

mod part_figures;
mod part_picker;
mod stage;

use crate::browser::after;
use leptos::prelude::*;
use part_figures::PartFigures;
use part_picker::PartPicker;
use stage::Stage;

/// The place.
#[component]
pub fn Design() -> impl IntoView {
    // On a page that is just opening the drawing comes first.
    let painted = after::painted();
    let figures = move || painted.get().then(|| view! { <PartFigures /> });
    view! {
        <Stage />
        <div class="parts-panel">
            <PartPicker />
            {figures}
        </div>
    }
}
