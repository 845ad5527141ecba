//! Dragging a mark of a drawing.

use super::after;
use leptos::leptos_dom::helpers::TimeoutHandle;
use leptos::prelude::*;
use std::time::Duration;
use wasm_bindgen::JsCast;
use web_sys::{Element, PointerEvent, SvgGraphicsElement};

/// Where the pointer is, in the drawing's own units.
pub fn place(event: &PointerEvent) -> Option<(f64, f64)> {
    let element: SvgGraphicsElement = event.current_target()?.dyn_into().ok()?;
    let screen = element.get_screen_ctm()?;
    // Drawings are scaled and moved, never turned.
    let (across, down) = (f64::from(screen.a()), f64::from(screen.d()));
    let x = (f64::from(event.client_x()) - f64::from(screen.e())) / across;
    let y = (f64::from(event.client_y()) - f64::from(screen.f())) / down;
    (x.is_finite() && y.is_finite()).then_some((x, y))
}

/// Keeps the pointer on the mark until it is let go, wherever it goes.
pub fn hold(event: &PointerEvent) {
    if let Some(element) = event.current_target().and_then(|target| target.dyn_into::<Element>().ok()) {
        let _ = element.set_pointer_capture(event.pointer_id());
    }
}

/// How long a finger rests on a handle until it has hold of it.
const REST: Duration = Duration::from_millis(250);

/// How far, in CSS px, a finger may slip while it rests.
const SLIP: f64 = 8.0;

/// How far a pointer has come to have hold of a handle. A mouse has it at once. A finger has it when it has rested there or is
/// pulled clearly sideways: a swipe that only begins on a handle scrolls the page and moves nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Hold {
    /// Nothing is on the handle, or what is there is about something else.
    None,
    /// A finger rests on it.
    Resting,
    /// It goes along with the pointer.
    Full,
}

/// The hold of one handle.
#[derive(Clone, Copy)]
pub struct Grasp {
    hold: RwSignal<Hold>,
    /// Where the pointer came down, in CSS px of the window.
    from: StoredValue<(f64, f64)>,
    wait: StoredValue<Option<TimeoutHandle>>,
}

impl Grasp {
    /// A handle that nothing is on.
    pub fn new() -> Self {
        let grasp = Self {
            hold: RwSignal::new(Hold::None),
            from: StoredValue::new((0.0, 0.0)),
            wait: StoredValue::new(None),
        };
        on_cleanup(move || grasp.stop_waiting());
        grasp
    }

    /// A pointer came down: `take` is done when it has hold of the handle.
    pub fn down(self, event: &PointerEvent, take: impl Fn() + 'static) {
        self.stop_waiting();
        self.from.set_value(client(event));
        if event.pointer_type() == "mouse" {
            self.hold.set(Hold::Full);
            return take();
        }
        self.hold.set(Hold::Resting);
        let rested = move || {
            self.hold.set(Hold::Full);
            take();
        };
        self.wait.set_value(set_timeout_with_handle(rested, REST).ok());
    }

    /// The pointer moved: whether the handle goes along. `take` is done if it has hold only now.
    pub fn moved(self, event: &PointerEvent, take: impl FnOnce()) -> bool {
        if self.hold.get_untracked() == Hold::Resting {
            let ((x, y), (from_x, from_y)) = (client(event), self.from.get_value());
            let (across, down) = ((x - from_x).abs(), (y - from_y).abs());
            if across.max(down) > SLIP {
                self.stop_waiting();
                let sideways = across > 2.0 * down;
                self.hold.set(if sideways { Hold::Full } else { Hold::None });
                if sideways {
                    take();
                }
            }
        }
        self.is_full()
    }

    /// The pointer is gone: whether it had hold of the handle.
    pub fn end(self) -> bool {
        self.stop_waiting();
        let had = self.is_full();
        self.hold.set(Hold::None);
        had
    }

    /// Whether the handle goes along with the pointer.
    pub fn is_full(self) -> bool {
        self.hold.get_untracked() == Hold::Full
    }

    /// The same for what follows it.
    pub fn shows(self) -> bool {
        self.hold.get() == Hold::Full
    }

    fn stop_waiting(self) {
        if let Some(Some(wait)) = self.wait.try_update_value(Option::take) {
            wait.clear();
        }
    }
}

fn client(event: &PointerEvent) -> (f64, f64) {
    (f64::from(event.client_x()), f64::from(event.client_y()))
}

/// Lets through what came last, once a frame.
#[derive(Clone, Copy)]
pub struct EachFrame<T: Send + Sync + 'static> {
    latest: StoredValue<Option<T>>,
}

impl<T: Send + Sync + 'static> EachFrame<T> {
    /// Nothing waits yet.
    pub fn new() -> Self {
        Self { latest: StoredValue::new(None) }
    }

    /// Drops what waits for the next frame.
    pub fn drop_latest(self) {
        self.latest.set_value(None);
    }

    /// Hands `value` to `act` before the next frame, unless another one comes first.
    pub fn offer(self, value: T, act: impl FnOnce(T) + 'static) {
        let waiting = self.latest.try_update_value(|latest| latest.replace(value).is_some()).unwrap_or(true);
        if !waiting {
            after::frame(move || {
                if let Some(Some(value)) = self.latest.try_update_value(Option::take) {
                    act(value);
                }
            });
        }
    }
}
