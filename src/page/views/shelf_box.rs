//! The builder's shelf of tubes.

use super::button::button;
use super::tube_box::TubeSpot;
use crate::browser::part::{Part, part};
use crate::session::{Session, shelf};
use leptos::prelude::*;
use staywright::model::{Hand, PairName};

/// Puts tubes on the shelf, and from the shelf into this side.
pub fn shelf_box(pair: PairName, hand: Hand) -> Part {
    let spot = TubeSpot { session: Session::here(), pair, hand };
    let shelf = spot.session.settings.shelf;
    let names =
        move || shelf.with(|shelf| shelf.tubes().map(|(name, _)| name).collect::<Vec<_>>().join("\n"));
    let own = move |names: &str| {
        names.lines().enumerate().map(|(index, name)| shelved(spot, index, name)).collect()
    };
    let starting = move || {
        let starting = spot.session.room.starting.now().get();
        starting
            .iter()
            .flat_map(|starting| &starting.tubes)
            .map(|line| start(spot, &line.name, &line.tube))
            .collect()
    };
    let fresh = part("details")
        .class("more")
        .add(part("summary").text("Usual sizes, to be measured"))
        .add(part("p").text("Common practice, no source: measure yours before you cut."))
        .add(part("ul").class("mends").live(starting));
    part("details")
        .class("box shelf")
        .add(part("summary").add(part("h2").text("Shelf of tubes")))
        .add(put_form(spot))
        .add(part("ul").class("mends").set("aria-label", "Tubes on the shelf").by(names, own))
        .add(fresh)
}

/// Names this side's tube and puts it on the shelf.
fn put_form(spot: TubeSpot) -> Part {
    let Session { settings, .. } = spot.session;
    let text = RwSignal::new(String::new());
    let put = move |event: leptos::ev::Event| {
        event.prevent_default();
        let name = text.get_untracked();
        if name.trim().is_empty() {
            return;
        }
        let tube = untrack(|| spot.with(|tube| *tube));
        settings.shelf.update(|shelf| shelf.put(&name, tube));
        text.set(String::new());
        spot.session.say(format!("“{}” is on the shelf of this device.", name.trim()));
    };
    let input = part("input")
        .set("id", "shelf-name")
        .set("type", "text")
        .set("data-text", "")
        .set("autocomplete", "off")
        .value(move || text.get())
        .on_input(move |typed| text.set(typed));
    let full = move || text.with(|text| text.trim().is_empty()) || settings.shelf.with(shelf::Shelf::is_full);
    let submit =
        part("button").set("type", "submit").follow_if("disabled", full).text("Put this tube on my shelf");
    part("form")
        .class("text-field")
        .on("submit", put)
        .add(part("label").set("for", "shelf-name").text("Name of this tube"))
        .add(part("div").class("with-button").add(input).add(submit))
}

fn put_in(spot: TubeSpot, text: &str) {
    if let Some((name, tube)) = shelf::read(text) {
        spot.change(|side| *side = tube);
        spot.session.say(format!("“{name}” is put in. Undo brings back what was here."));
    }
}

fn start(spot: TubeSpot, name: &str, text: &str) -> Part {
    let text = text.to_owned();
    part("li")
        .add(part("span").text(name))
        .add(button("Put in", move || put_in(spot, &text)).set("aria-label", &format!("Put in {name}")))
}

/// One tube of the shelf: its name is a field.
fn shelved(spot: TubeSpot, index: usize, name: &str) -> Part {
    let shelf = spot.session.settings.shelf;
    let shown = name.to_owned();
    let rename = move |typed: String| {
        if !typed.trim().is_empty() {
            shelf.update(|shelf| shelf.rename(index, &typed));
        }
    };
    let field = part("input")
        .set("type", "text")
        .set("data-text", "")
        .set("autocomplete", "off")
        .set("aria-label", &format!("Name of {name}"))
        .value(move || shown.clone())
        .on_change(rename);
    let put = move || {
        if let Some((name, tube)) = shelf.with_untracked(|shelf| shelf.tubes().nth(index)) {
            put_in(spot, &shelf::written(&name, tube));
        }
    };
    let remove = move || shelf.update(|shelf| shelf.remove(index));
    part("li")
        .add(field)
        .add(button("Put in", put).set("aria-label", &format!("Put in {name}")))
        .add(button("Remove", remove).set("aria-label", &format!("Remove {name} from the shelf")))
}
