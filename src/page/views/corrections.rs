//! The builder's own corrections of the bench: kept from finished pairs, for the next one.

use super::button::button;
use crate::browser::part::{Part, part};
use crate::session::Session;
use leptos::prelude::*;
use staywright::ask::Learned;
use staywright::units::{LengthUnit, show};

/// The list; nothing while there are none.
pub fn corrections() -> Part {
    let session = Session::here();
    let list = move || {
        let unit = session.settings.unit.get();
        let learned = session.settings.bench.with(|bench| bench.learned.clone());
        let item = |known: Learned| {
            let words = correction(&known, unit);
            let forget = move || session.settings.bench.update(|bench| bench.forget(&known.id));
            part("li").add(part("span").text(&words)).add(button("Remove", forget))
        };
        let items: Vec<Part> = learned.into_iter().map(item).collect();
        let title = part("h2").text("Corrections of this bench");
        if items.is_empty() { items } else { vec![title, part("ul").class("mends").each(items)] }
    };
    part("section").class("corrections").live(list)
}

/// What the builder has kept of the bench, in words: `Slide, chainstays: set it 0.3 mm less than the page tells`.
fn correction(Learned { name, is_angle, off, .. }: &Learned, unit: LengthUnit) -> String {
    let way = if *off < 0.0 { "more" } else { "less" };
    format!("{name}: set it {} {way} than the page tells", show::fine(off.abs(), *is_angle, unit))
}
