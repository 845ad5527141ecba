//! Named figures, one under the other.

use crate::session::Session;
use crate::session::reading::Named;
use leptos::prelude::*;

/// The list.
#[component]
pub fn Facts(
    /// The figures.
    #[prop(into)]
    facts: Signal<Vec<Named>>,
) -> impl IntoView {
    let unit = Session::here().settings.unit;
    let rows = move || {
        let row = |named: Named| {
            let text = named.reading.text(unit.get());
            view! { <div class="fact"><dt>{named.name}</dt><dd>{text}</dd></div> }
        };
        facts.get().into_iter().map(row).collect_view()
    };
    view! { <dl class="facts">{rows}</dl> }
}
