//! Passing the job on: as a link or as a file.

use super::button::button;
use crate::browser::part::{Part, part};
use crate::browser::{address, clip, files, share, worker_client};
use crate::session::Session;
use crate::session::job_file;
use leptos::prelude::*;
use staywright::ask::{Answer, Question};
use staywright::link;
use staywright::model::Job;

/// Copy, share and paste a link; save and open a job file.
pub fn link_box() -> Part {
    let session = Session::here();
    let pick = part("input")
        .class("hidden")
        .set("type", "file")
        .set("accept", ".json,application/json")
        .on("change", move |event| open_chosen(session, &event));
    let buttons = part("div")
        .class("buttons")
        .add(button("Copy link", move || copy(session, &address::link(session), held(session))))
        .each(share::possible().then(|| button("Share", move || share_link(session))))
        .add(button("Save job file", move || save(session)))
        .add(part("label").class("button").add(pick).text("Open job file"));
    part("section")
        .class("box")
        .set("aria-labelledby", "pass-on")
        .add(part("h2").set("id", "pass-on").text("Pass the job on"))
        .add(part("p").words(move || address_words(session).to_owned()))
        .add(buttons)
        .when(move || session.has_shop(), move || shop_link(session))
        .add(paste_link())
}

/// What a link of the job alone holds.
fn held(session: Session) -> &'static str {
    if untrack(|| session.has_shop()) {
        "It holds the job and its fixture, not your shop: opened elsewhere, saws and scale readings follow the shop there."
    } else {
        "It holds the whole job."
    }
}

fn address_words(session: Session) -> &'static str {
    if session.has_shop() {
        "The address of this page holds the job and its fixture at all times. Your shop is not in it: its saws, scales and mill \
         decide which saw is named and what the scales read. Nothing is sent anywhere."
    } else {
        "The address of this page holds the whole job at all times. Nothing is sent anywhere."
    }
}

/// A link that carries the shop as well, so that saws and scale readings come out alike elsewhere.
fn shop_link(session: Session) -> Part {
    let copied = move || match address::link_equipped(session) {
        Some(link) => copy(session, &link, "It holds the job, what you measured and your shop."),
        None => session.say_bad("The shop is too long for a link: save it as a file."),
    };
    part("div").class("buttons").add(button("Copy link with my shop", copied))
}

/// Copies a link and says so; `holds` is a sentence on what it holds.
pub fn copy(session: Session, link: &str, holds: &'static str) {
    clip::copy(link, move |copied| {
        if copied {
            session.say(format!("The link is copied. {holds}"));
        } else {
            session.say_bad("The link could not be copied: copy the page's address instead.");
        }
    });
}

fn share_link(session: Session) {
    let name = session.job().with_untracked(|job| job.name.clone());
    share::share(&name, &address::link(session));
}

fn save(session: Session) {
    let job = session.follow.good_job();
    let name = job_file::name(&job.name);
    worker_client::ask(Question::Save(link::encode(&job)), move |answer| {
        let saved = match answer {
            Some(Answer::Saved(text)) => files::save(&name, "application/json", &text).is_ok(),
            _ => false,
        };
        if !saved {
            session.say_bad("The job could not be saved.");
        }
    });
}

fn open_chosen(session: Session, event: &leptos::ev::Event) {
    files::read_chosen(&event_target(event), move |text| match text {
        Ok(text) => open_file(session, text),
        Err(why) => session.say_bad(format!("The job file was not opened: {why}. Nothing was changed.")),
    });
}

/// Opens what a link carries, or says why it cannot.
fn open_link(session: Session, pasted: &str) -> Result<(), String> {
    let linked = link::open(job_file::fragment_of(pasted))
        .map_err(|error| format!("This link cannot be opened: {error}. Nothing was changed."))?;
    open_job(session, linked.job, session.opened_words(linked.equipment.is_some()));
    session.take_readings(&linked.readings);
    session.equipment.offer(linked.equipment);
    Ok(())
}

/// A field for a link that came some other way.
fn paste_link() -> Part {
    let session = Session::here();
    let text = RwSignal::new(String::new());
    let fault = session.refused_link;
    let open = move |event: leptos::ev::Event| {
        event.prevent_default();
        match open_link(session, &text.get_untracked()) {
            Ok(()) => text.set(String::new()),
            Err(why) => session.refuse_link(why),
        }
    };
    let input = part("input")
        .set("id", "paste-link")
        .set("type", "text")
        .set("inputmode", "url")
        .set("data-text", "")
        .set("autocomplete", "off")
        .set("spellcheck", "false")
        .set("aria-describedby", "paste-fault")
        .follow("aria-invalid", move || fault.get().map(|_| "true".to_owned()))
        .value(move || text.get())
        .on_input(move |typed| text.set(typed));
    let submit = part("button")
        .set("type", "submit")
        .follow_if("disabled", move || text.with(|text| text.trim().is_empty()))
        .text("Open");
    let said = part("p").class("fault").set("id", "paste-fault").set("role", "alert");
    part("form")
        .class("text-field")
        .on("submit", open)
        .add(part("label").set("for", "paste-link").text("Open a link"))
        .add(part("div").class("with-button").add(input).add(submit))
        .add(said.words_if(move || fault.get()))
}

fn open_job(session: Session, job: Job, words: &str) {
    session.open(job);
    session.say(format!("{words} Undo brings back what was here."));
}

fn open_file(session: Session, text: String) {
    worker_client::ask(Question::Open(text), move |answer| {
        let opened = match answer {
            Some(Answer::Opened(job)) => link::decode(&job).ok(),
            Some(Answer::Refused(why)) => return session.say_bad(why),
            _ => None,
        };
        match opened {
            Some(job) => open_job(session, job, "The job file is opened."),
            None => {
                session.say_bad("The job file was not opened: nothing can read it here. Nothing was changed.")
            }
        }
    });
}
