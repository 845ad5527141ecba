//! What is done once the page stands.

use leptos::prelude::*;
use std::time::Duration;

/// Does `act` once the page stands, and again whenever a signal that it reads has changed. It is told whether this is
/// the first time.
pub fn follow(act: impl FnMut(bool) + 'static) {
    follow_boxed(Box::new(act));
}

fn follow_boxed(mut act: Box<dyn FnMut(bool)>) {
    Effect::new(move |last: Option<()>| act(last.is_none()));
}

/// Does `act` when the page has been painted: for what nobody waits for.
pub fn paint(act: impl FnOnce() + 'static) {
    request_animation_frame(move || set_timeout(act, Duration::ZERO));
}
