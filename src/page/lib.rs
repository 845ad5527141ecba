//! The page of Staywright: what is entered, what follows from it, and how the browser shows it.
//!
//! Layers, lowest first: `session` (pure: signals and memos), `browser` (all of `web_sys`), `views`.

mod browser;
mod session;
mod types;
mod views;

use leptos::prelude::*;
use wasm_bindgen::prelude::*;

/// Puts the page in place of whatever `#app` holds.
#[wasm_bindgen]
pub fn start() {
    let Some(place) = browser::mount::place("app") else { return };
    mount_to(place, views::App).forget();
}

/// A job file in, its plan out; both as JSON texts. Faults come back as `{"errors": […]}`.
#[wasm_bindgen(skip_typescript)]
pub fn plan(job: &str) -> String {
    staywright::plan::plan_json(job)
}
