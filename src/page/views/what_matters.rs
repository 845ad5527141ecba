//! How far errors carry: which setting has to be held, and which forgives.

use super::number_field::number_field;
use crate::browser::part::{Part, part, svg};
use crate::session::Session;
use leptos::prelude::*;
use staywright::ask::{Bench, Carried, ShareLine};
use staywright::units::{fixed, read_length, show, trimmed};

/// As many settings as are shown unasked.
const FIRST: usize = 6;

/// How errors carry to the result that is looked at.
fn view(session: Session) -> Option<Carried> {
    session.checked.get()?.carried.clone()
}

/// The section.
pub fn what_matters() -> Part {
    let session = Session::here();
    let shares = move |from: usize, count: usize| {
        let list = view(session).map(|view| view.shares).unwrap_or_default();
        list.iter().skip(from).take(count).map(share).collect::<Vec<Part>>()
    };
    let totals = move || {
        let all = view(session).map(|view| view.totals).unwrap_or_default();
        all.iter().map(|total| part("li").text(total)).collect()
    };
    let source = move || view(session).map(|view| format!("Starting limit: {}.", view.source));
    let less = part("details")
        .class("more")
        .add(part("summary").text("The settings that matter less"))
        .add(part("ol").class("shares").live(move || shares(FIRST, usize::MAX)));
    part("section")
        .class("box")
        .set("aria-labelledby", "what-matters")
        .add(part("h2").set("id", "what-matters").text("What has to be held"))
        .add(part("p").text(
            "If every setting is off by what it can be, this is what becomes of the wheel, and which setting does it.",
        ))
        .add(part("div").class("figure-grid").add(menu(session)).add(limit(session)))
        .add(part("p").class("set-on").words_if(source))
        .add(part("ul").class("totals").live(totals))
        .add(part("ol").class("shares").live(move || shares(0, FIRST)))
        .add(less)
        .when(move || session.checked.with(Option::is_none), || part("p").text("Being worked out …"))
}

fn menu(session: Session) -> Part {
    let Session { checked, result, .. } = session;
    let lines = move || {
        let names = checked.get().map(|checked| checked.results.clone()).unwrap_or_default();
        names.iter().map(|(id, name)| format!("{id}\t{name}")).collect::<Vec<_>>().join("\n")
    };
    let option = |line: &str| {
        let (id, name) = line.split_once('\t').unwrap_or((line, line));
        part("option").set("value", id).text(name)
    };
    let picked = move || {
        // A menu shows what is picked only once it has its options.
        checked.track();
        result.get()
    };
    let select = part("select")
        .set("id", "result")
        .by(lines, move |lines| lines.lines().map(option).collect())
        .value(picked)
        .on_change(move |id| result.set(id));
    part("div").class("text-field").add(part("label").set("for", "result").text("Result")).add(select)
}

/// The limit of the chosen result, in the unit of the page.
fn limit(session: Session) -> Part {
    let settings = session.settings;
    let take = move |text: &str| {
        let read = read_length(text, settings.unit.get_untracked()).map(|figure| figure.value.mm());
        let Some(limit) = read.ok().filter(|limit| (0.0..=Bench::MOST).contains(limit)) else { return false };
        let id = session.result.get_untracked();
        settings.bench.update(|bench| bench.limit(&id, limit));
        true
    };
    let written = move || {
        let limit = view(session).map(|view| show::in_unit(view.limit, settings.unit.get()));
        limit.map_or_else(String::new, |limit| trimmed(limit, 4))
    };
    let label = || "Keep it within".to_owned();
    number_field("result-limit", label, written, take, "A length from 0 to 100 mm is needed here.")
}

fn share(line: &ShareLine) -> Part {
    let bar = svg("svg")
        .class("bar")
        .set("viewBox", "0 0 100 1")
        .set("preserveAspectRatio", "none")
        .set("aria-hidden", "true");
    let fill = svg("rect").set("width", &fixed(line.part * 100.0, 1)).set("height", "1");
    part("li")
        .add(part("span").class("share-name").text(&line.name))
        .add(part("b").text(&format!("{} %", fixed(line.part * 100.0, 0))))
        .add(bar.add(fill))
        .add(part("span").class("set-on").text(&line.gives))
        .add(part("span").class("hold").text(&line.hold))
}
