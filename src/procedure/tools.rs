//! Which cutter does which end.

use super::problem::Nearest;
use crate::machining::{Candidate, Verdict, candidates};
use crate::model::shop::Shop;
use crate::plan::{CutAt, Plan};

/// The saws chosen for the round ends. Left empty, the steps name the planned diameter alone.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Tools {
    saws: Vec<(CutAt, Candidate)>,
    /// Whether the shop's saws are known: then a cut without one has none on hand.
    is_known: bool,
    /// Of each cut without a saw, the one on hand that comes nearest.
    nearest: Vec<(CutAt, Nearest)>,
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

    /// Whether the shop's saws are known.
    pub(super) const fn is_known(&self) -> bool {
        self.is_known
    }

    /// The saw on hand that comes nearest to what an end without one needs.
    pub(super) fn nearest(&self, at: CutAt) -> Option<Nearest> {
        self.nearest.iter().find(|(known, _)| *known == at).map(|(_, nearest)| *nearest)
    }
}

/// The best saw on hand for each round end, where one fits.
pub fn choose(plan: &Plan, shop: &Shop) -> Tools {
    let mut tools = Tools { is_known: true, ..Tools::default() };
    for at in CutAt::all() {
        let Some(first) = candidates(plan, shop, at).into_iter().next() else { continue };
        if first.verdict == Verdict::Fits {
            tools.saws.push((at, first));
        } else {
            tools.nearest.push((at, Nearest { diameter: first.diameter, verdict: first.verdict }));
        }
    }
    tools
}
