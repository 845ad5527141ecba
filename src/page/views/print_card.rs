//! The set-up card as it is printed: every step of the job, the drawings, and the link.

use super::place_set_up::{PairDrawings, Parts};
use super::qr_view::QrView;
use crate::browser::address;
use crate::session::Session;
use leptos::prelude::*;
use staywright::trade::PairName;

/// The card.
#[component]
pub fn PrintCard() -> impl IntoView {
    let session = Session::here();
    let name = move || {
        session.job().with(|job| if job.name.is_empty() { "Untitled job".into() } else { job.name.clone() })
    };
    let notes = move || session.job().with(|job| job.notes.clone());
    let link = address::link(session);
    view! {
        <article class="card">
            <h1>{name}</h1>
            <p>{notes}</p>
            {PairName::ALL.map(|pair| view! { <div class="card-drawings"><PairDrawings pair=Signal::stored(pair) /></div> })}
            <Parts steps=session.follow.steps />
            <footer>
                <p>
                    "Staywright set-up card. The machine's manual, local rules and licensed practice come first; a frame to be \
                     ridden is proved by test (ISO 4210)."
                </p>
                <QrView link=link.clone() />
                <p class="card-link">{link}</p>
            </footer>
        </article>
    }
}
