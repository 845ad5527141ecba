//! Whether a part of the page can be seen.

use super::after;
use super::part::Part;
use js_sys::Array;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Element, IntersectionObserver, IntersectionObserverEntry};

/// Whether any of `part` lies in the window, followed as long as its owner is there; true until it is known.
pub fn in_sight(part: &Part) -> ReadSignal<bool> {
    let seen = RwSignal::new(true);
    let element = StoredValue::new_local(part.element());
    after::follow(move |_| {
        if let Some(element) = element.try_get_value() {
            watch(&element, seen);
        }
    });
    seen.read_only()
}

fn watch(element: &Element, seen: RwSignal<bool>) {
    let note = Closure::<dyn Fn(Array)>::new(move |entries: Array| {
        // Where several came at once, the last tells how it is now.
        let now = entries.pop().unchecked_into::<IntersectionObserverEntry>().is_intersecting();
        if seen.try_get_untracked().is_some_and(|last| last != now) {
            seen.set(now);
        }
    });
    let Ok(observer) = IntersectionObserver::new(note.as_ref().unchecked_ref()) else { return };
    observer.observe(element);
    after::gone(move || {
        observer.disconnect();
        drop(note);
    });
}
