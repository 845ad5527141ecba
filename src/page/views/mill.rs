//! At the mill: one step at a time, its figure large, the screen awake.

use super::facts::Facts;
use crate::browser::wake;
use crate::session::Session;
use crate::session::steps::Step;
use leptos::prelude::*;

/// Opens the view where it was left, or at the first step that is not done.
#[component]
pub fn MillButton() -> impl IntoView {
    let session = Session::here();
    let open = move |_| {
        let steps = session.follow.steps.get_untracked();
        let next = untrack(|| {
            steps.iter().find(|step| !session.ticked(&step.id)).or_else(|| steps.first()).cloned()
        });
        session.settings.mill.set(next.map(|step| step.id));
    };
    view! { <button type="button" class="main" on:click=open>"At the mill"</button> }
}

/// The view, in place of all else.
#[component]
pub fn Mill() -> impl IntoView {
    let session = Session::here();
    wake::stay_awake();
    let steps = session.follow.steps;
    let at = Memo::new(move |_| {
        let open = session.settings.mill.get();
        steps.with(|steps| steps.iter().position(|step| Some(&step.id) == open.as_ref()).unwrap_or(0))
    });
    let count = move || steps.with(Vec::len);
    let go = move |index: usize| {
        if let Some(step) = steps.with_untracked(|steps| steps.get(index).cloned()) {
            session.settings.mill.set(Some(step.id));
        }
    };
    let step = Memo::new(move |_| steps.with(|steps| steps.get(at.get()).cloned()));
    let done = move || step.get().is_some_and(|step| session.ticked(&step.id));
    let tick = move |_| {
        let Some(step) = step.get_untracked() else { return };
        let now = !untrack(done);
        session.tick(&step.id, now);
        if now {
            go(at.get_untracked().saturating_add(1));
        }
    };
    let awake =
        if wake::possible() { "The screen stays on." } else { "This browser cannot keep the screen on." };
    view! {
        <main class="mill" aria-labelledby="mill-task">
            <div class="mill-top">
                <button type="button" on:click=move |_| session.settings.mill.set(None)>"Close"</button>
                <p class="count-of" role="status">{move || format!("Step {} of {}", at.get() + 1, count())}</p>
                <p class="awake">{awake}</p>
            </div>
            <super::stale::Stale />
            {move || step.get().map(|step| view! { <MillStep step=step /> })}
            <div class="mill-bottom">
                <button type="button" disabled=move || at.get() == 0 on:click=move |_| go(at.get_untracked().saturating_sub(1))>
                    "Previous"
                </button>
                <button type="button" class="main" aria-pressed=move || done().to_string() on:click=tick>
                    {move || if done() { "Done ✓" } else { "Done" }}
                </button>
                <button
                    type="button"
                    disabled=move || { at.get() + 1 >= count() }
                    on:click=move |_| go(at.get_untracked().saturating_add(1))
                >
                    "Next"
                </button>
            </div>
        </main>
    }
}

#[component]
fn MillStep(step: Step) -> impl IntoView {
    let unit = Session::here().settings.unit;
    let reading = step.reading;
    view! {
        <div class="mill-step">
            <p class="part-name">{step.part}</p>
            <h1 id="mill-task">{step.task}</h1>
            {reading.map(|reading| {
                let parts = move || {
                    let (figure, sign) = reading.parts(unit.get());
                    view! { {figure}" "<span class="mill-unit">{sign}</span> }
                };
                view! { <p class="mill-figure">{parts}</p> }
            })}
            <p class="set-on">{step.set_on}</p>
            {(!step.also.is_empty()).then(|| view! { <Facts facts=Signal::stored(step.also) /> })}
            {step.caution.map(|caution| view! { <p class="caution">{caution}</p> })}
        </div>
    }
}
