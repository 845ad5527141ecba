//! A mark on whatever does not follow what was entered.

use crate::browser::part::{Part, part};
use crate::session::Session;

/// Names the fields that the last good plan does not follow; nothing while it follows all. Read out when that changes.
pub fn stale() -> Part {
    stale_too().set("role", "status")
}

/// The same where it is said once more.
pub fn stale_too() -> Part {
    let session = Session::here();
    let mark = move || {
        let names = session.not_followed();
        let words = format!("Not following: {}", names.join(", "));
        if names.is_empty() { Vec::new() } else { vec![part("p").text(&words)] }
    };
    part("div").class("stale").live(mark)
}
