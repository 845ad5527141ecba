//! The top of the page: the job, undo, the menu.

use crate::browser::travel;
use crate::session::Session;
use crate::session::selection::Panel;
use leptos::prelude::*;

/// The bar.
#[component]
pub fn JobBar() -> impl IntoView {
    let session = Session::here();
    let open = move |panel: Panel| move |_| session.panel.set(Some(panel.clone()));
    view! {
        <header class="job-bar">
            <button type="button" class="bar-job" aria-haspopup="dialog" on:click=open(Panel::Job)>
                <span class="bar-name">{move || session.title()}</span>
                <span class="hidden">", job"</span>
            </button>
            <button
                type="button"
                class="bar-tool"
                aria-label="Undo"
                disabled=move || !session.can_undo()
                on:click=move |_| travel::undo(session)
            >
                <span aria-hidden="true">"↶"</span>
            </button>
            <button
                type="button"
                class="bar-tool"
                aria-label="Menu"
                aria-haspopup="dialog"
                on:click=open(Panel::Menu)
            >
                <span aria-hidden="true">"⋯"</span>
            </button>
        </header>
    }
}
