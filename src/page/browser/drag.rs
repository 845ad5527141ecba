//! Dragging a mark of a drawing.

use super::after;
use leptos::prelude::*;
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
