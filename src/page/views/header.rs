//! The top of the page: the job, undo and redo, unit and theme.

use super::choice::choice;
use crate::browser::part::{Part, part};
use crate::browser::travel;
use crate::session::{Session, Theme};
use leptos::prelude::*;
use staywright::units::LengthUnit;

/// The top of the page.
pub fn header() -> Part {
    let session = Session::here();
    let undo = arrow("Undo", "↶")
        .follow_if("disabled", move || !session.can_undo())
        .on_click(move || travel::undo(session));
    let redo = arrow("Redo", "↷")
        .follow_if("disabled", move || !session.can_redo())
        .on_click(move || travel::redo(session));
    part("header")
        .class("top")
        .add(part("p").class("brand").text("Staywright"))
        .add(part("p").class("job-name").add(part("span").words(move || session.title())))
        .add(part("div").class("tools").add(undo).add(redo).add(unit()))
        .add(theme())
}

fn arrow(name: &str, sign: &str) -> Part {
    let sign = part("span").set("aria-hidden", "true").text(sign);
    part("button").set("type", "button").set("aria-label", name).add(sign)
}

fn unit() -> Part {
    let session = Session::here();
    let unit = session.settings.unit;
    let key = |unit| if unit == LengthUnit::Inch { "in" } else { "mm" };
    choice(
        "Unit of lengths",
        "unit",
        false,
        &[("mm", "mm"), ("in", "inch")],
        move || key(unit.get()).to_owned(),
        move |key| session.set_unit(if key == "in" { LengthUnit::Inch } else { LengthUnit::Millimetre }),
    )
}

fn theme() -> Part {
    let theme = Session::here().settings.theme;
    let options = Theme::ALL.map(|one| part("option").set("value", one.key()).text(one.name()));
    let menu =
        part("select").each(options).value(move || theme.get().key().to_owned()).on_change(move |key| {
            if let Some(chosen) = Theme::ALL.into_iter().find(|theme| theme.key() == key) {
                theme.set(chosen);
            }
        });
    part("label").class("theme").add(part("span").class("hidden").text("Theme")).add(menu)
}
