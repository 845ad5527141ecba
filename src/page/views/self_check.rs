//! Published worked examples, done again here.

use super::button::button;
use crate::browser::checker;
use crate::browser::part::{Part, part};
use crate::session::follow::Shared;
use leptos::prelude::*;
use serde_json::Value;
use staywright::quantity::trimmed;
use staywright::trade::json_number;

/// The section, folded; the examples are worked when asked for.
pub fn self_check() -> Part {
    // The examples, or `null` where the checker could not be started.
    let answer = RwSignal::new(None::<Shared<Value>>);
    let run = move || {
        checker::ask("worked", move |worked| answer.set(Some(Shared::new(worked.unwrap_or_default()))));
    };
    let body = move || match answer.get().as_deref() {
        None => Vec::new(),
        Some(Value::Array(examples)) => examples.iter().map(example).collect(),
        Some(_) => vec![part("p").class("stale").text("The checker could not be started.")],
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
        |key: &str| figure.get(key).and_then(json_number).map_or_else(String::new, |x| trimmed(x, 3));
    let agrees = figure.get("agrees") == Some(&Value::Bool(true));
    let what = figure.get("what").and_then(Value::as_str).unwrap_or_default();
    part("tr")
        .add(part("th").set("scope", "row").text(what))
        .add(part("td").text(&number("published")))
        .add(part("td").text(&number("found")))
        .add(part("td").text(if agrees { "agrees" } else { "differs" }))
}
