//! The place for the two pairs of stays.

use super::choice::Choice;
use super::drawing::{SheetView, drawing};
use super::end_box::EndBox;
use super::facts::Facts;
use super::figures::Figures;
use super::warnings::Warnings;
use crate::session::Session;
use crate::session::pair_facts::pair_facts;
use crate::session::place::Place;
use leptos::prelude::*;
use staywright::drawing::clamp_plane;
use staywright::trade::{Hand, PairName};

/// The place.
#[component]
pub fn StaysPlace() -> impl IntoView {
    let session = Session::here();
    let pick = session.settings.pick;
    let pair = Memo::new(move |_| pick.get().pair);
    let facts = Signal::derive(move || session.follow.plan.with(|plan| pair_facts(plan.pair(pair.get()))));
    view! {
        <h1 class="hidden">"Stays"</h1>
        <div class="entry">
            <PairChoice />
            <Warnings place=Place::Stays />
            {move || view! { <PairEntry pair=pair.get() /> }}
        </div>
        <div class="view">
            <super::stale::Stale />
            <SheetView draw=drawing(move |room| session.follow.plan.with(|plan| clamp_plane(plan, pair.get(), room))) tall=0.55 />
            <Facts facts=facts />
        </div>
    }
}

/// Chainstays or seat stays.
#[component]
pub fn PairChoice() -> impl IntoView {
    let pick = Session::here().settings.pick;
    let chosen = Signal::derive(move || pick.get().pair.key().to_owned());
    let choose = move |key: String| {
        if let Some(pair) = PairName::ALL.into_iter().find(|pair| pair.key() == key) {
            pick.update(|pick| pick.pair = pair);
        }
    };
    let options = vec![("chainstays", "Chainstays"), ("seatstays", "Seat stays")];
    view! { <Choice legend="Pair" name="pair" options=options chosen=chosen choose=choose /> }
}

#[component]
fn PairEntry(pair: PairName) -> impl IntoView {
    let session = Session::here();
    let own_left = Memo::new(move |_| session.job().with(|job| job.pair(pair).left.is_some()));
    let hand =
        Memo::new(move |_| if own_left.get() { session.settings.pick.get().hand } else { Hand::Right });
    let node = Signal::derive(move || session.follow.paths(pair.key()));
    let mirror = move |_| {
        session.edit("mirror", |job| {
            let pair = job.pair_mut(pair);
            pair.left = if pair.left.is_some() { None } else { Some(pair.right) };
        });
        session.settle();
    };
    let choose = move |key: String| {
        if let Some(hand) = Hand::ALL.into_iter().find(|hand| hand.key() == key) {
            session.settings.pick.update(|pick| pick.hand = hand);
        }
    };
    let chosen = Signal::derive(move || hand.get().key().to_owned());
    let hands = move || {
        own_left.get().then(|| {
            let options = vec![("right", "Right"), ("left", "Left")];
            view! { <Choice legend="Side" name="side" options=options chosen=chosen choose=choose /> }
        })
    };
    let node_box =
        move || (!node.get().is_empty()).then(|| view! { <Figures title="On the seat tube" paths=node /> });
    view! {
        <label class="switch">
            <input type="checkbox" role="switch" prop:checked=move || !own_left.get() on:change=mirror />
            <span>"Left mirrors right"</span>
        </label>
        {hands}
        {node_box}
        {move || view! { <SideEntry pair=pair hand=hand.get() /> }}
    }
}

#[component]
fn SideEntry(pair: PairName, hand: Hand) -> impl IntoView {
    let follow = Session::here().follow;
    let at = format!("{}.{}", pair.key(), hand.key());
    let group = |part: &str| {
        let path = format!("{at}.{part}");
        Signal::derive(move || follow.paths(&path))
    };
    view! {
        <Figures title="Front point" paths=group("front") />
        <EndBox pair=pair hand=hand at_front=true />
        <Figures title="Rear point" paths=group("rear") />
        <EndBox pair=pair hand=hand at_front=false />
        <Figures title="Tube" paths=group("tube") />
    }
}
