//! The way between the five places.

use crate::session::Session;
use crate::session::advice;
use crate::session::place::Place;
use leptos::prelude::*;

/// The five places; on a phone at the bottom edge.
#[component]
pub fn Nav() -> impl IntoView {
    let session = Session::here();
    let counts = Memo::new(move |_| {
        session.follow.plan.with(|plan| Place::ALL.map(|place| advice::at(&plan.warnings, place).len()))
    });
    let link = move |(place, index): (Place, usize)| {
        let current = move || (session.settings.place.get() == place).then_some("page");
        let count = move || counts.with(|counts| counts.get(index).copied().unwrap_or(0));
        let badge = move || {
            (count() > 0).then(|| {
                let words = if count() == 1 { " warning" } else { " warnings" };
                view! { <span class="count">{count()}<span class="hidden">{words}</span></span> }
            })
        };
        view! {
            <li>
                <button type="button" aria-current=current on:click=move |_| session.settings.place.set(place)>
                    <span class="nav-number" aria-hidden="true">{index + 1}</span>
                    <span>{place.name()}</span>
                    {badge}
                </button>
            </li>
        }
    };
    view! {
        <nav class="places" aria-label="Places">
            <ul>{Place::ALL.into_iter().zip(0..).map(link).collect_view()}</ul>
        </nav>
    }
}
