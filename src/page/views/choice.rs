//! One of a few: radio buttons in a row.

use leptos::prelude::*;

/// The row. `options` are pairs of a key and the word shown.
#[component]
pub fn Choice<C: Fn(String) + Copy + Send + Sync + 'static>(
    /// What is chosen, for those who cannot see the row.
    legend: &'static str,
    /// The name that ties the buttons together; once on the page.
    name: &'static str,
    /// Whether the legend is shown.
    #[prop(optional)]
    titled: bool,
    /// The options.
    options: Vec<(&'static str, &'static str)>,
    /// The key that is chosen.
    #[prop(into)]
    chosen: Signal<String>,
    /// Another one was chosen.
    choose: C,
) -> impl IntoView {
    let button = move |(key, word): (&'static str, &'static str)| {
        view! {
            <label class="choice-option">
                <input
                    type="radio"
                    name=name
                    value=key
                    prop:checked=move || chosen.with(|chosen| chosen == key)
                    on:change=move |_| choose(key.to_owned())
                />
                <span>{word}</span>
            </label>
        }
    };
    view! {
        <fieldset class="choice">
            <legend class:hidden=!titled>{legend}</legend>
            <div class="choice-row">{options.into_iter().map(button).collect_view()}</div>
        </fieldset>
    }
}
