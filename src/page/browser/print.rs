//! Printing.

use leptos::prelude::*;

/// Opens the browser's print dialogue.
pub fn print() {
    let _ = window().print();
}

/// True while the page is being printed or shown as it will print.
pub fn printing() -> ReadSignal<bool> {
    let printing = RwSignal::new(false);
    window_event_listener_untyped("beforeprint", move |_| printing.set(true));
    window_event_listener_untyped("afterprint", move |_| printing.set(false));
    printing.read_only()
}
