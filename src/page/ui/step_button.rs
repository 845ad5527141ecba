//! A button that steps a figure, once a click, again and again while it is held.

use crate::browser::hold::Hold;
use leptos::prelude::*;

/// The button, called `label`, with a sign on it.
#[component]
pub fn StepButton(label: String, sign: &'static str, act: impl Fn() + Copy + 'static) -> impl IntoView {
    let hold = Hold::new();
    let click = move |_| {
        if !hold.spent() {
            act();
        }
    };
    view! {
        <button
            type="button"
            class="step"
            aria-label=label
            on:pointerdown=move |_| hold.press(act)
            on:pointerup=move |_| hold.stop()
            on:pointerleave=move |_| hold.stop()
            on:pointercancel=move |_| hold.stop()
            on:contextmenu=|event| event.prevent_default()
            on:click=click
        >
            {sign}
        </button>
    }
}
