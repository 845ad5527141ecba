//! What the job and its plan say of themselves.

use super::finding::{Finding, What};
use crate::model::{Fault, Location};
use crate::plan::Plan;

/// What is wrong with a job that was entered.
pub fn of_faults(faults: &[Fault]) -> impl Iterator<Item = Finding> {
    faults.iter().map(|fault| Finding::new(Location::of_path(&fault.field), What::Fault(fault.clone())))
}

/// What a plan found.
pub fn of_plan(plan: &Plan) -> impl Iterator<Item = Finding> {
    plan.warnings.iter().map(|warning| Finding::new(warning.location, What::Plan(warning.problem.clone())))
}
