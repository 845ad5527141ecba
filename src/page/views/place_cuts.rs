//! The place for every cut of the job.

use super::cut_detail::CutDetail;
use super::ids::capital;
use super::warnings::Warnings;
use crate::browser::scroll;
use crate::session::Session;
use crate::session::cut_facts::{brief, contact_words, cut_of, kind_word};
use crate::session::pick::Pick;
use crate::session::place::Place;
use leptos::prelude::*;
use staywright::plan::Plan;
use staywright::quantity::LengthUnit;

/// The place.
#[component]
pub fn CutsPlace() -> impl IntoView {
    let list = Pick::all().map(|pick| view! { <CutRow pick=pick /> }).collect_view();
    view! {
        <h1 class="hidden">"Cuts"</h1>
        <div class="entry">
            <Warnings place=Place::Cuts />
            <ul class="cuts">{list}</ul>
        </div>
        <div class="view after">
            <super::stale::Stale />
            <CutDetail />
        </div>
    }
}

/// One cut in the list; the one that is looked at is marked.
#[component]
fn CutRow(pick: Pick) -> impl IntoView {
    let session = Session::here();
    let chosen = session.settings.pick;
    let current = move || (chosen.get() == pick).then_some("true");
    let choose = move |_| {
        chosen.set(pick);
        scroll::to("cut-title");
    };
    let words =
        Memo::new(move |_| session.follow.plan.with(|plan| summary(plan, pick, session.settings.unit.get())));
    view! {
        <li>
            <button type="button" class="cut" aria-current=current on:click=choose>
                <span class="cut-name">{capital(&pick.name())}</span>
                <span class="cut-figures">{words}</span>
            </button>
        </li>
    }
}

fn summary(plan: &Plan, pick: Pick, unit: LengthUnit) -> String {
    let cut = cut_of(plan, pick);
    let mut parts = vec![kind_word(cut).to_owned()];
    parts.extend(brief(cut).into_iter().map(|named| format!("{} {}", named.name, named.reading.text(unit))));
    parts.extend(cut.round().map(|round| contact_words(round.contact).to_owned()));
    parts.join(" · ")
}
