//! Where a number comes from: the triangle, the formula, and the figures put into it.

use super::triangle::triangle_drawing;
use crate::browser::part::{Part, part};
use crate::session::Session;
use crate::session::explain::{Explanation, explanations};
use leptos::prelude::*;

/// The explanations of the cut that is picked. One that is unfolded stays so while its figures change.
pub fn explained() -> Part {
    let Session { settings, follow, .. } = Session::here();
    let list = Memo::new(move |_| {
        let (pick, unit) = (settings.pick.get(), settings.unit.get());
        follow.plan.with(|plan| explanations(plan, pick, unit))
    });
    let titles = move || list.with(|list| list.iter().map(|one| one.title).collect::<Vec<_>>().join("\n"));
    part("div")
        .class("explained")
        .add(part("h3").text("Where the numbers come from"))
        .by(titles, move |titles| {
            titles.lines().zip(0..).map(|(title, index)| explanation(title, list, index)).collect()
        })
}

fn explanation(title: &str, list: Memo<Vec<Explanation>>, index: usize) -> Part {
    let say = move |what: fn(&Explanation) -> String| {
        move || list.with(|list| list.get(index).map(what)).unwrap_or_default()
    };
    let triangle = move || {
        let triangle = list.with(|list| list.get(index).and_then(|one| one.triangle.clone()));
        triangle.into_iter().map(|triangle| triangle_drawing(&triangle)).collect()
    };
    let summary = part("summary").text(title).text(" ").add(part("b").words(say(|one| one.result.clone())));
    part("details")
        .class("more")
        .add(summary)
        .add(part("p").words(say(|one| one.words.clone())))
        .add(part("div").live(triangle))
        .add(part("p").class("formula").words(say(|one| one.formula.clone())))
        .add(part("p").class("formula").words(say(|one| one.filled.clone())))
}
