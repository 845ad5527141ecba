//! How wide a part of the page is.

use leptos::html::Div;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Element, ResizeObserver};

/// The width of `node` in px, followed as long as it is there; 0 until it is known.
pub fn width(node: NodeRef<Div>) -> ReadSignal<f64> {
    let width = RwSignal::new(0.0);
    Effect::new(move |_| {
        let Some(element) = node.get() else { return };
        let element: Element = element.unchecked_into();
        let measured = element.clone();
        let measure = move || {
            let _ = width.try_set(measured.get_bounding_client_rect().width());
        };
        measure();
        let watch = Closure::<dyn Fn()>::new(measure);
        let Ok(observer) = ResizeObserver::new(watch.as_ref().unchecked_ref()) else { return };
        observer.observe(&element);
        let kept = StoredValue::new_local((observer, watch));
        on_cleanup(move || {
            if let Some((observer, _)) = kept.try_update_value(|kept| (kept.0.clone(), ())) {
                observer.disconnect();
            }
        });
    });
    width.read_only()
}

/// The height of the window, in px, as it is now. Asking makes the browser lay the page out.
pub fn window_height() -> f64 {
    window().inner_height().ok().and_then(|high| high.as_f64()).unwrap_or(800.0)
}

/// The height of the window, followed until the caller's owner goes.
pub fn height() -> ReadSignal<f64> {
    let height = RwSignal::new(window_height());
    let listener = window_event_listener_untyped("resize", move |_| height.set(window_height()));
    on_cleanup(move || listener.remove());
    height.read_only()
}
