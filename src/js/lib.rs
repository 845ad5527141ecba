//! The planner as a package for JavaScript: functions from text to text.

mod types;

use wasm_bindgen::prelude::*;

/// A job file in, its plan out; both as JSON texts. Faults come back as `{"errors": […]}`.
#[wasm_bindgen(skip_typescript)]
pub fn plan(job: &str) -> String {
    staywright::plan::plan_json(job)
}

/// A question about a job's errors and its finished stays in, the answer out; both as JSON texts.
#[wasm_bindgen(skip_typescript)]
pub fn check(question: &str) -> String {
    staywright::check::check_json(question)
}

/// Published worked examples of carrying errors, done again: a JSON list.
#[wasm_bindgen(skip_typescript)]
pub fn worked() -> String {
    staywright::check::worked_json()
}

/// The page's own questions: bytes in, bytes out. They mean what this version of the page means by them.
#[wasm_bindgen(skip_typescript)]
pub fn answer(question: &[u8]) -> Vec<u8> {
    staywright::ask::answer(question)
}
