//! What works off the main thread, and the planner as a package for JavaScript: functions from text to text.

mod types;

use staywright::ask::Responder;
use staywright::drawing::svg::{EDGE, svg};
use staywright::drawing::{self, Viewport};
use staywright::model::Job;
use staywright::units::LengthUnit;
use std::cell::RefCell;
use wasm_bindgen::prelude::*;

/// A job file in, its plan out; both as JSON texts. Faults come back as `{"errors": […]}`.
#[wasm_bindgen(skip_typescript)]
pub fn plan(job: &JsValue) -> String {
    of_text(job, staywright::files::plan_json)
}

/// The job that a person starts with, as a JSON text.
#[wasm_bindgen(js_name = startingJob, skip_typescript)]
pub fn starting_job() -> String {
    staywright::model::starting_job().to_json().to_string()
}

/// What `answer` makes of a text. Nothing keeps a caller without types from handing in something else.
fn of_text(given: &JsValue, answer: impl Fn(&str) -> String) -> String {
    given.as_string().map_or_else(|| NO_TEXT.to_owned(), |text| answer(&text))
}

const NO_TEXT: &str = r#"{"errors":[{"field":"","value":null,"message":"a JSON text belongs here: a job is made one by JSON.stringify"}]}"#;

/// A question about a job's errors and its finished stays in, the answer out; both as JSON texts.
#[wasm_bindgen(skip_typescript)]
pub fn check(question: &JsValue) -> String {
    of_text(question, staywright::files::check_json)
}

/// Published worked examples of carrying errors, done again: a JSON list.
#[wasm_bindgen(skip_typescript)]
pub fn worked() -> String {
    staywright::files::worked_json()
}

/// A job's rear triangle from the drive side, as the text of an `svg` element that wide and at most that high, px. Empty for a
/// job with faults.
#[wasm_bindgen(js_name = sideView, skip_typescript)]
pub fn side_view(job: &JsValue, width: f64, most_high: f64) -> String {
    let text = job.as_string().unwrap_or_default();
    let planned = Job::from_json(&text).and_then(|job| staywright::placement::plan(&job));
    let viewport = Viewport {
        width: width - 2.0 * EDGE,
        height: most_high - 2.0 * EDGE,
        lettering: 16.0,
        unit: LengthUnit::Millimetre,
    };
    planned.map_or_else(|_| String::new(), |plan| svg(&drawing::side_view(&plan, viewport), width, most_high))
}

thread_local! {
    static RESPONDER: RefCell<Responder> = RefCell::default();
}

/// The page's own requests: bytes in, those of the response out. They mean what this version of the page means by them.
#[wasm_bindgen(skip_typescript)]
pub fn answer(question: &[u8]) -> Vec<u8> {
    RESPONDER.with_borrow_mut(|responder| responder.respond(question))
}
