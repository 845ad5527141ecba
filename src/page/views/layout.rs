//! How a place is laid out: what is entered, and beside or below it what is looked at.

use super::stale::stale;
use crate::browser::part::{Part, part};

/// A place with its title; `view` are the classes of what is looked at.
pub fn place(title: &str, entry: Vec<Part>, view: &str, looked_at: Vec<Part>) -> Vec<Part> {
    vec![
        part("h1").class("hidden").text(title),
        part("div").class("entry").each(entry),
        part("div").class(view).add(stale()).each(looked_at),
    ]
}
