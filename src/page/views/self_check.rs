//! Published worked examples, done again here.

use super::button::button;
use crate::browser::part::{Part, part};
use crate::browser::worker_client;
use leptos::prelude::*;
use staywright::ask::{Answer, Example, ExampleFigure, Question};

/// The section, folded; the examples are worked when asked for.
pub fn self_check() -> Part {
    // The examples, or none where nobody answers.
    let worked = RwSignal::new(None::<Vec<Example>>);
    let run = move || {
        worker_client::ask(Question::Worked, move |answer| {
            worked.set(Some(if let Some(Answer::Worked(examples)) = answer { examples } else { Vec::new() }));
        });
    };
    let body = move || match worked.get() {
        None => Vec::new(),
        Some(none) if none.is_empty() => {
            vec![part("p").class("stale").text("The examples cannot be worked here.")]
        }
        Some(examples) => examples.iter().map(example).collect(),
    };
    part("details")
        .class("box")
        .add(part("summary").add(part("h2").text("Does this page reckon right?")))
        .add(part("p").text("The same engine works published examples of carrying errors; each figure stands beside the published one."))
        .add(button("Work the examples", run))
        .add(part("div").set("aria-live", "polite").live(body))
}

fn example(example: &Example) -> Part {
    let head = ["Figure", "Published", "Here", ""].map(|title| part("th").set("scope", "col").text(title));
    part("section")
        .add(part("h3").text(&example.name))
        .add(part("p").class("set-on").text(&example.source))
        .add(
            part("table")
                .add(part("thead").add(part("tr").each(head)))
                .add(part("tbody").each(example.figures.iter().map(figure))),
        )
}

fn figure(figure: &ExampleFigure) -> Part {
    part("tr")
        .add(part("th").set("scope", "row").text(&figure.what))
        .add(part("td").text(&figure.published))
        .add(part("td").text(&figure.found))
        .add(part("td").text(if figure.agrees { "agrees" } else { "differs" }))
}
