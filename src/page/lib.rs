//! The page of Staywright: what is entered, what follows from it, and how the browser shows it.
//!
//! Layers, lowest first: `session` (pure: signals and memos), `browser` (all of `web_sys`), `views`.

mod browser;
mod session;
mod views;

use wasm_bindgen::prelude::*;

/// Puts the page in place of whatever `#app` holds.
#[wasm_bindgen]
pub fn start() {
    browser::mount::mount("app", views::app);
}
