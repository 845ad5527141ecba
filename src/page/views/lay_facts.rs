//! How a bent or butted stay lies, while there is one.

use super::facts::facts;
use crate::browser::details;
use crate::browser::part::{Part, part};
use crate::session::Session;
use crate::session::lay_facts::{has_lay_facts, lay_facts};
use leptos::prelude::*;
use staywright::procedure::Named;

/// The figures of the stay that is entered, worked out while the box is open.
pub fn lay_facts_box() -> Part {
    let session = Session::here();
    let stay = move || (session.settings.pick.get().pair, session.hand());
    let list = move || -> Vec<Named> {
        let ((pair, hand), unit) = (stay(), session.settings.unit.get());
        session.follow.plan.with(|plan| lay_facts(plan, pair, hand, unit))
    };
    let title = move || {
        let (pair, hand) = stay();
        format!("How the {} {} lies", hand.key(), pair.one())
    };
    let open = RwSignal::new(false);
    let there = move || {
        let (pair, hand) = stay();
        session.follow.plan.with(|plan| has_lay_facts(plan, pair, hand))
    };
    part("div").class("lay-facts").when(there, move || {
        let heading = part("summary").add(part("h2").words(title));
        part("details")
            .class("box")
            .on("toggle", move |event| open.set(details::is_open(&event)))
            .add(heading)
            .when(move || open.get(), move || facts(list))
    })
}
