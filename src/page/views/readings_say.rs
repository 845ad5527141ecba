//! What the readings say of the finished stays: a verdict on each result, what mends it, what the bench keeps doing.

use super::button::button;
use super::drawing::sheet_beside;
use super::link_box::copy;
use crate::browser::address;
use crate::browser::part::{Part, part};
use crate::session::Session;
use leptos::prelude::*;
use staywright::ask::{Drawing, Found, HabitLine, ResultLine};
use staywright::drawing::Differs;
use staywright::model::PairName;

const NO_FIT: &str = "No stays fit these readings: one of them must be wrong.";
const NOTHING_YET: &str = "Enter what you measured. A few readings are enough for a verdict on the wheel; each more is \
                           checked by the others.";

/// The section.
pub fn readings_say() -> Part {
    let session = Session::here();
    let said = move || session.checked.get().and_then(|checked| checked.found.clone());
    let body = move || match said() {
        Some(found) => told(session, &found),
        None => vec![part("p").text(if has_readings(session) { NO_FIT } else { NOTHING_YET })],
    };
    part("section")
        .class("box")
        .set("aria-labelledby", "readings-say")
        .add(part("h2").set("id", "readings-say").text("What the readings say"))
        .when(move || differs(session).is_some(), move || drawing(session))
        .add(part("div").class("said").set("aria-live", "polite").live(body))
}

fn differs(session: Session) -> Option<[Differs; 2]> {
    let [chainstays, seatstays] = session.checked.get()?.differs?;
    Some(if session.settings.pick.get().pair == PairName::Chainstays { chainstays } else { seatstays })
}

/// The stays as they are, beside the plan.
fn drawing(session: Session) -> Part {
    sheet_beside(0.35, move || Some(Drawing::AsFound(session.settings.pick.get().pair, differs(session)?)))
}

fn has_readings(session: Session) -> bool {
    session.has_readings()
}

fn told(session: Session, found: &Found) -> Vec<Part> {
    let agreement = part("p").class(if found.contradicts { "stale" } else { "" }).text(&found.agreement);
    let results = part("ul").class("results").each(found.results.iter().map(result));
    let mends = part("ul").class("mends").each(found.mends.iter().map(|mend| part("li").text(mend)));
    let share =
        move || copy(session, &address::link_measured(session), "It holds the job and what you measured.");
    let mut parts = vec![agreement, results, button("Copy link with the readings", share)];
    if !found.mends.is_empty() {
        parts.push(part("h3").text("What mends it"));
        parts.push(mends);
    }
    if !found.habits.is_empty() {
        parts.push(part("h3").text("What this bench seems to do"));
        parts.push(part("ul").class("mends").each(found.habits.iter().map(|one| habit(session, one))));
    }
    parts
}

fn result(line: &ResultLine) -> Part {
    part("li")
        .class(&format!("result {}", line.verdict))
        .add(part("span").class("result-name").text(&line.name))
        .add(part("b").text(&line.value))
        .add(part("span").class("result-verdict").text(&line.words))
}

fn habit(session: Session, line: &HabitLine) -> Part {
    let learned = line.learned.clone();
    let keep = move || session.settings.bench.update(|bench| bench.learn(learned.clone()));
    part("li").add(part("span").text(&line.words)).add(button("Keep as a correction", keep))
}
