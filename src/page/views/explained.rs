//! Where a number comes from: the triangle, the formula, and the figures put into it.

use super::triangle::TriangleDrawing;
use crate::session::Session;
use crate::session::explain::{Explanation, explanations};
use leptos::prelude::*;

/// The explanations of the cut that is picked.
#[component]
pub fn Explained() -> impl IntoView {
    let session = Session::here();
    let list = move || {
        let (pick, unit) = (session.settings.pick.get(), session.settings.unit.get());
        let list = session.follow.plan.with(|plan| explanations(plan, pick, unit));
        list.into_iter().map(|explanation| view! { <One explanation=explanation /> }).collect_view()
    };
    view! {
        <div class="explained">
            <h3>"Where the numbers come from"</h3>
            {list}
        </div>
    }
}

#[component]
fn One(explanation: Explanation) -> impl IntoView {
    let Explanation { title, result, words, formula, filled, triangle } = explanation;
    view! {
        <details class="more">
            <summary>{title}" "<b>{result}</b></summary>
            <p>{words}</p>
            {triangle.map(|triangle| view! { <TriangleDrawing triangle=triangle /> })}
            <p class="formula">{formula}</p>
            <p class="formula">{filled}</p>
        </details>
    }
}
