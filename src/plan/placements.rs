//! Where bent tubes are placed: data for the plan, found by a search or entered.

use super::result::Plan;
use crate::model::{Hand, Job, PairName, SolveFor};
use serde::{Deserialize, Serialize};

/// How a bent tube is placed between its reference points: its two free choices.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Placement<T = f64> {
    /// Station of the raw tube that lies at the front reference point, mm.
    pub trim: T,
    /// Turn about the chord, from outboard upwards, radians.
    pub roll: T,
}

/// A placement that leaves the most clearance, as a search found it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct BestPlacement {
    /// The placement.
    pub placement: Placement,
    /// Clearance over the limit at the tightest obstacle, mm.
    pub spare: f64,
    /// Error bound of the search, mm: no other placement leaves more than `spare + within`.
    pub within: f64,
    /// Whether the search came to its end; where it ran out of its budget, `within` says what may be left.
    pub complete: bool,
}

/// The placements that a search found for the stays of a job, pair by pair, right then left: `None` for a tube that lies as
/// entered, `Some(None)` where no placement has both cuts on the tube and off its bends.
///
/// The default places every tube as entered.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Placements(pub [[Option<Option<BestPlacement>>; 2]; 2]);

impl Placements {
    /// Whether a tube of the job leaves its placement to a search.
    pub fn is_wanted<T>(job: &Job<T>) -> bool {
        PairName::ALL.into_iter().any(|name| Hand::ALL.into_iter().any(|hand| wants(job, name, hand)))
    }

    /// What counts for a stay of `job`, which may have changed since the search: nothing where its tube lies as entered.
    pub(super) fn of<T>(&self, job: &Job<T>, name: PairName, hand: Hand) -> Option<Option<BestPlacement>> {
        let Self([chainstays, seatstays]) = self;
        let [right, left] = if name == PairName::Chainstays { chainstays } else { seatstays };
        let found = if hand == Hand::Right { right } else { left };
        found.filter(|_| wants(job, name, hand))
    }
}

/// The plan's job with every bent tube entered where the plan has it, and nothing left to a search: its own plan is the same.
pub fn as_placed(plan: &Plan) -> Job {
    let mut job = plan.job.clone();
    for name in PairName::ALL {
        let (stays, pair) = (plan.pair(name), job.pair_mut(name));
        let sides = [(Some(&mut pair.right), &stays.right), (pair.left.as_mut(), &stays.left)];
        for (side, stay) in sides {
            if let (Some(side), Some(bent)) = (side, &stay.bent) {
                (side.tube.front_trim, side.tube.bends.roll) = (bent.trim, Some(bent.roll));
                side.tube.bends.find = SolveFor::Nothing;
            }
        }
    }
    job
}

fn wants<T>(job: &Job<T>, name: PairName, hand: Hand) -> bool {
    job.pair(name).side(hand).tube.bends.find != SolveFor::Nothing
}
