//! The order of work, in a shop of which nothing is known but its fixture: readings as the plan has them.

use staywright::plan::Plan;
use staywright::trade::PairName;
use staywright::trade::shop::Shop;
use staywright::work::{self, Tools};

pub use staywright::work::Step;

/// Every step of the job, in order.
pub fn steps(plan: &Plan) -> Vec<Step> {
    work::steps(plan, &Shop::default(), &Tools::default())
}

/// The steps of one pair.
pub fn pair_steps(plan: &Plan, name: PairName) -> Vec<Step> {
    work::pair_steps(plan, &Shop::default(), &Tools::default(), name)
}
