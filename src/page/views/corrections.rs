//! The builder's own corrections of the bench: kept from finished pairs, for the next one.

use super::button::button;
use crate::browser::part::{Part, part};
use crate::session::Session;
use crate::session::answer::correction;
use crate::session::bench::tell;
use leptos::prelude::*;
use staywright::check::Place;

/// The list; nothing while there are none.
pub fn corrections() -> Part {
    let session = Session::here();
    let list = move || {
        let unit = session.settings.unit.get();
        let learned = session.settings.bench.with(|bench| bench.learned.clone());
        let known = learned.into_iter().filter_map(|(id, off)| Some((Place::from_id(&id)?, id, off)));
        let items: Vec<Part> = known
            .map(|(place, id, off)| {
                let words = correction(&place.name(), off, place.kind.unit(), unit);
                let drop = move || session.settings.bench.update(|bench| tell(&mut bench.learned, &id, None));
                part("li").add(part("span").text(&words)).add(button("Remove", drop))
            })
            .collect();
        let title = part("h2").text("Corrections of this bench");
        if items.is_empty() { items } else { vec![title, part("ul").class("mends").each(items)] }
    };
    part("section").class("corrections").live(list)
}
