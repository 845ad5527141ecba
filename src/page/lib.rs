//! The page of Staywright: what is entered, what follows from it, and how the browser shows it.
//!
//! Layers, lowest first: `session` (pure: signals and memos), `browser` (all of `web_sys`), `views` (elements put together at run
//! time), `ui` (components, each of which may hold such elements).

mod browser;
mod session;
mod ui;
mod views;

use wasm_bindgen::prelude::*;

/// Puts the page in place of whatever `#app` holds.
#[wasm_bindgen]
pub fn start() {
    browser::mount::mount("app", ui::App);
}
