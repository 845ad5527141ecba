//! Published worked examples, done again here.

use super::button::button;
use crate::browser::checker;
use crate::browser::part::{Part, part};
use leptos::prelude::*;
use serde_json::Value;
use staywright::quantity::trimmed;

/// What the checker was asked, and what came of it.
#[derive(Clone, PartialEq)]
enum State {
    Unasked,
    Asked,
    Done(Option<Value>),
}

/// The section, folded; the examples are worked when asked for.
pub fn self_check() -> Part {
    let state = RwSignal::new(State::Unasked);
    let run = move || {
        state.set(State::Asked);
        checker::ask("worked", move |answer| state.set(State::Done(answer)));
    };
    let body = move || match state.get() {
        State::Unasked => Vec::new(),
        State::Asked => vec![part("p").text("Being worked …")],
        State::Done(Some(Value::Array(examples))) => examples.iter().map(example).collect(),
        State::Done(_) => vec![part("p").class("stale").text("The checker could not be started.")],
    };
    part("details")
        .class("box")
        .add(part("summary").add(part("h2").text("Does this page reckon right?")))
        .add(part("p").text("The same engine works published examples of carrying errors; each figure stands beside the published one."))
        .add(button("Work the examples", run))
        .add(part("div").set("aria-live", "polite").live(body))
}

fn example(example: &Value) -> Part {
    let text = |key: &str| example.get(key).and_then(Value::as_str).unwrap_or_default().to_owned();
    let head = ["Figure", "Published", "Here", ""].map(|title| part("th").set("scope", "col").text(title));
    let figures = example.get("figures").and_then(Value::as_array).into_iter().flatten();
    part("section")
        .add(part("h3").text(&text("name")))
        .add(part("p").class("set-on").text(&text("source")))
        .add(
            part("table")
                .add(part("thead").add(part("tr").each(head)))
                .add(part("tbody").each(figures.map(figure))),
        )
}

fn figure(figure: &Value) -> Part {
    let number =
        |key: &str| figure.get(key).and_then(Value::as_f64).map_or_else(String::new, |x| trimmed(x, 3));
    let agrees = figure.get("agrees") == Some(&Value::Bool(true));
    let what = figure.get("what").and_then(Value::as_str).unwrap_or_default();
    part("tr")
        .add(part("th").set("scope", "row").text(what))
        .add(part("td").text(&number("published")))
        .add(part("td").text(&number("found")))
        .add(part("td").text(if agrees { "agrees" } else { "differs" }))
}
