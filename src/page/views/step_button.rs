//! A button that steps a figure, once a click, again and again while it is held.

use crate::browser::hold::Hold;
use leptos::prelude::*;

/// The button.
#[component]
pub fn StepButton<F: Fn() + Copy + Send + Sync + 'static>(
    /// `less` or `more`.
    name: &'static str,
    /// What is stepped.
    of: StoredValue<String>,
    /// The sign on the button.
    sign: &'static str,
    /// One step.
    act: F,
) -> impl IntoView {
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
            aria-label=move || format!("{name} {}", of.get_value())
            on:pointerdown=move |_| hold.press(act)
            on:pointerup=move |_| hold.stop()
            on:pointerleave=move |_| hold.stop()
            on:pointercancel=move |_| hold.stop()
            on:contextmenu=move |event| event.prevent_default()
            on:click=click
        >
            {sign}
        </button>
    }
}
