//! How far each setting of the bench can be off: the builder's own figures.

use super::number_field::number_field;
use crate::browser::part::{Part, part};
use crate::session::Session;
use crate::session::answer::{SettingLine, settings};
use crate::session::bench::{MOST, tell};
use leptos::prelude::*;
use staywright::quantity::{LengthUnit, read_angle, read_length, trimmed};

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
    session.answer.get().map(|answer| settings(&answer)).unwrap_or_default()
}

fn field(session: Session, id: &str) -> Part {
    let own = format!("spread-{}", id.replace('.', "-"));
    let id = StoredValue::new(id.to_owned());
    let say = move |what: fn(&SettingLine) -> String| {
        let lines = lines(session);
        id.with_value(|id| lines.iter().find(|line| line.id == *id).map(what)).unwrap_or_default()
    };
    let take = move |text: &str| {
        let read = if untrack(|| say(|line| line.unit.clone())) == "°" {
            read_angle(text).map(|figure| figure.value.degrees())
        } else {
            read_length(text, LengthUnit::Millimetre).map(|figure| figure.value.mm())
        };
        let Some(half) = read.ok().filter(|half| (0.0..=MOST).contains(half)) else { return false };
        id.with_value(|id| session.settings.bench.update(|bench| tell(&mut bench.spreads, id, half)));
        true
    };
    let label = move || say(|line| format!("{}, ± {}", line.name, line.unit));
    let value = move || say(|line| trimmed(line.half_width, 4));
    number_field(&own, label, value, take, "A figure from 0 to 100 is needed here.")
        .add(part("p").class("set-on").words(move || say(|line| line.source.clone())))
}
