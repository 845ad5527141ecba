//! Where a number comes from: the triangle, the formula, and the figures put into it.

use super::triangle::triangle_drawing;
use super::until_answered::until_answered;
use crate::browser::part::{Part, part};
use crate::browser::worker_client;
use crate::session::Answered;
use crate::session::Session;
use leptos::prelude::*;
use staywright::ask::{Answer, Explanation, Question};

/// The explanations of the cut that is picked. One that is unfolded stays so while its figures change.
pub fn explained() -> Part {
    let Session { settings, follow, .. } = Session::here();
    let list = RwSignal::new(Vec::new());
    let question = move || {
        let at = settings.pick.get();
        Some(Question::Explain { job: follow.link.get()?, at, unit: settings.unit.get() })
    };
    let answered = Answered::new(move || Some(question()?.id()));
    worker_client::follow("where the numbers come from", question, move |_, response| {
        if let Answer::Explained(explanations) = response.answer {
            list.set(explanations);
            answered.take(response.request, ());
        }
    });
    let titles =
        move || list.with(|list| list.iter().map(|one| one.title.as_str()).collect::<Vec<_>>().join("\n"));
    until_answered(part("div").class("explained"), answered)
        .add(part("h3").text("Where the numbers come from"))
        .by(titles, move |titles| {
            titles.lines().zip(0..).map(|(title, index)| explanation(title, list, index)).collect()
        })
}

fn explanation(title: &str, list: RwSignal<Vec<Explanation>>, index: usize) -> Part {
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
