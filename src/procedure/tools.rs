//! Which cutter does which end.

use crate::machining::{Candidate, Verdict, candidates};
use crate::model::shop::Shop;
use crate::plan::{CutAt, Plan};

/// The saws chosen for the round ends. Left empty, the steps name the planned diameter alone.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Tools {
    saws: Vec<(CutAt, Candidate)>,
}

impl Tools {
    /// The saw for an end.
    pub fn saw(&self, at: CutAt) -> Option<&Candidate> {
        self.saws.iter().find(|(known, _)| *known == at).map(|(_, saw)| saw)
    }

    /// Takes another saw for an end.
    pub fn take(&mut self, at: CutAt, saw: Candidate) {
        self.saws.retain(|(known, _)| *known != at);
        self.saws.push((at, saw));
    }
}

/// The best saw on hand for each round end, where one fits.
pub fn choose(plan: &Plan, shop: &Shop) -> Tools {
    let best = |at| {
        let first = candidates(plan, shop, at).into_iter().next()?;
        (first.verdict == Verdict::Fits).then_some((at, first))
    };
    Tools { saws: CutAt::all().filter_map(best).collect() }
}
