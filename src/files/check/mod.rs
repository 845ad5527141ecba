//! Questions about a job's errors and its finished stays, and their answers, as JSON.

mod answer;
mod estimate;
mod request;

use crate::tolerance::{Worked, WorkedFigure, worked_examples};
use request::Request;
use serde_json::{Value, json};

/// Draws of the published example that is done by drawing: as many as settle its figures.
const WORKED_RUNS: usize = 100_000;

/// A question's text in, the answer's text out; the README lists the keys of both. A faulty question gives
/// `{"errors": [{"field", "value", "message"}]}`.
pub fn check_json(text: &str) -> String {
    match Request::read(text) {
        Ok(request) => answer::answer(&request).to_string(),
        Err(faults) => json!({ "errors": faults }).to_string(),
    }
}

/// The self-check: published worked examples, done again by the engine that answers here.
pub fn worked_json() -> String {
    let example = |worked: &Worked| {
        let figure = |one: &WorkedFigure| json!({ "what": one.what, "published": one.published, "found": one.found, "agrees": one.agrees() });
        let figures: Vec<Value> = worked.figures.iter().map(figure).collect();
        json!({ "name": worked.name, "source": worked.source, "figures": figures })
    };
    let examples: Vec<Value> = worked_examples(WORKED_RUNS, 1).iter().map(example).collect();
    Value::from(examples).to_string()
}
