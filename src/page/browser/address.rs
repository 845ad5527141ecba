//! The address: its fragment holds the whole job, and each state of the job is one entry of the browser's history.

use super::{after, store, travel};
use crate::session::Session;
use leptos::leptos_dom::helpers::TimeoutHandle;
use leptos::prelude::*;
use staywright::link;
use staywright::model::{Job, starting_job};
use std::cell::Cell;
use std::time::Duration;
use wasm_bindgen::JsValue;

/// Quiet time after which an edit is one state of the history. Some browsers refuse a hundred address changes within
/// half a minute.
const QUIET: Duration = Duration::from_millis(450);

thread_local! {
    /// The number of the entry that the browser stands at.
    static WRITTEN: Cell<u32> = const { Cell::new(0) };
}

/// What the page starts with.
pub struct Opening {
    /// The job.
    pub job: Job,
    /// What was measured on its finished stays, where the link holds that.
    pub readings: Vec<(String, String)>,
    /// Whether the job came with a link that has no entry of this browser's history yet.
    pub is_new_link: bool,
    /// The equipment that the link brings, where it does.
    pub equipment: Option<Vec<u8>>,
    /// Where the browser's history stands.
    pub at: u32,
    /// Why the link was not opened.
    pub damaged: Option<String>,
    /// Whether nothing was ever entered here.
    pub is_first_visit: bool,
    /// Whether the job last worked on is kept and cannot be read.
    pub unread: bool,
}

/// The job of the address; without one, the job that was last worked on; without that, a plain one.
pub fn opening() -> Opening {
    let at = entry_number().unwrap_or(0);
    let plain = |job| Opening {
        job,
        readings: Vec::new(),
        is_new_link: false,
        equipment: None,
        at,
        is_first_visit: false,
        damaged: None,
        unread: false,
    };
    match fragment().map(|text| link::open(&text)) {
        Some(Ok(linked)) => {
            let is_new_link = entry_number().is_none();
            Opening {
                readings: linked.readings,
                equipment: linked.equipment,
                is_new_link,
                ..plain(linked.job)
            }
        }
        Some(Err(error)) => Opening { damaged: Some(error.to_string()), ..plain(starting_job()) },
        None => match store::read("job").filter(|text| !text.is_empty()).map(|text| link::decode(&text)) {
            Some(Ok(job)) => plain(job),
            Some(Err(_)) => Opening { unread: true, ..plain(starting_job()) },
            None => Opening { is_first_visit: true, ..plain(starting_job()) },
        },
    }
}

/// Keeps the address in step with the session from now on.
pub fn attach(session: Session, damaged: bool) {
    let at = session.at();
    // A damaged link stays in the address until something is entered, so that it can still be looked at.
    if !damaged {
        after::paint(move || {
            if session.at() == at && !travel::is_under_way() {
                write_entry(session, at, false);
            }
        });
    }
    WRITTEN.set(at);
    after::follow(move |_| write_entries(session));
    settle_when_quiet(session);
    window_event_listener(leptos::ev::popstate, move |_| arrive(session));
    let flush = move || {
        session.settle();
        write_entries(session);
    };
    window_event_listener_untyped("staywright-flush", move |_| flush());
    window_event_listener_untyped("pagehide", move |_| flush());
}

/// The address with the job as it stands.
pub fn link(session: Session) -> String {
    with_fragment(&link::encode(&session.follow.good_job()))
}

/// The same with what was measured.
pub fn link_measured(session: Session) -> String {
    with_fragment(&link::encode_measured(&session.follow.good_job(), &session.all_measured()))
}

/// The same with what was measured and the builder's equipment; `None` where that is longer than any link carries.
pub fn link_equipped(session: Session) -> Option<String> {
    let shop = session.settings.shop.get_untracked();
    let job = session.follow.good_job();
    link::encode_equipped(&job, &session.all_measured(), &shop).map(|text| with_fragment(&text))
}

fn with_fragment(fragment: &str) -> String {
    let page = window().location().href().unwrap_or_default();
    format!("{}#{fragment}", page.split('#').next().unwrap_or_default())
}

fn settle_when_quiet(session: Session) {
    let timer: StoredValue<Option<TimeoutHandle>> = StoredValue::new(None);
    let job = session.job();
    after::follow_painted(move |_| {
        job.track();
        if let Some(running) = timer.get_value() {
            running.clear();
        }
        timer.set_value(set_timeout_with_handle(move || session.settle(), QUIET).ok());
    });
}

/// Writes every settled state that has no entry yet; while the browser is on its way to another entry, none.
fn write_entries(session: Session) {
    let at = session.history().with(|history| history.at());
    if travel::is_under_way() {
        return;
    }
    let last = WRITTEN.replace(at);
    if at <= last {
        return;
    }
    // What stands in the address is no state of this history: a damaged link, or a page that has just been opened.
    if entry_number().is_none() {
        write_entry(session, last, false);
    }
    travel::goes_on_from(last);
    for number in last.saturating_add(1)..=at {
        write_entry(session, number, true);
    }
}

/// Writes the state that the history stands at into the present entry.
pub fn rewrite(session: Session) {
    let at = session.at();
    WRITTEN.set(at);
    write_entry(session, at, false);
}

fn write_entry(session: Session, number: u32, push: bool) {
    let text = session.history().with_untracked(|history| history.state(number).map(link::encode));
    let (Some(text), Ok(history)) = (text, window().history()) else { return };
    let (state, url) = (JsValue::from_f64(f64::from(number)), format!("#{text}"));
    // Refused only where the address cannot be written at all, as in some embedded pages.
    let _ = if push {
        history.push_state_with_url(&state, "", Some(&url))
    } else {
        history.replace_state_with_url(&state, "", Some(&url))
    };
    store::write("job", Some(&text));
}

/// The browser went back or forward, or another link was put into the address.
fn arrive(session: Session) {
    let read = || fragment().and_then(|text| link::decode(&text).ok());
    if let Some(number) = entry_number() {
        session.forget_after(WRITTEN.replace(number));
        session.go(number, read);
        travel::arrived(session, number);
        return;
    }
    match fragment().map(|text| link::open(&text)) {
        Some(Ok(linked)) => {
            replace(session, linked.job);
            session.say(session.opened_words(linked.equipment.is_some()));
            session.take_readings(&linked.readings);
            session.equipment.offer(linked.equipment);
        }
        Some(Err(error)) => {
            session.say_bad(format!("This link cannot be opened: {error}. Nothing was changed."));
            write_entry(session, session.at(), false);
        }
        None => {}
    }
}

/// Takes the job of another link that was put into the address. What was being typed meanwhile gets the entry that has come
/// with the link, and the link one of its own.
fn replace(session: Session, job: Job) {
    session.settle();
    let typed = session.at();
    let is_new = typed > WRITTEN.get();
    if is_new {
        write_entry(session, typed, false);
    }
    session.open(job);
    let at = session.at();
    WRITTEN.set(at);
    write_entry(session, at, is_new && at > typed);
}

/// The number that an entry written here carries.
fn entry_number() -> Option<u32> {
    let state = window().history().ok()?.state().ok()?.as_f64()?;
    (state >= 0.0 && state <= f64::from(u32::MAX)).then_some(state as u32)
}

/// The text after `#`, where there is any.
fn fragment() -> Option<String> {
    let hash = window().location().hash().ok()?;
    let text = hash.strip_prefix('#').unwrap_or(&hash);
    (!text.is_empty()).then(|| text.to_owned())
}
