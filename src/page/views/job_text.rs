//! The job's name and notes.

use crate::session::Session;
use leptos::prelude::*;

/// Two texts.
#[component]
pub fn JobText() -> impl IntoView {
    let session = Session::here();
    let job = session.job();
    let fault = move |field: &'static str| {
        session.follow.faults.with(|faults| {
            faults.iter().find(|fault| fault.field == field).map(|fault| fault.message.clone())
        })
    };
    view! {
        <div class="job-text">
            <div class="text-field">
                <label for="job-name">"Job name"</label>
                <input
                    id="job-name" type="text" data-text="" autocomplete="off" enterkeyhint="done"
                    aria-describedby="job-name-fault"
                    prop:value=move || job.with(|job| job.name.clone())
                    on:input=move |event| session.edit("name", |job| job.name = event_target_value(&event))
                    on:change=move |_| session.settle()
                />
                <p class="fault" id="job-name-fault" aria-live="polite">{move || fault("name")}</p>
            </div>
            <div class="text-field">
                <label for="job-notes">"Notes"</label>
                <textarea
                    id="job-notes" rows="2" data-text="" aria-describedby="job-notes-fault"
                    prop:value=move || job.with(|job| job.notes.clone())
                    on:input=move |event| session.edit("notes", |job| job.notes = event_target_value(&event))
                    on:change=move |_| session.settle()
                ></textarea>
                <p class="fault" id="job-notes-fault" aria-live="polite">{move || fault("notes")}</p>
            </div>
        </div>
    }
}
