//! The plan's warnings, where they belong.

use crate::session::Session;
use crate::session::advice::{at, sentence};
use crate::session::place::Place;
use leptos::prelude::*;

/// The warnings of one place.
#[component]
pub fn Warnings(
    /// The place.
    place: Place,
) -> impl IntoView {
    let session = Session::here();
    let here = Memo::new(move |_| session.follow.plan.with(|plan| at(&plan.warnings, place)));
    let list = move || {
        let items = here.get();
        (!items.is_empty()).then(|| {
            let items = items.iter().map(|warning| view! { <li>{sentence(warning)}</li> }).collect_view();
            view! { <ul class="warnings" aria-label="Warnings">{items}</ul> }
        })
    };
    view! { <div role="status">{list}</div> }
}
