//! Where tubes lie that leave it to the solver.

use super::result::Plan;
use super::room::{Found, most_room};
use crate::model::{Find, Hand, Job, PairName};
use crate::units::Real;
use nanoserde::{DeBin, SerBin};

/// What the search for the most room found for the stays of a job, pair by pair, right then left: `None` for a tube that lies
/// as entered, `Some(None)` where no place will do.
///
/// The search takes a hundred times as long as the rest of the plan, so it can be done apart from it.
#[derive(Clone, Copy, Debug, Default, PartialEq, SerBin, DeBin)]
pub struct Placed([[Option<Option<Found>>; 2]; 2]);

impl Placed {
    /// Whether a tube of the job leaves anything to the solver.
    pub fn is_wanted<T>(job: &Job<T>) -> bool {
        PairName::ALL.into_iter().any(|name| Hand::ALL.into_iter().any(|hand| wants(job, name, hand)))
    }

    /// Searches. The job must be without [`faults`](super::faults).
    pub fn search<T: Real>(job: &Job<T>) -> Self {
        Self(PairName::ALL.map(|name| most_room(job, name)))
    }

    /// What counts for a stay of `job`, which may have changed since the search: nothing where its tube lies as entered.
    pub(super) fn of<T>(&self, job: &Job<T>, name: PairName, hand: Hand) -> Option<Option<Found>> {
        let Self([chainstays, seatstays]) = self;
        let [right, left] = if name == PairName::Chainstays { chainstays } else { seatstays };
        let found = if hand == Hand::Right { right } else { left };
        found.filter(|_| wants(job, name, hand))
    }
}

/// The plan's job with every bent tube entered where the plan has it, and nothing left to the solver: its own plan is the same,
/// at once.
pub fn as_laid(plan: &Plan) -> Job {
    let mut job = plan.job.clone();
    for name in PairName::ALL {
        let (stays, pair) = (plan.pair(name), job.pair_mut(name));
        let sides = [(Some(&mut pair.right), &stays.right), (pair.left.as_mut(), &stays.left)];
        for (side, stay) in sides {
            if let (Some(side), Some(bent)) = (side, &stay.bent) {
                (side.tube.front_trim, side.tube.bends.roll) = (bent.trim, Some(bent.roll));
                side.tube.bends.find = Find::Nothing;
            }
        }
    }
    job
}

fn wants<T>(job: &Job<T>, name: PairName, hand: Hand) -> bool {
    job.pair(name).side(hand).tube.bends.find != Find::Nothing
}
