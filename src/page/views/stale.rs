//! A mark on whatever does not follow what was entered.

use crate::browser::part::{Part, part};
use crate::session::Session;

/// Names the fields that the last good plan does not follow; nothing while it follows all.
pub fn stale() -> Part {
    let session = Session::here();
    let mark = move || {
        let names = session.not_followed();
        let words = format!("Not following: {}", names.join(", "));
        if names.is_empty() { Vec::new() } else { vec![part("p").class("stale").text(&words)] }
    };
    part("div").set("role", "status").live(mark)
}
