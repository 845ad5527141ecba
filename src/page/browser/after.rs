//! What is done once the page stands.

use leptos::prelude::*;
use std::cell::RefCell;
use std::thread::LocalKey;
use std::time::Duration;

/// Does `act` once the page stands, and again whenever a signal that it reads has changed. It is told whether this is
/// the first time.
pub fn follow(act: impl FnMut(bool) + 'static) {
    follow_boxed(Box::new(act));
}

fn follow_boxed(mut act: Box<dyn FnMut(bool)>) {
    Effect::new(move |last: Option<()>| act(last.is_none()));
}

/// The same for what nobody looks at: when a signal has changed, `act` waits until the frame that shows the change is painted.
pub fn follow_painted(act: impl FnMut(bool) + 'static) {
    follow_painted_boxed(Box::new(act));
}

fn follow_painted_boxed(mut act: Box<dyn FnMut(bool)>) {
    let due = RwSignal::new(false);
    // Says whether it waits. While it does, it follows nothing but the end of its waiting.
    Effect::new(move |waits: Option<bool>| {
        due.track();
        if waits == Some(false) {
            soon(move || {
                due.try_set(true);
            });
            return true;
        }
        act(waits.is_none());
        false
    });
}

/// What waits to be done at one stroke.
type Waiting = RefCell<Vec<Box<dyn FnOnce()>>>;

thread_local! {
    static FOR_FRAME: Waiting = const { RefCell::new(Vec::new()) };
    static FOR_PAINT: Waiting = const { RefCell::new(Vec::new()) };
}

/// Puts `act` to what waits; whether it is the first.
fn wait(place: &'static LocalKey<Waiting>, act: impl FnOnce() + 'static) -> bool {
    place.with_borrow_mut(|waiting| {
        waiting.push(Box::new(act));
        waiting.len() == 1
    })
}

/// Does all that waits.
fn go(place: &'static LocalKey<Waiting>) {
    place.take().into_iter().for_each(|act| act());
}

/// Does `act` before the next frame, at one stroke with all else that waits for it: whatever follows is worked out once.
pub fn frame(act: impl FnOnce() + 'static) {
    if wait(&FOR_FRAME, act) {
        request_animation_frame(|| {
            go(&FOR_FRAME);
            // What follows from it is painted with it, and waits for that no longer.
            set_timeout(|| go(&FOR_PAINT), Duration::ZERO);
        });
    }
}

/// Does `act` once the next frame is painted, with all else that waits for that.
fn soon(act: impl FnOnce() + 'static) {
    if wait(&FOR_PAINT, act) {
        frame(|| {});
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

/// Does `act` when what is being made now goes; until then it keeps what it holds.
pub fn gone(act: impl FnOnce() + 'static) {
    gone_boxed(Box::new(act));
}

fn gone_boxed(act: Box<dyn FnOnce()>) {
    let kept = StoredValue::new_local(Some(act));
    on_cleanup(move || {
        if let Some(act) = kept.try_update_value(Option::take).flatten() {
            act();
        }
    });
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
