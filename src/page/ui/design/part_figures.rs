//! What belongs to the selected part.

use crate::browser::hosted::Hosted;
use crate::browser::part::Part;
use crate::session::Session;
use crate::session::pair_facts::pair_facts;
use crate::session::selection::DesignPart;
use crate::views::figures::fields;
use crate::views::{around_box, facts, lay_facts, room_box, stay_figures};
use leptos::prelude::*;

/// The figures of the selected part.
#[component]
pub fn PartFigures() -> impl IntoView {
    let session = Session::here();
    let part = Memo::new(move |_| session.part.get());
    move || {
        let part = part.get();
        view! { <Hosted class="part-figures stack" make=move || rows(session, part) /> }
    }
}

fn rows(session: Session, part: DesignPart) -> Vec<Part> {
    match part {
        DesignPart::Chainstays | DesignPart::SeatStays => {
            let Some(pair) = part.pair() else { return Vec::new() };
            let mut rows = stay_figures::stay_figures(pair);
            let follow = session.follow;
            rows.push(facts::facts(move || follow.plan.with(|plan| pair_facts(plan.pair(pair)))));
            rows.push(lay_facts::lay_facts_box());
            rows.push(room_box::room_box());
            rows
        }
        DesignPart::Drive => vec![around_box::around_box()],
        DesignPart::Frame | DesignPart::Tubes | DesignPart::Wheel => {
            vec![fields(move || part.paths().iter().map(|path| (*path).to_owned()).collect())]
        }
    }
}
