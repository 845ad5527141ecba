//! Jobs to start from.

use crate::session::Session;
use leptos::prelude::*;
use staywright::trade::{Job, Starter, starters};

/// A menu of starting jobs. Choosing one can be undone.
#[component]
pub fn StartBox() -> impl IntoView {
    let session = Session::here();
    let open = move |job: Job| {
        session.open(job);
        session.say("Another job is open. Undo brings back what was here.");
    };
    let item = move |Starter { about, job, .. }: Starter| {
        view! {
            <li>
                <button type="button" class="starter" on:click=move |_| open(job.clone())>
                    <span class="cut-name">{job.name.clone()}</span>
                    <span class="cut-figures">{about}</span>
                </button>
            </li>
        }
    };
    view! {
        <details class="box">
            <summary><h2>"Start another job"</h2></summary>
            <ul class="starters">
                {starters().map(item)}
                <li>
                    <button type="button" class="starter" on:click=move |_| open(Job::default())>
                        <span class="cut-name">"Start from nothing"</span>
                        <span class="cut-figures">"Plain starting figures, no name"</span>
                    </button>
                </li>
            </ul>
        </details>
    }
}
