//! How far errors carry: which setting has to be held, and which forgives.

use super::number_field::{NumberField, number_field};
use crate::browser::part::{Part, part, svg};
use crate::session::Session;
use crate::session::checks::own_figure;
use leptos::prelude::*;
use staywright::ask::{Carried, ShareLine};
use staywright::units::fixed;

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

/// The limit of the chosen result.
fn limit(session: Session) -> Part {
    let (bench, result) = (session.settings.bench, session.result);
    let told = move || result.with(|id| bench.with(|bench| bench.limit_of(id)));
    let field = NumberField {
        spec: Box::new(|| Some(own_figure("limit", false))),
        label: Box::new(|| "Keep it within".to_owned()),
        value: Box::new(move || told().or_else(|| Some(view(session)?.limit))),
        take: Box::new(move |limit| {
            result.with_untracked(|id| bench.update(|bench| bench.limit(id, limit)));
        }),
    };
    number_field("result-limit", field)
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
