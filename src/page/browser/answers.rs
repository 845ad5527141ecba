//! What the worker answers, kept in step with the page.

use super::{after, worker_client};
use crate::session::{Equipment, Session};
use leptos::prelude::*;
use staywright::ask::{Question, Response};

/// Asks from now on whatever the session wants answered.
pub fn attach(session: Session) {
    let take = move |question: &Question, response| session.take_answer(question, response);
    let searching = worker_client::follow("how the bent tubes lie", move || session.to_place(), take);
    after::follow(move |_| session.room.searching.set(searching.get()));
    // Clearances are drawn with whatever the next frame changes anyway.
    let take_rooms = move |question: &Question, response| {
        let question = question.clone();
        after::frame(move || session.take_answer(&question, response));
    };
    worker_client::follow("clearances", move || session.to_clear(), take_rooms);
    worker_client::follow("what is wrong or to be looked at", move || session.to_findings(), take);
    worker_client::follow("what would give more clearance", move || session.to_ways(), take);
    worker_client::follow("sources and starting tubes", move || session.to_start(), take);
    worker_client::follow("what the readings say", move || session.to_check(), take);
    worker_client::follow("the order of work", move || session.to_set_up(), take);
    let take_cut = move |_: &Question, response| session.take_cut(response);
    worker_client::follow("the cut in this shop", move || session.to_cut(), take_cut);
    let Equipment { shop, pad, .. } = session.equipment;
    let take = move |form| move |_: &Question, response: Response| session.take_form(form, response.answer);
    worker_client::follow("this shop", move || session.to_shop(), take(shop));
    worker_client::follow("the flat for a brake mount", move || session.to_pad(), take(pad));
}
