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
use crate::browser::part::{Part, part};
use crate::browser::{address, after, beside, keep, keys, print, theme, typed};
use crate::session::place::Place;
use crate::session::{Equipment, Session};
use leptos::prelude::*;

/// One session, the header, the place that is open, the way to the others.
pub fn app() -> Part {
    let opening = address::opening();
    let session = Session::new(opening.job, opening.at);
    provide_context(session);
    after::note_first_paint();
    keep::attach(session);
    // Not at once: what is there at the first look is taken for what the store holds.
    after::paint(move || {
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
    let printing = print::printing();
    let at_mill = move || session.settings.mill.with(Option::is_some);
    part("div")
        .class("page")
        .by(move || at_mill().to_string(), |at_mill| if at_mill == "true" { vec![mill()] } else { bench() })
        .when(move || printing.get(), print_card)
}

/// What is worked out beside the page, kept in step with it.
fn answers(session: Session) {
    let searching = beside::follow(move || session.to_place(), move |answer| session.take_answer(answer));
    after::follow(move |_| session.room.searching.set(searching.get()));
    // Rooms are drawn with whatever the next frame changes anyway.
    let take_rooms = move |answer| after::frame(move || session.take_answer(answer));
    beside::follow(move || session.to_clear(), take_rooms);
    beside::follow(move || session.to_ways(), move |answer| session.take_answer(answer));
    beside::follow(move || session.to_start(), move |answer| session.take_answer(answer));
    beside::follow(move || session.to_check(), move |answer| session.take_answer(answer));
    beside::follow(move || session.to_set_up(), move |answer| session.take_answer(answer));
    beside::follow(move || session.to_cut(), move |answer| session.take_cut(answer));
    let Equipment { shop, pad, .. } = session.equipment;
    beside::follow(move || session.to_shop(), move |answer| session.take_form(shop, answer));
    beside::follow(move || session.to_pad(), move |answer| session.take_form(pad, answer));
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
    vec![header(), nav(), notice_bar(), shop_offer(), main]
}
