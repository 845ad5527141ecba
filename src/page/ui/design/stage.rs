//! The drawing, pinned: the parts from the side or from above.

use crate::browser::hosted::Hosted;
use crate::session::Session;
use crate::session::selection::{DesignPart, View};
use crate::views::drawing::{Tall, sheet_view};
use leptos::prelude::*;
use staywright::drawing::{clamp_plane_with_gaps, side_view_with_gaps};
use staywright::model::PairName;

/// How much of the window's height the drawing may take, on a narrow and on a wide screen.
const TALL: Tall = Tall { narrow: 0.38, wide: 0.76 };

/// The view's buttons and the drawing.
#[component]
pub fn Stage() -> impl IntoView {
    let session = Session::here();
    let view = Memo::new(move |_| session.view.get());
    let drawing = move || match view.get() {
        View::Side => view! { <Hosted class="stage-drawing" make=move || vec![side(session)] /> }.into_any(),
        View::Top => view! { <Hosted class="stage-drawing" make=move || vec![top(session)] /> }.into_any(),
    };
    view! {
        <section class="stage" aria-label="Drawing">
            <div class="stage-buttons">
                <ViewButtons />
                <PairButtons />
            </div>
            {drawing}
        </section>
    }
}

fn side(session: Session) -> crate::browser::part::Part {
    sheet_view(TALL, true, move |room| {
        let gaps = session.gap_lines(None);
        session.follow.plan.with(|plan| side_view_with_gaps(plan, &gaps, room))
    })
}

fn top(session: Session) -> crate::browser::part::Part {
    sheet_view(TALL, false, move |room| {
        let pair = session.settings.pick.get().pair;
        let gaps = session.gap_lines(Some(pair));
        session.follow.plan.with(|plan| clamp_plane_with_gaps(plan, pair, &gaps, room))
    })
}

#[component]
fn ViewButtons() -> impl IntoView {
    let session = Session::here();
    let button = move |one: View| {
        let pressed = move || (session.view.get() == one).to_string();
        view! {
            <button type="button" class="chip" aria-pressed=pressed on:click=move |_| session.view.set(one)>{one.name()}</button>
        }
    };
    view! { <div class="chips" role="group" aria-label="View">{View::ALL.into_iter().map(button).collect_view()}</div> }
}

/// The pair that the view from above shows.
#[component]
fn PairButtons() -> impl IntoView {
    let session = Session::here();
    let names = [("Chain", PairName::Chainstays), ("Seat", PairName::Seatstays)];
    let button = move |(word, pair): (&'static str, PairName)| {
        let pressed = move || (session.settings.pick.get().pair == pair).to_string();
        let select = move |_| session.select(DesignPart::of_pair(pair));
        view! { <button type="button" class="chip" aria-pressed=pressed on:click=select>{word}</button> }
    };
    let buttons = move || {
        (session.view.get() == View::Top).then(|| {
            view! { <div class="chips" role="group" aria-label="Pair of stays">{names.into_iter().map(button).collect_view()}</div> }
        })
    };
    view! { {buttons} }
}
