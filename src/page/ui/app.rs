//! The whole page.

use super::check::Check;
use super::cut::Cut;
use super::design::Design;
use super::dialog::Dialogs;
use super::job_bar::JobBar;
use super::places::Places;
use super::shop::Shop;
use super::status_line::StatusLine;
use crate::browser::hosted::Hosted;
use crate::browser::{address, after, answers, keep, keys, print, theme, typed, unread};
use crate::session::place::Place;
use crate::session::{Card, Session};
use crate::views::{mill, notice, print_card, shop_offer, silence_bar, stale, unread_bar};
use leptos::prelude::*;

/// One session, and the page as it stands: at the bench or at the mill.
#[component]
pub fn App() -> impl IntoView {
    let session = open_session();
    let is_laid_out = Memo::new(move |_| session.card.get() == Card::LaidOut);
    let at_mill = Memo::new(move |_| session.settings.mill.with(Option::is_some));
    let page = move || {
        if at_mill.get() {
            view! { <Hosted make=|| vec![silence_bar::silence_bar(), mill::mill()] /> }.into_any()
        } else {
            view! { <Bench /> }.into_any()
        }
    };
    let card = move || is_laid_out.get().then(|| view! { <Hosted make=|| vec![print_card::print_card()] /> });
    view! { <div class="page">{page} {card}</div> }
}

/// The session of this page, as the address and the store have it.
fn open_session() -> Session {
    let opening = address::opening();
    let session = Session::new(opening.job, opening.at);
    provide_context(session);
    session.is_first_visit.set(opening.is_first_visit);
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
    after::idle(move || answers::attach(session));
    if let Some(why) = opening.damaged {
        session.say_bad(format!(
            "This link cannot be opened: {why}. What you see instead are plain starting figures."
        ));
    }
    print::attach(session);
    session
}

/// The page apart from the at-the-mill view.
#[component]
fn Bench() -> impl IntoView {
    let place = Session::here().settings.place;
    let open = Memo::new(move |_| place.get());
    let shown = move || match open.get() {
        Place::Design => view! { <Design /> }.into_any(),
        Place::Cut => view! { <Cut /> }.into_any(),
        Place::Check => view! { <Check /> }.into_any(),
        Place::Shop => view! { <Shop /> }.into_any(),
    };
    let bars = || {
        vec![
            notice::notice_bar(),
            silence_bar::silence_bar(),
            unread_bar::unread_bar(),
            shop_offer::shop_offer(),
            stale::stale(),
        ]
    };
    view! {
        <JobBar />
        <Hosted class="bars" make=bars />
        <main id="place" class=move || format!("place at-{}", open.get().key())>
            <h1 class="hidden">{move || open.get().name()}</h1>
            {shown}
        </main>
        <footer class="foot">
            <StatusLine />
            <Places />
        </footer>
        <Dialogs />
    }
}
