//! What a first visit meets: what the page is for, and three ways in.

use crate::session::Session;
use crate::session::selection::Panel;
use leptos::prelude::*;
use staywright::model::{Starter, starters};

/// The sentence and the ways.
#[component]
pub fn Welcome() -> impl IntoView {
    let session = Session::here();
    let begin = move |_| {
        session.is_first_visit.set(false);
        session.begin_frame();
    };
    let example = move |starter: Starter| {
        let job = starter.job.clone();
        let open = move |_| {
            session.is_first_visit.set(false);
            session.open(job.clone());
        };
        view! {
            <button type="button" class="way-in" on:click=open>
                <b>{starter.job.name.clone()}</b>
                <span>{starter.about}</span>
            </button>
        }
    };
    view! {
        <section class="welcome" aria-label="First steps">
            <p class="welcome-words">
                "Lay out how chainstays and seat stays are cut on a mill: from the parts of a frame to every saw, angle and readout."
            </p>
            <button type="button" class="main way-in" on:click=begin>
                <b>"New frame"</b>
                <span>"Eight figures, then tubes and dropouts from a list"</span>
            </button>
            <h2>"Look at an example"</h2>
            {starters().into_iter().map(example).collect_view()}
            <button type="button" class="way-in" on:click=move |_| session.panel.set(Some(Panel::Job))>
                <b>"Open a link or a file"</b>
            </button>
            <button type="button" class="way-in" on:click=move |_| session.is_first_visit.set(false)>
                <b>"Start from plain figures"</b>
            </button>
        </section>
    }
}
