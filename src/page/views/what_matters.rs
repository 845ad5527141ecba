//! How far errors carry: which setting has to be held, and which forgives.

use crate::browser::part::{Part, part, svg};
use crate::session::Session;
use crate::session::answer::{CarryView, ShareLine, carry, results};
use crate::session::bench::{MOST, tell};
use leptos::prelude::*;
use staywright::quantity::{LengthUnit, fixed, read_length};

/// As many settings as are shown unasked.
const FIRST: usize = 6;

/// The section.
pub fn what_matters() -> Part {
    let session = Session::here();
    let chosen = RwSignal::new("off-centre".to_owned());
    let view = Memo::new(move |_| {
        let unit = session.settings.unit.get();
        let answer = session.answer.get();
        answer.and_then(|answer| chosen.with(|id| carry(&answer, id, unit)))
    });
    let shares = move |from: usize, count: usize| {
        let list = view.with(|view| view.as_ref().map(|view| view.shares.clone()).unwrap_or_default());
        list.iter().skip(from).take(count).map(share).collect::<Vec<Part>>()
    };
    let totals = move || {
        let all = view.with(|view| view.as_ref().map(|view| view.totals.clone()).unwrap_or_default());
        all.iter().map(|total| part("li").text(total)).collect()
    };
    let source =
        move || view.with(|view| view.as_ref().map(|view| format!("Starting limit: {}.", view.source)));
    part("section")
        .class("box")
        .set("aria-labelledby", "what-matters")
        .add(part("h2").set("id", "what-matters").text("What has to be held"))
        .add(part("p").text("If every setting is off by what it can be, this is what becomes of the wheel, and which setting does it."))
        .add(part("div").class("figure-grid").add(menu(session, chosen)).add(limit(session, chosen, view)))
        .add(part("p").class("set-on").words_if(source))
        .add(part("ul").class("totals").live(totals))
        .add(part("ol").class("shares").live(move || shares(0, FIRST)))
        .add(
            part("details")
                .class("more")
                .add(part("summary").text("The settings that matter less"))
                .add(part("ol").class("shares").live(move || shares(FIRST, usize::MAX))),
        )
        .when(move || session.answer.with(Option::is_none), || part("p").text("Being worked out …"))
}

fn menu(session: Session, chosen: RwSignal<String>) -> Part {
    let names = Memo::new(move |_| {
        session.answer.with(|answer| answer.as_ref().map(|answer| results(answer)).unwrap_or_default())
    });
    let key = move || {
        names.with(|names| {
            names.iter().map(|(id, name)| format!("{id}\t{name}")).collect::<Vec<_>>().join("\n")
        })
    };
    let option = |line: &str| {
        let (id, name) = line.split_once('\t').unwrap_or((line, line));
        part("option").set("value", id).text(name)
    };
    let select = part("select")
        .set("id", "result")
        .by(key, move |lines| lines.lines().map(option).collect())
        .value(move || {
            names.track();
            chosen.get()
        })
        .on_change(move |id| chosen.set(id));
    part("div").class("text-field").add(part("label").set("for", "result").text("Result")).add(select)
}

/// The limit of the chosen result, in the unit of the page.
fn limit(session: Session, chosen: RwSignal<String>, view: Memo<Option<CarryView>>) -> Part {
    let unit = session.settings.unit;
    let bad = RwSignal::new(false);
    let take = move |text: String| {
        let read = read_length(&text, unit.get_untracked()).ok().map(|figure| figure.value.mm());
        let limit = read.filter(|limit| (0.0..=MOST).contains(limit));
        bad.set(limit.is_none());
        if limit.is_some() {
            let id = chosen.get_untracked();
            session.settings.bench.update(|bench| tell(&mut bench.limits, &id, limit));
        }
    };
    let written = move || {
        let limit = view.with(|view| view.as_ref().map(|view| view.limit));
        limit.map_or_else(String::new, |limit| {
            let text = crate::session::show::in_unit(limit, unit.get());
            staywright::quantity::trimmed(text, if unit.get() == LengthUnit::Inch { 4 } else { 3 })
        })
    };
    let input = part("input")
        .set("id", "result-limit")
        .set("type", "text")
        .set("inputmode", "decimal")
        .set("autocomplete", "off")
        .set("data-text", "")
        .set("aria-describedby", "result-limit-fault")
        .follow("aria-invalid", move || bad.get().then(|| "true".to_owned()))
        .value(written)
        .on_change(take);
    let fault = part("p").class("fault").set("id", "result-limit-fault").set("aria-live", "polite");
    part("div")
        .class("text-field")
        .add(part("label").set("for", "result-limit").text("Keep it within"))
        .add(input)
        .add(fault.words_if(move || bad.get().then_some("A length from 0 to 100 mm is needed here.")))
}

fn share(line: &ShareLine) -> Part {
    let width = fixed(line.part * 100.0, 1);
    let bar = svg("svg")
        .class("bar")
        .set("viewBox", "0 0 100 1")
        .set("preserveAspectRatio", "none")
        .set("aria-hidden", "true");
    let fill = svg("rect").set("width", &width).set("height", "1");
    part("li")
        .add(part("span").class("share-name").text(&line.name))
        .add(part("b").text(&format!("{} %", fixed(line.part * 100.0, 0))))
        .add(bar.add(fill))
        .add(part("span").class("set-on").text(&line.gives))
        .add(part("span").class("hold").text(&line.hold))
}
