//! The place for the order of work at the machine.

use super::drawing::{SheetView, drawing};
use super::fixture_box::FixtureBox;
use super::mill::MillButton;
use super::place_stays::PairChoice;
use super::step_item::StepItem;
use super::warnings::Warnings;
use crate::browser::print;
use crate::session::Session;
use crate::session::place::Place;
use crate::session::steps::{Step, pair_steps};
use leptos::prelude::*;
use staywright::drawing::{Place as End, clamp_plane, fixture_tilt};
use staywright::trade::{Hand, PairName};

/// The place.
#[component]
pub fn SetUpPlace() -> impl IntoView {
    let session = Session::here();
    let pair = Memo::new(move |_| session.settings.pick.get().pair);
    let steps = Memo::new(move |_| session.follow.plan.with(|plan| pair_steps(plan, pair.get())));
    view! {
        <h1 class="hidden">"Set-up"</h1>
        <div class="entry">
            <Warnings place=Place::SetUp />
            <div class="buttons">
                <MillButton />
                <button type="button" on:click=move |_| print::print()>"Print set-up card"</button>
                <button type="button" on:click=move |_| session.clear_ticks()>"Clear ticks"</button>
            </div>
            <p class="caution">
                "A hole saw can catch a tube and throw it. What is said here stands behind the machine's own manual, your local \
                 rules and licensed practice."
            </p>
            <FixtureBox />
            <PairChoice />
            <Progress />
            <Parts steps=steps />
        </div>
        <div class="view after" role="region" aria-label="Drawings" tabindex="0">
            <super::stale::Stale />
            <PairDrawings pair=pair />
        </div>
    }
}

/// The pair in its fixture, and how the fixture stands for each of its round cuts.
#[component]
pub fn PairDrawings(#[prop(into)] pair: Signal<PairName>) -> impl IntoView {
    let plan = Session::here().follow.plan;
    let ends = Memo::new(move |_| {
        plan.with(|plan| {
            let stay = &plan.pair(pair.get()).right;
            [(true, &stay.front), (false, &stay.rear)]
                .into_iter()
                .filter(|(_, cut)| cut.round().is_some())
                .map(|(at_front, _)| at_front)
                .collect::<Vec<_>>()
        })
    });
    let stands = move |at_front: bool| {
        let place = move || End { pair: pair.get(), hand: Hand::Right, at_front };
        let draw = drawing(move |room| plan.with(|plan| fixture_tilt(plan, place(), room)));
        view! { <SheetView draw=draw tall=0.4 /> }
    };
    view! {
        <SheetView draw=drawing(move |room| plan.with(|plan| clamp_plane(plan, pair.get(), room))) tall=0.5 still=true />
        <For each=move || ends.get() key=|end| *end children=stands />
    }
}

/// How many steps of the whole job are done.
#[component]
fn Progress() -> impl IntoView {
    let session = Session::here();
    let words = move || {
        let steps = session.follow.steps.get();
        let done = steps.iter().filter(|step| session.ticked(&step.id)).count();
        format!("{done} of {} steps of the job are done", steps.len())
    };
    view! { <p class="progress">{words}</p> }
}

/// The steps under the headings of their parts.
#[component]
pub fn Parts(
    /// The steps, in order.
    #[prop(into)]
    steps: Signal<Vec<Step>>,
) -> impl IntoView {
    let parts = move || {
        let steps = steps.get();
        let parts = steps.chunk_by(|a, b| a.part == b.part).map(|part| {
            let title = part.first().map(|step| step.part.clone());
            let items = part.iter().cloned().map(|step| view! { <StepItem step=step /> }).collect_view();
            view! {
                <section class="part">
                    <h2>{title}</h2>
                    <ol>{items}</ol>
                </section>
            }
        });
        parts.collect_view()
    };
    view! { <div class="parts">{parts}</div> }
}
