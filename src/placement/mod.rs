//! Where bent tubes lie: the search for the placement that leaves the most clearance, and the plan with it.

mod bound;
mod evaluate;
mod motion;
mod search;

use crate::clearance::clearances;
use crate::model::{Fault, Job, PairName};
use crate::plan::{Placements, Plan, faults, solve_placed};
use crate::units::Real;
use search::most_room;
use serde_json::{Value, json};

/// Searches a placement for every tube of the job that leaves it open. The job must be without [`faults`].
pub fn search<T: Real>(job: &Job<T>) -> Placements {
    if Placements::is_wanted(job) {
        Placements(PairName::ALL.map(|name| most_room(job, name)))
    } else {
        Placements::default()
    }
}

/// The plan of a job, its open placements searched, or everything that is wrong with the job.
pub fn plan(job: &Job) -> Result<Plan, Vec<Fault>> {
    let faults = faults(job);
    if faults.is_empty() { Ok(solve(job)) } else { Err(faults) }
}

/// [`plan`] over any number type. The job must be without [`faults`]; figures of a faulty one would be meaningless.
pub fn solve<T: Real>(job: &Job<T>) -> Plan<T> {
    solve_placed(job, &search(job))
}

/// A job file's text in, the plan's JSON text out. A faulty job gives `{"errors": [{"field", "value", "message"}]}`.
pub fn plan_json(text: &str) -> String {
    let answer = Job::from_json(text).and_then(|job| plan(&job));
    match answer.map(|plan| serde_json::to_string(&plan)) {
        Ok(Ok(plan)) => plan,
        Ok(Err(error)) => json!({ "errors": [Fault::new("", Value::Null, error.to_string())] }).to_string(),
        Err(faults) => json!({ "errors": faults }).to_string(),
    }
}

/// A job file's text in, the clearances' JSON text out: `{"rooms": […]}`. A faulty job gives
/// `{"errors": [{"field", "value", "message"}]}`.
pub fn rooms_json(text: &str) -> String {
    match Job::from_json(text).and_then(|job| plan(&job)) {
        Ok(plan) => json!({ "rooms": clearances(&plan) }).to_string(),
        Err(faults) => json!({ "errors": faults }).to_string(),
    }
}
