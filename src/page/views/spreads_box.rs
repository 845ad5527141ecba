//! How far each setting of the bench can be off: the builder's own figures.

use super::number_field::{NumberField, number_field};
use crate::browser::part::{Part, part};
use crate::session::Session;
use crate::session::checks::own_figure;
use leptos::prelude::*;
use staywright::ask::SettingLine;

/// The list, folded.
pub fn spreads_box() -> Part {
    let session = Session::here();
    let ids = move || lines(session).iter().map(|line| line.id.as_str()).collect::<Vec<_>>().join("\n");
    let fields = move |ids: &str| ids.lines().map(|id| field(session, id)).collect();
    part("details")
        .class("box")
        .add(part("summary").add(part("h2").text("How far each setting can be off")))
        .add(part("p").text(
            "Starting figures, to be replaced by your own: set the same figure ten times, \
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
    let bench = session.settings.bench;
    let line = move || id.with_value(|id| lines(session).into_iter().find(|line| line.id == *id));
    let told = move || id.with_value(|id| bench.with(|bench| bench.spread_of(id)));
    let field = NumberField {
        spec: Box::new(move || Some(own_figure("largest error", line()?.is_angle))),
        label: Box::new(move || line().map_or_else(String::new, |line| format!("{}, ±", line.name))),
        value: Box::new(move || told().or_else(|| Some(line()?.half_width))),
        take: Box::new(move |half| id.with_value(|id| bench.update(|bench| bench.spread(id, half)))),
    };
    let source = part("p").class("set-on").words_if(move || Some(line()?.source));
    number_field(&own, field).add(source)
}
