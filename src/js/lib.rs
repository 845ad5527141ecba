//! The planner as a package for JavaScript: one function, from job text to plan text.

mod types;

use wasm_bindgen::prelude::*;

/// A job file in, its plan out; both as JSON texts. Faults come back as `{"errors": […]}`.
#[wasm_bindgen(skip_typescript)]
pub fn plan(job: &str) -> String {
    staywright::plan::plan_json(job)
}
