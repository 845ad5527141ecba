//! The planner as a package for JavaScript: functions from text to text.

mod types;

use staywright::drawing::{self, Room};
use staywright::export::{EDGE, svg};
use staywright::quantity::LengthUnit;
use staywright::trade::Job;
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

/// A job's rear triangle from the drive side, as the text of an `svg` element that wide and at most that high, px. Empty for a
/// job with faults.
#[wasm_bindgen(js_name = sideView, skip_typescript)]
pub fn side_view(job: &str, width: f64, most_high: f64) -> String {
    let planned = Job::from_json(job).and_then(|job| staywright::plan::plan(&job));
    let room = Room {
        width: width - 2.0 * EDGE,
        height: most_high - 2.0 * EDGE,
        lettering: 16.0,
        unit: LengthUnit::Millimetre,
    };
    planned.map_or_else(|_| String::new(), |plan| svg(&drawing::side_view(&plan, room), width, most_high))
}

/// The page's own questions: bytes in, bytes out. They mean what this version of the page means by them.
#[wasm_bindgen(skip_typescript)]
pub fn answer(question: &[u8]) -> Vec<u8> {
    staywright::ask::answer(question)
}
