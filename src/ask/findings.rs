//! Everything that is wrong with a job in a shop, or to be looked at there.

use super::steps::{ToStep, Work, work};
use crate::clearance::clearances;
use crate::findings::{Finding, gather, of_clearances, of_limits, of_plan, of_saws, of_steps};
use crate::plan::Plan;

/// The one list of a plan, its clearances, its steps and its saws.
pub(super) fn findings(plan: &Plan, asked: &ToStep) -> Vec<Finding> {
    let Work { shop, tools, steps } = work(plan, asked);
    let clearances = clearances(plan);
    gather(
        of_plan(plan)
            .chain(of_clearances(plan, &clearances))
            .chain(of_steps(&steps))
            .chain(of_saws(plan, &shop, &tools))
            .chain(of_limits(&clearances)),
    )
}
