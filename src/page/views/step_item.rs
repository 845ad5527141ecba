//! One step of the set-up in the list.

use super::facts::Facts;
use crate::session::Session;
use crate::session::steps::Step;
use leptos::prelude::*;

/// The step with its tick.
#[component]
pub fn StepItem(step: Step) -> impl IntoView {
    let session = Session::here();
    let id = StoredValue::new(step.id.clone());
    let done = move || id.with_value(|id| session.ticked(id));
    let unit = session.settings.unit;
    let reading = step.reading;
    view! {
        <li class="step-item" class:done=done>
            <label class="tick">
                <input
                    type="checkbox"
                    prop:checked=done
                    on:change=move |event| id.with_value(|id| session.tick(id, event_target_checked(&event)))
                />
                <span class="task">{step.task.clone()}</span>
            </label>
            {reading.map(|reading| view! { <p class="reading">{move || reading.text(unit.get())}</p> })}
            <p class="set-on">{step.set_on}</p>
            {(!step.also.is_empty()).then(|| view! { <Facts facts=Signal::stored(step.also) /> })}
            {step.caution.map(|caution| view! { <p class="caution">{caution}</p> })}
        </li>
    }
}
