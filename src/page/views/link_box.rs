//! Passing the job on: as a link or as a file.

use crate::browser::{address, clip, files, share};
use crate::session::Session;
use crate::session::job_file;
use leptos::prelude::*;
use staywright::link;
use staywright::trade::Job;

/// Copy, share and paste a link; save and open a job file.
#[component]
pub fn LinkBox() -> impl IntoView {
    let session = Session::here();
    let copy = move |_| {
        clip::copy(&address::link(session), move |copied| {
            if copied {
                session.say("The link is copied. It holds the whole job.");
            } else {
                session.say_bad("The link could not be copied: copy the page's address instead.");
            }
        });
    };
    let name = move || session.job().with_untracked(|job| job.name.clone());
    let save = move |_| {
        let job = session.follow.good.get_untracked();
        if files::save(&job_file::name(&job.name), "application/json", &job_file::text(&job)).is_err() {
            session.say_bad("The job could not be saved.");
        }
    };
    let open = move |event| {
        let input = event_target(&event);
        files::read_chosen(&input, move |text| match text {
            Ok(text) => open_file(session, &text),
            Err(why) => session.say_bad(format!("The job file was not opened: {why}. Nothing was changed.")),
        });
    };
    let share_button = share::possible().then(|| {
        view! { <button type="button" on:click=move |_| share::share(&name(), &address::link(session))>"Share"</button> }
    });
    view! {
        <section class="box" aria-labelledby="pass-on">
            <h2 id="pass-on">"Pass the job on"</h2>
            <p>"The address of this page holds the whole job at all times. Nothing is sent anywhere."</p>
            <div class="buttons">
                <button type="button" on:click=copy>"Copy link"</button>
                {share_button}
                <button type="button" on:click=save>"Save job file"</button>
                <label class="button">
                    <input type="file" class="hidden" accept=".json,application/json" on:change=open />
                    "Open job file"
                </label>
            </div>
            <PasteLink />
        </section>
    }
}

/// A field for a link that came some other way.
#[component]
fn PasteLink() -> impl IntoView {
    let session = Session::here();
    let text = RwSignal::new(String::new());
    let fault = RwSignal::new(None::<String>);
    let open = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        let pasted = text.get_untracked();
        match link::decode(job_file::fragment_of(&pasted)) {
            Ok(job) => {
                fault.set(None);
                text.set(String::new());
                open_job(session, job, "The link is opened.");
            }
            Err(error) => {
                fault.set(Some(format!("This link cannot be opened: {error}. Nothing was changed.")))
            }
        }
    };
    view! {
        <form class="text-field" on:submit=open>
            <label for="paste-link">"Open a link"</label>
            <div class="with-button">
                <input
                    id="paste-link" type="text" inputmode="url" data-text="" autocomplete="off" spellcheck="false"
                    aria-describedby="paste-fault"
                    aria-invalid=move || fault.get().is_some().then_some("true")
                    prop:value=move || text.get()
                    on:input=move |event| text.set(event_target_value(&event))
                />
                <button type="submit" disabled=move || text.with(|text| text.trim().is_empty())>"Open"</button>
            </div>
            <p class="fault" id="paste-fault" role="alert">{move || fault.get()}</p>
        </form>
    }
}

fn open_job(session: Session, job: Job, words: &str) {
    session.open(job);
    session.say(format!("{words} Undo brings back what was here."));
}

fn open_file(session: Session, text: &str) {
    match Job::from_json(text) {
        Ok(job) => open_job(session, job, "The job file is opened."),
        Err(faults) => {
            let first = faults.first().map(ToString::to_string).unwrap_or_default();
            let more = faults.len().saturating_sub(1);
            let more = if more == 0 { String::new() } else { format!(" (and {more} more)") };
            session.say_bad(format!("The job file was not opened: {first}{more}. Nothing was changed."));
        }
    }
}
