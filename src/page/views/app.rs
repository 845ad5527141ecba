//! The whole page.

use super::header::Header;
use super::mill::Mill;
use super::nav::Nav;
use super::notice::NoticeBar;
use super::place_check::CheckPlace;
use super::place_cuts::CutsPlace;
use super::place_frame::FramePlace;
use super::place_set_up::SetUpPlace;
use super::place_stays::StaysPlace;
use super::print_card::PrintCard;
use crate::browser::{address, keep, keys, print, theme};
use crate::session::Session;
use crate::session::place::Place;
use leptos::prelude::*;

/// One session, the header, the place that is open, the way to the others.
#[component]
pub fn App() -> impl IntoView {
    let opening = address::opening();
    let session = Session::new(opening.job, opening.at);
    provide_context(session);
    keep::attach(session);
    theme::attach(session);
    address::attach(session, opening.damaged.is_some());
    keys::attach(session);
    if let Some(why) = opening.damaged {
        session.say_bad(format!(
            "This link cannot be opened: {why}. What you see instead are plain starting figures."
        ));
    }
    let printing = print::printing();
    let at_mill = Memo::new(move |_| session.settings.mill.with(Option::is_some));
    view! {
        {move || if at_mill.get() { view! { <Mill /> }.into_any() } else { view! { <Bench /> }.into_any() }}
        {move || printing.get().then(|| view! { <PrintCard /> })}
    }
}

/// The page apart from the at-the-mill view.
#[component]
fn Bench() -> impl IntoView {
    let place = Session::here().settings.place;
    let open = move || match place.get() {
        Place::Frame => view! { <FramePlace /> }.into_any(),
        Place::Stays => view! { <StaysPlace /> }.into_any(),
        Place::Cuts => view! { <CutsPlace /> }.into_any(),
        Place::SetUp => view! { <SetUpPlace /> }.into_any(),
        Place::Check => view! { <CheckPlace /> }.into_any(),
    };
    view! {
        <Header />
        <Nav />
        <NoticeBar />
        <main class="place" id="place">{open}</main>
    }
}
