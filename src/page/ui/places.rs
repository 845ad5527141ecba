//! The way between the four places.

use crate::session::Session;
use crate::session::place::Place;
use leptos::prelude::*;

/// The four places; on a phone at the thumb.
#[component]
pub fn Places() -> impl IntoView {
    let place = Session::here().settings.place;
    let link = move |to: Place| {
        let current = move || (place.get() == to).then_some("page");
        view! {
            <li>
                <button type="button" aria-current=current on:click=move |_| place.set(to)>
                    {to.name()}
                </button>
            </li>
        }
    };
    view! {
        <nav class="places" aria-label="Places">
            <ul>{Place::ALL.into_iter().map(link).collect_view()}</ul>
        </nav>
    }
}
