//! The parts, one of which is selected.

use crate::session::Session;
use crate::session::selection::DesignPart;
use leptos::prelude::*;

/// A row of the parts.
#[component]
pub fn PartPicker() -> impl IntoView {
    let session = Session::here();
    let chip = move |part: DesignPart| {
        let pressed = move || (session.part.get() == part).to_string();
        view! {
            <button type="button" class="chip" aria-pressed=pressed on:click=move |_| session.select(part)>
                {part.name()}
            </button>
        }
    };
    view! { <div class="chips part-picker" role="group" aria-label="Parts">{DesignPart::ALL.into_iter().map(chip).collect_view()}</div> }
}
