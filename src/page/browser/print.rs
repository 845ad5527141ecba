//! Printing the set-up card.

use super::after;
use crate::session::{Card, Session};
use leptos::prelude::*;

/// Prints the card once it is wanted and whole, and lays it out whenever the browser prints of its own accord.
pub fn attach(session: Session) {
    window_event_listener_untyped("beforeprint", move |_| session.card.set(Card::LaidOut));
    window_event_listener_untyped("afterprint", move |_| session.card.set(Card::Away));
    after::follow(move |_| {
        if session.card.get() == Card::Wanted && session.card_is_whole() {
            session.card.set(Card::LaidOut);
            after::paint(move || {
                // What was entered while it was laid out is waited for, too.
                if untrack(|| session.card_is_whole()) {
                    let _ = window().print();
                } else {
                    session.card.set(Card::Wanted);
                }
            });
        }
    });
}
