//! Settings, ticks and measured figures, kept from one visit to the next.

use super::{after, store, unread};
use crate::session::{LastOrder, Records, Session, kept};
use leptos::prelude::*;
use staywright::ask::Change;
use staywright::link;

const FIXTURE: &str = "fixture";
const RECORDS: &str = "records";
const ORDER: &str = "steps";

/// Takes over what was kept, and keeps what changes from now on. What cannot be read is set aside before anything is written.
pub fn attach(session: Session) {
    for key in session.settings.read(store::read) {
        unread::set_aside(session, key);
    }
    move_fixture(session);
    read_records(session);
    keep_order(session);
    unread::refresh(session);
    // Another tab has ticked or measured something.
    window_event_listener_untyped("storage", move |_| read_records(session));
    // The first time everything still is as it was read.
    after::follow(move |first| {
        for (key, text) in session.settings.written().into_iter().filter(|_| !first) {
            store::write(key, text.as_deref());
        }
    });
    after::follow(move |_| session.carry_records());
    after::follow(move |first| {
        let text = session.records.with(kept::to_text);
        if !first {
            store::write(RECORDS, Some(&text));
        }
    });
}

/// A fixture that an earlier version kept beside the shop goes into it, and is forgotten once the shop has it.
fn move_fixture(session: Session) {
    let shop = session.equipment.shop;
    let Some(old) = store::read(FIXTURE) else { return };
    if link::decode(&old).is_err() {
        unread::set_aside(session, FIXTURE);
        store::write(FIXTURE, None);
        return;
    }
    shop.act(Change::Keep(old));
    after::follow(move |first| {
        shop.bytes.track();
        if !first {
            store::write(FIXTURE, None);
        }
    });
}

/// Keeps the order of work while the view at the mill is open: there at once when the page is opened again there.
fn keep_order(session: Session) {
    let at_mill = move || session.settings.mill.with(Option::is_some);
    let build = build();
    let kept = store::read(ORDER).and_then(|text| kept::from_text::<LastOrder>(&text));
    if let Some(last) = kept.filter(|last| untrack(at_mill) && last.build == build) {
        // Shown only where it is the answer to what would be asked now.
        session.answers.order.take(last.request, last.order);
    }
    after::follow(move |first| {
        let answered = session.answers.order.now_with_key().filter(|_| at_mill() && !first);
        if let Some((request, order)) = answered {
            let last = LastOrder { build: build.clone(), request, order: (*order).clone() };
            store::write(ORDER, Some(&kept::to_text(&last)));
        }
    });
}

/// The name of this build of the page.
fn build() -> String {
    let tag = document().query_selector("meta[name=build]").ok().flatten();
    tag.and_then(|tag| tag.get_attribute("content")).unwrap_or_default()
}

fn read_records(session: Session) {
    let Some(text) = store::read(RECORDS).filter(|text| !text.is_empty()) else { return };
    match kept::from_text::<Records>(&text) {
        Some(records) => {
            if session.records.with_untracked(|known| *known != records) {
                session.records.set(records);
            }
        }
        None => unread::set_aside(session, RECORDS),
    }
}
