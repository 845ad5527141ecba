//! The place for the cuts: one row for each, what belongs to it, and the order of work.

use crate::browser::hosted::Hosted;
use crate::browser::scroll;
use crate::session::Session;
use crate::session::cut_facts::{brief, contact_words, kind_word};
use crate::views::cut_detail::cut_detail;
use crate::views::order_of_work::{order_of_work, work_buttons};
use leptos::prelude::*;
use staywright::model::capital;
use staywright::plan::{CutAt, Plan};
use staywright::units::LengthUnit;

/// The place.
#[component]
pub fn Cut() -> impl IntoView {
    view! {
        <div class="entry">
            <Hosted class="stack" make=work_buttons />
            <ul class="cuts">{CutAt::all().map(|pick| view! { <CutRow pick /> }).collect_view()}</ul>
            <Hosted class="stack" make=order_of_work />
        </div>
        <Hosted class="view stack" make=|| vec![cut_detail()] />
    }
}

/// One cut in the list; the one that is looked at is marked.
#[component]
fn CutRow(pick: CutAt) -> impl IntoView {
    let Session { settings, follow, .. } = Session::here();
    let current = move || (settings.pick.get() == pick).then_some("true");
    let choose = move |_| {
        settings.pick.set(pick);
        scroll::to("cut-title");
    };
    let words = Memo::new(move |_| follow.plan.with(|plan| summary(plan, pick, settings.unit.get())));
    view! {
        <li>
            <button type="button" class="cut" aria-current=current on:click=choose>
                <span class="cut-name">{capital(&pick.name())}</span>
                <span class="cut-figures">{words}</span>
            </button>
        </li>
    }
}

fn summary(plan: &Plan, pick: CutAt, unit: LengthUnit) -> String {
    let cut = pick.cut(plan);
    let mut parts = vec![kind_word(cut).to_owned()];
    parts.extend(brief(cut).into_iter().map(|named| format!("{} {}", named.name, named.reading.text(unit))));
    parts.extend(cut.round().map(|round| contact_words(round.contact).to_owned()));
    parts.join(" · ")
}
