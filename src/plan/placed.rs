//! Where tubes lie that leave it to the solver.

use super::room::{Found, most_room};
use crate::quantity::Real;
use crate::trade::{Find, Hand, Job, PairName};
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

fn wants<T>(job: &Job<T>, name: PairName, hand: Hand) -> bool {
    job.pair(name).side(hand).tube.bends.find != Find::Nothing
}
