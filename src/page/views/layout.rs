//! How a place is laid out: what is entered, and beside or below it what is looked at.

use super::stale::{stale, stale_too};
use crate::browser::part::{Part, part};
use crate::session::Answered;

/// A place whose entry comes first.
pub fn place(title: &str, entry: Vec<Part>, looked_at: Vec<Part>) -> Vec<Part> {
    let looked_at = part("div").class("view after").add(stale_too()).each(looked_at);
    vec![heading(title), part("div").class("entry").add(stale()).each(entry), looked_at]
}

/// A place whose drawing comes first: on a page that is just opening, nothing else holds it up.
pub fn drawn_place(title: &str, entry: impl Fn() -> Vec<Part> + 'static, looked_at: Vec<Part>) -> Vec<Part> {
    let looked_at = part("div").class("view").add(stale()).each(looked_at);
    vec![heading(title), part("div").class("entry").once_painted(entry), looked_at]
}

/// Hides what stands in `part` while it is no answer to what would be asked now: its place is kept, its words are not shown.
pub fn until_answered<K, T>(part: Part, answered: Answered<K, T>) -> Part
where
    K: PartialEq + Send + Sync + 'static,
    T: Send + Sync + 'static,
{
    until(part, Box::new(move || answered.is_behind()))
}

fn until(part: Part, behind: Box<dyn Fn() -> bool>) -> Part {
    let behind = std::rc::Rc::new(behind);
    let busy = behind.clone();
    part.toggle("behind", move || behind()).follow("aria-busy", move || busy().then(|| "true".to_owned()))
}

fn heading(title: &str) -> Part {
    part("h1").class("hidden").text(title)
}
