//! The builder's own limits for what is measured.

use crate::session::{Limits, Session};
use leptos::prelude::*;
use staywright::quantity::{LengthUnit, read_angle, read_length, trimmed};

/// Two fields.
#[component]
pub fn LimitsBox() -> impl IntoView {
    let session = Session::here();
    let limits = session.settings.limits;
    let set_length = move |text: &str| {
        let read = read_length(text, LengthUnit::Millimetre).ok().map(|figure| figure.value.mm());
        change(limits, read, |limits, mm| limits.length_mm = mm)
    };
    let set_angle = move |text: &str| {
        let read = read_angle(text).ok().map(|figure| figure.value.degrees());
        change(limits, read, |limits, degrees| limits.angle_deg = degrees)
    };
    view! {
        <section class="box" aria-labelledby="limits">
            <h2 id="limits">"Your limits"</h2>
            <p>"No standard sets how far a stay may be off. These are yours, to judge what you measured."</p>
            <div class="figure-grid">
                <LimitField id="limit-length" label="Lengths within ± mm" value=move || limits.get().length_mm set=set_length />
                <LimitField id="limit-angle" label="Angles within ± °" value=move || limits.get().angle_deg set=set_angle />
            </div>
        </section>
    }
}

/// Takes a limit over when it is one; whether it was.
fn change(limits: RwSignal<Limits>, read: Option<f64>, put: impl Fn(&mut Limits, f64)) -> bool {
    let Some(value) = read.filter(|value| (0.0..=100.0).contains(value)) else { return false };
    limits.update(|limits| put(limits, value));
    true
}

#[component]
fn LimitField<V, S>(id: &'static str, label: &'static str, value: V, set: S) -> impl IntoView
where
    V: Fn() -> f64 + Copy + Send + Sync + 'static,
    S: Fn(&str) -> bool + Copy + Send + Sync + 'static,
{
    let bad = RwSignal::new(false);
    let fault = format!("{id}-fault");
    view! {
        <div class="text-field">
            <label for=id>{label}</label>
            <input
                id=id type="text" inputmode="decimal" autocomplete="off" data-text=""
                aria-describedby=fault.clone()
                aria-invalid=move || bad.get().then_some("true")
                prop:value=move || trimmed(value(), 3)
                on:change=move |event| bad.set(!set(&event_target_value(&event)))
            />
            <p class="fault" id=fault aria-live="polite">{move || bad.get().then_some("A figure from 0 to 100 is needed here.")}</p>
        </div>
    }
}
