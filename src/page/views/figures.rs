//! A group of figures under one heading.

use super::field::FigureField;
use leptos::prelude::*;

/// The fields of `paths`, in that order.
#[component]
pub fn Figures(
    /// The heading.
    #[prop(into)]
    title: String,
    /// The figures.
    #[prop(into)]
    paths: Signal<Vec<String>>,
) -> impl IntoView {
    view! {
        <fieldset class="figures">
            <legend>{title}</legend>
            <div class="figure-grid">
                <For each=move || paths.get() key=String::clone children=|path| view! { <FigureField path=path /> } />
            </div>
        </fieldset>
    }
}
