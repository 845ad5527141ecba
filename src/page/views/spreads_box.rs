//! How far each setting of the bench can be off: the builder's own figures.

use super::number_field::number_field;
use crate::browser::part::{Part, part};
use crate::session::Session;
use leptos::prelude::*;
use staywright::ask::{Bench, SettingLine};
use staywright::units::{LengthUnit, read_angle, read_length, trimmed};

/// The list, folded.
pub fn spreads_box() -> Part {
    let session = Session::here();
    let ids = move || lines(session).iter().map(|line| line.id.as_str()).collect::<Vec<_>>().join("\n");
    let fields = move |ids: &str| ids.lines().map(|id| field(session, id)).collect();
    part("details")
        .class("box")
        .add(part("summary").add(part("h2").text("How far each setting can be off")))
        .add(part("p").text(
            "Starting figures, in millimetres and degrees, to be replaced by your own: set the same figure ten times, \
             measure each, and take the largest error.",
        ))
        .add(part("div").class("spreads").by(ids, fields))
}

fn lines(session: Session) -> Vec<SettingLine> {
    session.checked.get().map(|checked| checked.settings.clone()).unwrap_or_default()
}

fn field(session: Session, id: &str) -> Part {
    let own = format!("spread-{}", id.replace('.', "-"));
    let id = StoredValue::new(id.to_owned());
    let line = move || id.with_value(|id| lines(session).into_iter().find(|line| line.id == *id));
    let say = move |what: fn(SettingLine) -> String| line().map(what).unwrap_or_default();
    let take = move |text: &str| {
        let read = if untrack(line).is_some_and(|line| line.is_angle) {
            read_angle(text).map(|figure| figure.value.degrees())
        } else {
            read_length(text, LengthUnit::Millimetre).map(|figure| figure.value.mm())
        };
        let Some(half) = read.ok().filter(|half| (0.0..=Bench::MOST).contains(half)) else { return false };
        id.with_value(|id| session.settings.bench.update(|bench| bench.spread(id, half)));
        true
    };
    let label = move || say(|line| format!("{}, ± {}", line.name, if line.is_angle { "°" } else { "mm" }));
    let value = move || say(|line| trimmed(line.half_width, 4));
    number_field(&own, label, value, take, "A figure from 0 to 100 is needed here.")
        .add(part("p").class("set-on").words(move || say(|line| line.source)))
}
