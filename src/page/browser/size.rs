//! How wide a part of the page is.

use super::after;
use super::part::Part;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Element, ResizeObserver};

/// The width of `part` in px, followed as long as its owner is there; 0 until it is known.
pub fn width(part: &Part) -> ReadSignal<f64> {
    let width = RwSignal::new(0.0);
    let element = StoredValue::new_local(part.element());
    // An effect runs once the part stands in the page.
    after::follow(move |_| {
        if let Some(element) = element.try_get_value() {
            follow(element, width);
        }
    });
    width.read_only()
}

fn follow(element: Element, width: RwSignal<f64>) {
    let measured = element.clone();
    let measure = move || {
        let now = measured.get_bounding_client_rect().width();
        if width.try_get_untracked().is_some_and(|last| last != now) {
            let _ = width.try_set(now);
        }
    };
    measure();
    let watch = Closure::<dyn Fn()>::new(measure);
    let Ok(observer) = ResizeObserver::new(watch.as_ref().unchecked_ref()) else { return };
    observer.observe(&element);
    after::gone(move || {
        observer.disconnect();
        drop(watch);
    });
}

/// The height of the window, in px, as it is now. Asking makes the browser lay the page out.
pub fn window_height() -> f64 {
    window().inner_height().ok().and_then(|high| high.as_f64()).unwrap_or(800.0)
}

/// The width of the window, in px, as it is now.
pub fn window_width() -> f64 {
    window().inner_width().ok().and_then(|wide| wide.as_f64()).unwrap_or(400.0)
}

/// The height of the window, followed until the caller's owner goes.
pub fn height() -> ReadSignal<f64> {
    let height = RwSignal::new(window_height());
    let listener = window_event_listener_untyped("resize", move |_| height.set(window_height()));
    on_cleanup(move || listener.remove());
    height.read_only()
}
