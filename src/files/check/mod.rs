//! Questions about a job's errors and its finished stays, and their answers, as JSON.

mod answer;
mod estimate;
mod request;

use crate::model::Fault;
use crate::tolerance::{Worked, WorkedFigure, worked_examples};
use request::Request;
use serde_json::{Value, json};

/// Draws of the published example that is done by drawing: as many as settle its figures.
const WORKED_RUNS: usize = 100_000;

/// A question's JSON text in, the answer's out; the manual lists the keys of both.
///
/// # Errors
/// All faults of the job, or the first of what is asked about it.
pub fn check(text: &str) -> Result<String, Vec<Fault>> {
    Ok(answer::answer(&Request::read(text)?).to_string())
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
