//! A new frame, asked one thing after another.

use super::figure_sheet::FigureSheet;
use crate::session::guide::{ASKS, Ask, DROPOUTS, Dropouts};
use crate::session::{Session, shelf};
use leptos::prelude::*;
use staywright::model::{PairName, Tube, capital};
use staywright::units::{Length, show};

/// The thing that is asked at `at`.
#[component]
pub fn NewFrame(at: usize) -> impl IntoView {
    let session = Session::here();
    let count = format!("{} of {}", at + 1, ASKS.len());
    match ASKS.get(at) {
        Some(Ask::Figure(path)) => {
            let next = Callback::new(move |()| session.go_on(at));
            view! { <FigureSheet path=(*path).to_owned() count next /> }.into_any()
        }
        Some(Ask::Tube(pair)) => view! { <Tubes pair=*pair at count /> }.into_any(),
        Some(Ask::Dropouts) => view! { <DropoutList at count /> }.into_any(),
        None => ().into_any(),
    }
}

/// A list to choose one of; each row has a name and what there is to know of it.
#[component]
fn List(title: String, count: String, rows: Signal<Vec<(String, Callback<()>)>>, at: usize) -> impl IntoView {
    let session = Session::here();
    let row = move |(name, take): (String, Callback<()>)| {
        let choose = move |_| {
            take.run(());
            session.go_on(at);
        };
        view! { <li><button type="button" class="choice-row-button" on:click=choose>{name}</button></li> }
    };
    let label = title.clone();
    view! {
        <section class="sheet tall" role="dialog" aria-label=label>
            <div class="sheet-top">
                <h2>{title}</h2>
                <span class="quiet">{count}</span>
                <button type="button" on:click=move |_| session.go_on(at)>"Skip"</button>
            </div>
            <p class="quiet">"Usual sizes, unsourced: measure yours before you cut."</p>
            <ul class="sheet-body">{move || rows.get().into_iter().map(row).collect_view()}</ul>
        </section>
    }
}

/// The builder's own tubes, then usual ones.
#[component]
fn Tubes(pair: PairName, at: usize, count: String) -> impl IntoView {
    let session = Session::here();
    let take = move |tube: Tube| Callback::new(move |()| session.take_tube(pair, tube));
    let rows = Signal::derive(move || {
        let own = session.settings.shelf.with(|shelf| shelf.tubes().collect::<Vec<_>>());
        let usual = session.room.starting.now().get();
        let usual = usual.iter().flat_map(|usual| &usual.tubes).filter_map(|line| shelf::read(&line.tube));
        own.into_iter().chain(usual).map(|(name, tube)| (name, take(tube))).collect()
    });
    view! { <List title=capital(pair.name()) count rows at /> }
}

/// Dropouts of usual sizes.
#[component]
fn DropoutList(at: usize, count: String) -> impl IntoView {
    let session = Session::here();
    let unit = session.settings.unit;
    let rows = Signal::derive(move || {
        let length = |mm| show::length(Length::from_mm(mm), unit.get());
        let name = |one: Dropouts| match one {
            Dropouts::Plate(thickness) => format!("Plate, {}", length(thickness)),
            Dropouts::Round(diameter, width) => {
                format!("Round, ⌀ {}, {} wide", length(diameter), length(width))
            }
        };
        DROPOUTS.map(|one| (name(one), Callback::new(move |()| session.take_dropouts(one)))).to_vec()
    });
    view! { <List title="Dropouts".to_owned() count rows at /> }
}
