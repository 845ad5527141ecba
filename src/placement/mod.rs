//! Where bent tubes lie: the search for the placement that leaves the most clearance, and the plan with it.

mod bound;
mod evaluate;
mod motion;
mod search;

use crate::model::{Fault, Job, PairName};
use crate::plan::{Placements, Plan, faults, resolved, solve_placed};
use crate::units::Real;
use search::most_room;

/// Searches a placement for every tube of the job that leaves it open. The job must be without [`faults`].
pub fn search<T: Real>(job: &Job<T>) -> Placements {
    if Placements::is_wanted(job) {
        let job = resolved(job);
        Placements(PairName::ALL.map(|name| most_room(&job, name)))
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
