//! Undo and redo from the keyboard.

use super::travel;
use crate::session::Session;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, KeyboardEvent};

/// Listens from now on.
pub fn attach(session: Session) {
    window_event_listener(leptos::ev::keydown, move |event| {
        let Some(redo) = asked(&event) else { return };
        if in_a_text(&event) {
            return;
        }
        event.prevent_default();
        if redo { travel::redo(session) } else { travel::undo(session) }
    });
}

/// `Some(true)` for redo, `Some(false)` for undo.
fn asked(event: &KeyboardEvent) -> Option<bool> {
    if !(event.ctrl_key() || event.meta_key()) || event.alt_key() {
        return None;
    }
    match (event.key().to_ascii_lowercase().as_str(), event.shift_key()) {
        ("z", shift) => Some(shift),
        ("y", false) => Some(true),
        _ => None,
    }
}

/// Whether the keys go to a text that has its own undo: a figure that is being typed, a name, notes.
fn in_a_text(event: &KeyboardEvent) -> bool {
    let target = event.target().and_then(|target| target.dyn_into::<Element>().ok());
    target.is_some_and(|element| {
        element.matches("textarea, input[data-typing], input[data-text]").unwrap_or(false)
    })
}
