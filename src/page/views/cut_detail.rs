//! One cut drawn large, with its figures, its fit, its profile and where its numbers come from.

use super::drawing::{SheetView, drawing};
use super::explained::Explained;
use super::facts::Facts;
use super::profile_table::ProfileTable;
use crate::session::Session;
use crate::session::advice::about;
use crate::session::cut_facts::{all, contact_words, cut_of, stay_of};
use crate::session::reading::{Named, Reading};
use leptos::prelude::*;
use staywright::drawing::{along_spindle, profile};

/// The cut that is picked.
#[component]
pub fn CutDetail() -> impl IntoView {
    let session = Session::here();
    let pick = session.settings.pick;
    let facts = Signal::derive(move || {
        session.follow.plan.with(|plan| all(stay_of(plan, pick.get()), cut_of(plan, pick.get())))
    });
    view! {
        <section class="detail" aria-labelledby="cut-title">
            <h2 id="cut-title">{move || super::ids::capital(&pick.get().name())}</h2>
            <CutWarnings />
            <SheetView draw=drawing(move |room| session.follow.plan.with(|plan| along_spindle(plan, pick.get().place(), room))) tall=0.45 />
            <Facts facts=facts />
            <Fit />
            <SheetView draw=drawing(move |room| session.follow.plan.with(|plan| profile(plan, pick.get().place(), room))) tall=0.3 />
            <ProfileTable />
            <Explained />
        </section>
    }
}

/// What the plan warns of at this cut, its stay or its pair.
#[component]
fn CutWarnings() -> impl IntoView {
    let session = Session::here();
    let here = Memo::new(move |_| {
        let pick = session.settings.pick.get();
        session.follow.plan.with(|plan| {
            plan.warnings
                .iter()
                .filter(|warning| about(warning, pick))
                .map(|warning| warning.message.clone())
                .collect::<Vec<_>>()
        })
    });
    let list = move || {
        let items = here.get();
        (!items.is_empty()).then(|| {
            let items = items.into_iter().map(|message| view! { <li>{message}</li> }).collect_view();
            view! { <ul class="warnings" aria-label="Warnings of this cut">{items}</ul> }
        })
    };
    view! { <div role="status">{list}</div> }
}

/// How well the cut will seat where the saw is not the member's diameter, and how the saw meets the tube.
#[component]
fn Fit() -> impl IntoView {
    let session = Session::here();
    let pick = session.settings.pick;
    let round = Memo::new(move |_| {
        session.follow.plan.with(|plan| {
            cut_of(plan, pick.get()).round().map(|cut| {
                let figures =
                    [("Largest gap when pushed home", cut.gap), ("Push until it touches", cut.push)];
                let figures: Vec<_> = figures
                    .into_iter()
                    .filter_map(|(name, length)| {
                        length.map(|length| Named::new(name, Reading::Length(length)))
                    })
                    .collect();
                (contact_words(cut.contact), figures, cut.cutter == cut.member)
            })
        })
    });
    let fit = move || {
        round.get().map(|(contact, figures, same)| {
            let figures = Signal::stored(figures);
            view! {
                <h3>"Cutter and fit"</h3>
                <p>{format!("The saw {contact}.")}</p>
                {if same {
                    view! { <p>"The saw is the size of the round member, so the cut seats all along."</p> }.into_any()
                } else {
                    view! { <Facts facts=figures /> }.into_any()
                }}
            }
        })
    };
    view! { <div class="fit">{fit}</div> }
}
