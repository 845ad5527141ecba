//! What is done once the page stands.

use leptos::prelude::*;
use std::cell::RefCell;
use std::time::Duration;

/// Does `act` once the page stands, and again whenever a signal that it reads has changed. It is told whether this is
/// the first time.
pub fn follow(act: impl FnMut(bool) + 'static) {
    follow_boxed(Box::new(act));
}

fn follow_boxed(mut act: Box<dyn FnMut(bool)>) {
    Effect::new(move |last: Option<()>| act(last.is_none()));
}

/// What waits for the next frame.
type Waiting = Vec<Box<dyn FnOnce()>>;

thread_local! {
    static WAITING: RefCell<Waiting> = const { RefCell::new(Vec::new()) };
}

/// Does `act` before the next frame, at one stroke with all else that waits for it: whatever follows is worked out once.
pub fn frame(act: impl FnOnce() + 'static) {
    let is_first = WAITING.with_borrow_mut(|waiting| {
        waiting.push(Box::new(act));
        waiting.len() == 1
    });
    if is_first {
        request_animation_frame(|| WAITING.take().into_iter().for_each(|act| act()));
    }
}

/// Does `act` when the page has been painted: for what nobody waits for.
pub fn paint(act: impl FnOnce() + 'static) {
    // The first frame is made now; when the second is asked for, the first is on the screen.
    request_animation_frame(move || request_animation_frame(act));
}

/// Does `act` after the first paint, as if it were done now: what it makes lives as long as what is being made now.
pub fn idle(act: impl FnOnce() + 'static) {
    let owner = Owner::current().unwrap_or_default();
    paint(move || set_timeout(move || owner.with(act), Duration::ZERO));
}

/// Whether the page has been painted since it was opened.
#[derive(Clone, Copy)]
struct Painted(RwSignal<bool>);

/// Notes the page's first paint, for [`painted`] below the caller.
pub fn note_first_paint() {
    let painted = RwSignal::new(false);
    provide_context(Painted(painted));
    paint(move || painted.set(true));
}

/// Whether the page has been painted since it was opened.
pub fn painted() -> ReadSignal<bool> {
    use_context::<Painted>().map_or_else(|| RwSignal::new(true), |painted| painted.0).read_only()
}
