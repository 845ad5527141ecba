//! Undo and redo as moves through the browser's history, one after the other.
//!
//! A move takes the browser a while, and a change of the address meanwhile may call it off. So the next move and every entry
//! wait until it has arrived.

use super::address;
use crate::session::{Moves, Session};
use leptos::prelude::*;
use std::cell::RefCell;
use std::time::Duration;

/// Time in which even a busy browser has gone to another entry of its history, if there is one.
const ARRIVAL: Duration = Duration::from_millis(800);

thread_local! {
    static MOVES: RefCell<Moves> = RefCell::new(Moves::default());
}

/// Takes the last edit back.
pub fn undo(session: Session) {
    MOVES.with_borrow_mut(|moves| moves.ask(false));
    go_on(session);
}

/// Brings what was undone again.
pub fn redo(session: Session) {
    MOVES.with_borrow_mut(|moves| moves.ask(true));
    go_on(session);
}

/// Whether the browser is on its way to another entry.
pub fn is_under_way() -> bool {
    MOVES.with_borrow(Moves::is_under_way)
}

/// The browser stands at entry `number`: what has waited for that goes on.
pub fn arrived(session: Session, number: u32) {
    MOVES.with_borrow_mut(|moves| moves.arrive(number));
    go_on(session);
}

/// A state is written behind entry `number`.
pub fn goes_on_from(number: u32) {
    MOVES.with_borrow_mut(|moves| moves.go_on_from(number));
}

fn go_on(session: Session) {
    while let Some(on) = MOVES.with_borrow_mut(Moves::next) {
        set_out(session, on);
    }
}

/// Goes one entry back or on, where there is something to undo or redo. Browsers keep only so many entries (fifty are common):
/// where none is left, the session's own memory takes over.
fn set_out(session: Session, on: bool) {
    let possible =
        untrack(|| if on { session.can_redo() } else { !session.take_back() && session.can_undo() });
    if !possible {
        return;
    }
    let from = session.at();
    if MOVES.with_borrow(|moves| moves.has_no_entry(from, on)) {
        return from_memory(session, on);
    }
    let number = MOVES.with_borrow_mut(Moves::set_out);
    if let Ok(history) = window().history() {
        let _ = history.go_with_delta(if on { 1 } else { -1 });
    }
    let give_up = move || {
        if MOVES.with_borrow_mut(|moves| moves.give_up(number, from, on)) {
            from_memory(session, on);
            go_on(session);
        }
    };
    set_timeout(give_up, ARRIVAL);
}

fn from_memory(session: Session, on: bool) {
    if session.remember(on) {
        address::rewrite(session);
    }
}
