//! The place for what is measured on the finished stays.

use super::ids::capital;
use super::limits_box::LimitsBox;
use super::place_stays::PairChoice;
use super::warnings::Warnings;
use crate::session::Session;
use crate::session::checks::{Check, difference, pair_checks};
use crate::session::place::Place;
use crate::session::reading::Reading;
use leptos::prelude::*;

/// The place.
#[component]
pub fn CheckPlace() -> impl IntoView {
    let session = Session::here();
    let pair = Memo::new(move |_| session.settings.pick.get().pair);
    let checks = Memo::new(move |_| session.follow.plan.with(|plan| pair_checks(plan, pair.get())));
    view! {
        <h1 class="hidden">"Check"</h1>
        <div class="entry">
            <Warnings place=Place::Check />
            <p class="caution">
                "Measuring proves the cut, not the frame. A frame to be ridden is proved by test (ISO 4210), not by this page."
            </p>
            <PairChoice />
            <ul class="checks">
                <For each=move || checks.get() key=|check| check.id.clone() let:check>
                    <CheckItem id=check.id checks=checks />
                </For>
            </ul>
        </div>
        <div class="view after">
            <super::stale::Stale />
            <LimitsBox />
        </div>
    }
}

/// One figure: nominal, measured, and what lies between.
#[component]
fn CheckItem(id: String, checks: Memo<Vec<Check>>) -> impl IntoView {
    let session = Session::here();
    let settings = session.settings;
    let field = format!("measured-{}", id.replace('.', "-"));
    let verdict_id = format!("{field}-verdict");
    let id = StoredValue::new(id);
    let check = Memo::new(move |_| {
        checks.with(|checks| id.with_value(|id| checks.iter().find(|check| &check.id == id).cloned()))
    });
    let text = move || id.with_value(|id| session.measured(id));
    let name = move || check.get().map(|check| capital(&check.name));
    let nominal = move || check.get().map(|check| check.nominal.text(settings.unit.get()));
    let how = move || check.get().map(|check| check.how);
    let verdict = Memo::new(move |_| {
        let nominal = check.get()?.nominal;
        let limits = settings.limits.get();
        let limit = if matches!(nominal, Reading::Angle(_)) { limits.angle_deg } else { limits.length_mm };
        Some(match difference(&text(), nominal, settings.unit.get()) {
            Err(fault) => (false, fault),
            Ok(None) => return None,
            Ok(Some(off)) if off.value.abs() <= limit => (true, format!("{}, within your limit", off.text)),
            Ok(Some(off)) => (false, format!("{}, outside your limit", off.text)),
        })
    });
    let bad = move || verdict.get().is_some_and(|(good, _)| !good);
    view! {
        <li class="check" class:off=bad>
            <label for=field.clone()>{name}</label>
            <p class="reading">{nominal}</p>
            <p class="set-on">{how}</p>
            <div class="measured">
                <input
                    id=field type="text" inputmode="decimal" autocomplete="off" placeholder="measured" data-text=""
                    aria-describedby=verdict_id.clone()
                    prop:value=text
                    on:input=move |event| id.with_value(|id| session.measure(id, &event_target_value(&event)))
                />
                <p class="verdict" id=verdict_id aria-live="polite">{move || verdict.get().map(|(_, words)| words)}</p>
            </div>
        </li>
    }
}
