//! What is measured on the finished stays.

use super::button::button;
use super::corrections::corrections;
use super::limits_box::limits_box;
use super::pair_choice::pair_choice;
use super::readings_say::readings_say;
use super::self_check::self_check;
use super::spreads_box::spreads_box;
use super::touched::touched;
use super::what_matters::what_matters;
use crate::browser::part::{Part, part};
use crate::browser::scroll;
use crate::session::checks::{judge, nominal};
use crate::session::{Session, checks::Verdict};
use leptos::prelude::*;
use staywright::ask::Measure;
use staywright::model::capital;

const CAUTION: &str = "Measuring proves the cut, not the frame. A frame to be ridden is proved by test (ISO 4210), not by this page.";

/// The readings, what they say, and what matters.
pub fn check_parts() -> Vec<Part> {
    let Session { settings, checked, .. } = Session::here();
    let checks = Memo::new(move |_| {
        let pair = settings.pick.get().pair;
        let all = checked.get().map(|checked| checked.measures.clone()).unwrap_or_default();
        all.into_iter().filter(|one| one.pair == pair).collect::<Vec<_>>()
    });
    let ids =
        move || checks.with(|checks| checks.iter().map(|one| one.id.clone()).collect::<Vec<_>>().join("\n"));
    let list =
        part("ul").class("checks").by(ids, move |ids| ids.lines().map(|id| check_item(id, checks)).collect());
    let to_verdict = button("What the readings say ↓", || scroll::to("readings-say")).class("to-verdict");
    vec![
        part("p").class("caution").text(CAUTION),
        pair_choice(),
        to_verdict,
        list,
        readings_say(),
        corrections(),
        touched(),
        what_matters(),
        spreads_box(),
        limits_box(),
        self_check(),
    ]
}

/// One figure: nominal, measured, and what lies between.
fn check_item(id: &str, checks: Memo<Vec<Measure>>) -> Part {
    let session = Session::here();
    let settings = session.settings;
    let field = format!("measured-{}", id.replace('.', "-"));
    let verdict_id = format!("{field}-verdict");
    let id = StoredValue::new(id.to_owned());
    let say = move |what: &dyn Fn(&Measure) -> String| {
        checks.with(|checks| id.with_value(|id| checks.iter().find(|check| &check.id == id).map(what)))
    };
    let text = move || id.with_value(|id| session.measured(id));
    let verdict = move || {
        let (limits, unit) = (settings.limits.get(), settings.unit.get());
        checks.with(|checks| {
            let measure = id.with_value(|id| checks.iter().find(|one| &one.id == id));
            judge(&text(), measure?, limits, unit)
        })
    };
    let invalid = move || verdict().filter(|verdict| !verdict.is_reading).map(|_| "true".to_owned());
    let input = measured_field(&field, &verdict_id)
        .follow("aria-invalid", invalid)
        .value(text)
        .on_input(move |text| id.with_value(|id| session.measure(id, &text)));
    let said = part("p").class("verdict").set("id", &verdict_id).set("aria-live", "polite");
    part("li")
        .class("check")
        .toggle("off", move || verdict().is_some_and(|verdict| !verdict.good))
        .add(part("label").set("for", &field).words_if(move || say(&|check| capital(&check.name))))
        .add(part("p").class("reading").words_if(move || say(&|check| nominal(check, settings.unit.get()))))
        .add(part("p").class("set-on").words_if(move || say(&|check| check.how.clone())))
        .add(
            part("div")
                .class("measured")
                .add(input)
                .add(said.words_if(move || verdict().map(Verdict::words))),
        )
}

/// An empty field for a measured figure, whose verdict is told under `verdict_id`.
fn measured_field(id: &str, verdict_id: &str) -> Part {
    part("input")
        .set("id", id)
        .set("type", "text")
        .set("inputmode", "decimal")
        .set("autocomplete", "off")
        .set("placeholder", "measured")
        .set("data-text", "")
        .set("aria-describedby", verdict_id)
}
