//! The builder's own equipment, folded away until it is wanted.

use super::button::button;
use super::form::form_body;
use super::link_box::copy;
use crate::browser::part::{Part, part};
use crate::browser::{address, files, worker_client};
use crate::session::Session;
use crate::session::forms::FormState;
use leptos::prelude::*;
use staywright::ask::{Answer, Change, Question};

/// The box.
pub fn shop_box() -> Part {
    let session = Session::here();
    let shop = session.equipment.shop;
    part("details")
        .class("box shop")
        .add(part("summary").add(part("h2").text("This shop")))
        .add(form_body(shop, "shop"))
        .add(passing(session, shop))
}

/// Taking the last change back; the shop as a file.
fn passing(session: Session, shop: FormState) -> Part {
    let back = move || {
        if let Some(earlier) = shop.earlier.get_untracked() {
            shop.act(Change::Replace(earlier));
        }
    };
    let back = button("Take the last change back", back)
        .follow_if("disabled", move || shop.earlier.with(Option::is_none));
    let pick = part("input")
        .class("hidden")
        .set("type", "file")
        .set("accept", ".json,application/json")
        .on("change", move |event| open(session, shop, &event));
    part("div")
        .class("buttons")
        .add(back)
        .add(copy_link(session, shop))
        .add(button("Save shop file", move || save(session, shop)))
        .add(part("label").class("button").add(pick).text("Open shop file"))
}

/// The link of the job with this shop in it.
fn copy_link(session: Session, shop: FormState) -> Part {
    let share = move || match address::link_equipped(session) {
        Some(link) => copy(session, &link, "It holds the job and this shop."),
        None => session.say_bad("This shop is too large for a link: save it as a file instead."),
    };
    button("Copy link with this shop", share).follow_if("disabled", move || shop.bytes.with(Vec::is_empty))
}

fn save(session: Session, shop: FormState) {
    worker_client::ask(Question::SaveShop(shop.bytes.get_untracked()), move |answer| {
        let saved = match answer {
            Some(Answer::Saved(text)) => {
                files::save("shop.staywright.json", "application/json", &text).is_ok()
            }
            _ => false,
        };
        if !saved {
            session.say_bad("The shop could not be saved.");
        }
    });
}

fn open(session: Session, shop: FormState, event: &leptos::ev::Event) {
    files::read_chosen(&event_target(event), move |text| match text {
        Ok(text) => shop.act(Change::File(text)),
        Err(why) => session.say_bad(format!("The shop file was not opened: {why}. Nothing was changed.")),
    });
}
