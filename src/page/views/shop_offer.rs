//! What to do with a shop that came with a link.

use super::button::button;
use crate::browser::part::{Part, part};
use crate::session::Session;
use leptos::prelude::*;
use staywright::ask::Change;

const WORDS: &str = "This link brings a shop: cutters, fixture and mill. Yours stays until you take the other one, and can be brought \
                     back in “This shop”.";

/// The question; nothing while there is none.
pub fn shop_offer() -> Part {
    let session = Session::here();
    let offered = session.equipment.offered;
    let take = move || {
        if let Some(bytes) = offered.get_untracked() {
            session.equipment.shop.act(Change::Replace(bytes));
        }
        offered.set(None);
    };
    let question = move || {
        let buttons = part("div")
            .class("buttons")
            .add(button("Take the link's shop", take))
            .add(button("Keep mine", move || offered.set(None)));
        part("div").class("notice").add(part("p").text(WORDS)).add(buttons)
    };
    part("div").class("notices").set("role", "status").when(move || offered.with(Option::is_some), question)
}
