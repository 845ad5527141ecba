//! JSON in, JSON out.

use super::check::check;
use super::{faults_text, plan_text};
use crate::clearance::clearances;
use crate::model::{Fault, Job, Wrong};
use crate::placement::plan;
use serde::Serialize;
use serde_json::json;

/// A job file's text in, the plan's JSON text out. A faulty job gives `{"errors": [{"field", "value", "message"}]}`.
pub fn plan_json(text: &str) -> String {
    answer(
        Job::from_json(text)
            .and_then(|job| plan(&job))
            .and_then(|plan| plan_text(&plan).map_err(not_written)),
    )
}

/// A job file's text in, the clearances' JSON text out: `{"rooms": […]}`. A faulty job gives its faults.
pub fn rooms_json(text: &str) -> String {
    let planned = Job::from_json(text).and_then(|job| plan(&job));
    answer(planned.and_then(|plan| written(&json!({ "rooms": clearances(&plan) }))))
}

/// A question about errors and finished stays in, its answer out; the manual lists the keys of both. A faulty question gives its
/// faults.
pub fn check_json(text: &str) -> String {
    answer(check(text))
}

fn answer(answer: Result<String, Vec<Fault>>) -> String {
    answer.unwrap_or_else(|faults| faults_text(&faults))
}

fn written(value: &impl Serialize) -> Result<String, Vec<Fault>> {
    serde_json::to_string(value).map_err(not_written)
}

fn not_written(error: serde_json::Error) -> Vec<Fault> {
    vec![Fault::new("", (), Wrong::NotWritten(error.to_string()))]
}
