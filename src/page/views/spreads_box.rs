//! How far each setting of the bench can be off: the builder's own figures.

use crate::browser::part::{Part, part};
use crate::session::Session;
use crate::session::answer::{SettingLine, settings};
use crate::session::bench::{MOST, tell};
use leptos::prelude::*;
use staywright::quantity::{LengthUnit, read_angle, read_length, trimmed};

/// The list, folded.
pub fn spreads_box() -> Part {
    let session = Session::here();
    let lines = Memo::new(move |_| {
        session.answer.with(|answer| answer.as_ref().map(|answer| settings(answer)).unwrap_or_default())
    });
    let ids =
        move || lines.with(|lines| lines.iter().map(|line| line.id.as_str()).collect::<Vec<_>>().join("\n"));
    let fields = move |ids: &str| ids.lines().map(|id| field(session, id, lines)).collect();
    part("details")
        .class("box")
        .add(part("summary").add(part("h2").text("How far each setting can be off")))
        .add(part("p").text("Starting figures, in millimetres and degrees, to be replaced by your own: set the same figure ten times, measure each, and take the largest error."))
        .add(part("div").class("spreads").by(ids, fields))
}

fn field(session: Session, id: &str, lines: Memo<Vec<SettingLine>>) -> Part {
    let own = format!("spread-{}", id.replace('.', "-"));
    let id = StoredValue::new(id.to_owned());
    let say = move |what: fn(&SettingLine) -> String| {
        lines.with(|lines| id.with_value(|id| lines.iter().find(|line| line.id == *id).map(what)))
    };
    let bad = RwSignal::new(false);
    let take = move |text: String| {
        let is_angle = say(|line| line.unit.clone()).is_some_and(|unit| unit == "°");
        let read = if is_angle {
            read_angle(&text).ok().map(|figure| figure.value.degrees())
        } else {
            read_length(&text, LengthUnit::Millimetre).ok().map(|figure| figure.value.mm())
        };
        let half = read.filter(|half| (0.0..=MOST).contains(half));
        bad.set(half.is_none());
        if half.is_some() {
            id.with_value(|id| session.settings.bench.update(|bench| tell(&mut bench.spreads, id, half)));
        }
    };
    let fault_id = format!("{own}-fault");
    let input = part("input")
        .set("id", &own)
        .set("type", "text")
        .set("inputmode", "decimal")
        .set("autocomplete", "off")
        .set("data-text", "")
        .set("aria-describedby", &fault_id)
        .follow("aria-invalid", move || bad.get().then(|| "true".to_owned()))
        .value(move || say(|line| trimmed(line.half_width, 4)).unwrap_or_default())
        .on_change(take);
    let label = part("label")
        .set("for", &own)
        .words_if(move || say(|line| format!("{}, ± {}", line.name, line.unit)));
    let fault = part("p").class("fault").set("id", &fault_id).set("aria-live", "polite");
    part("div")
        .class("text-field")
        .add(label)
        .add(input)
        .add(part("p").class("set-on").words_if(move || say(|line| line.source.clone())))
        .add(fault.words_if(move || bad.get().then_some("A figure from 0 to 100 is needed here.")))
}
