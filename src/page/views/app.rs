//! The whole page.

use super::header::header;
use super::mill::mill;
use super::nav::nav;
use super::notice::notice_bar;
use super::place_check::check_place;
use super::place_cuts::cuts_place;
use super::place_frame::frame_place;
use super::place_set_up::set_up_place;
use super::place_stays::stays_place;
use super::print_card::print_card;
use super::shop_offer::shop_offer;
use super::silence_bar::silence_bar;
use super::unread_bar::unread_bar;
use crate::browser::part::{Part, part};
use crate::browser::{address, after, keep, keys, print, theme, typed, unread, worker_client};
use crate::session::place::Place;
use crate::session::{Card, Equipment, Session};
use leptos::prelude::*;
use staywright::ask::{Question, Response};

/// One session, the header, the place that is open, the way to the others.
pub fn app() -> Part {
    let opening = address::opening();
    let session = Session::new(opening.job, opening.at);
    provide_context(session);
    after::note_first_paint();
    keep::attach(session);
    if opening.unread {
        unread::set_aside(session, "job");
    }
    // Not at once: what is there at the first look is taken for what the store holds.
    after::paint(move || {
        if opening.is_new_link && session.has_shop() {
            session.say(session.opened_words(opening.equipment.is_some()));
        }
        session.take_readings(&opening.readings);
        session.equipment.offer(opening.equipment);
    });
    theme::attach(session);
    address::attach(session, opening.damaged.is_some());
    keys::attach(session);
    typed::attach(session);
    after::idle(move || answers(session));
    if let Some(why) = opening.damaged {
        session.say_bad(format!(
            "This link cannot be opened: {why}. What you see instead are plain starting figures."
        ));
    }
    print::attach(session);
    let card = move || session.card.get() == Card::LaidOut;
    let at_mill = move || session.settings.mill.with(Option::is_some);
    part("div")
        .class("page")
        .by(
            move || at_mill().to_string(),
            |at_mill| if at_mill == "true" { vec![silence_bar(), mill()] } else { bench() },
        )
        .when(card, print_card)
}

/// What is worked out off the main thread, kept in step with the page.
fn answers(session: Session) {
    let take = move |question: &Question, response| session.take_answer(question, response);
    let searching = worker_client::follow("how the bent tubes lie", move || session.to_place(), take);
    after::follow(move |_| session.room.searching.set(searching.get()));
    // Clearances are drawn with whatever the next frame changes anyway.
    let take_rooms = move |question: &Question, response| {
        let question = question.clone();
        after::frame(move || session.take_answer(&question, response));
    };
    worker_client::follow("clearances", move || session.to_clear(), take_rooms);
    worker_client::follow("what would give more room", move || session.to_ways(), take);
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

/// The page apart from the at-the-mill view.
fn bench() -> Vec<Part> {
    let place = Session::here().settings.place;
    let open = |key: &str| match Place::from_key(key).unwrap_or_default() {
        Place::Frame => frame_place(),
        Place::Stays => stays_place(),
        Place::Cuts => cuts_place(),
        Place::SetUp => set_up_place(),
        Place::Check => check_place(),
    };
    let main = part("main").class("place").set("id", "place").by(move || place.get().key().to_owned(), open);
    vec![header(), nav(), notice_bar(), silence_bar(), unread_bar(), shop_offer(), main]
}
