//! What cannot be done at the machine, or is to be minded there.

use super::finding::{Finding, What};
use crate::machining::{Advice, Verdict, advice};
use crate::model::shop::Shop;
use crate::model::{Location, Stays};
use crate::plan::{CutAt, Plan};
use crate::procedure::{Problem, Step, StepKey, Tools};

/// What cannot be done at the steps of an order of work, or is to be minded there.
pub fn of_steps(steps: &[Step]) -> impl Iterator<Item = Finding> {
    steps.iter().flat_map(|step| step.problems.iter().map(|problem| of_step(step.key, *problem)))
}

fn of_step(key: StepKey, problem: Problem) -> Finding {
    let location = match problem {
        Problem::SawsUnknown => Location::Whole,
        _ => key.setting.location(),
    };
    Finding { steps: vec![key], ..Finding::new(location, What::Procedure(problem)) }
}

/// What is to be said of the saws that the round ends are cut with.
pub fn of_saws(plan: &Plan, shop: &Shop, tools: &Tools) -> Vec<Finding> {
    let mut found = Vec::new();
    for at in CutAt::all() {
        let Some(chosen) = tools.saw(at) else { continue };
        let Some(saw) = shop.hole_saws.get(chosen.saw) else { continue };
        let location = Location::End(at.pair, Stays::One(at.hand), at.at_front);
        if chosen.verdict != Verdict::Fits {
            let what = What::SawUnfit { saw: chosen.diameter, verdict: chosen.verdict };
            found.push(Finding::new(location, what));
        }
        let tube = &plan.job.pair(at.pair).side(at.hand).tube;
        for one in advice(shop.metal, saw, tube) {
            let location = if is_of_every_cut(one) { Location::Whole } else { location };
            found.push(Finding::new(location, What::Advice(one)));
        }
    }
    found
}

/// Whether it holds of every cut with a hole saw in this shop.
const fn is_of_every_cut(advice: Advice) -> bool {
    matches!(advice, Advice::PilotOut | Advice::OfMetal(_))
}
