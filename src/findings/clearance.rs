//! Clearances that fall short.

use super::finding::{Finding, What};
use crate::clearance::{Clearance, Obstacle, StayClearances};
use crate::model::{Basis, Level, Location, Stays, basis};
use crate::plan::Plan;
use crate::units::Length;
use serde::{Deserialize, Serialize};

/// Less than this over its limit is tight, mm: no more than tubes and a fixture vary by. A shop habit, unsourced.
const TIGHT: f64 = 0.5;

/// Clearances that differ by less, mm, are the same.
const SAME: f64 = 1e-6;

/// A clearance that falls short of its limit, or hardly exceeds it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct ClearanceFound {
    /// From what.
    pub to: Obstacle,
    /// Whether there are several of its kind, so that it is called by its number.
    pub is_one_of_several: bool,
    /// The clearance; negative by the depth to which the two run into each other.
    pub distance: Length,
    /// What is wanted.
    pub limit: Length,
    /// What that rests on.
    pub basis: Basis,
    /// Where along the stay, from its front reference point, positive towards the rear.
    pub station: Length,
}

impl ClearanceFound {
    fn new(plan: &Plan, clearance: &Clearance) -> Option<Self> {
        let (distance, limit) = (clearance.distance, clearance.limit);
        let is_free = clearance.to == Obstacle::Other && limit.mm() <= 0.0 && distance.mm() >= 0.0;
        if is_free || clearance.margin().mm() >= TIGHT {
            return None;
        }
        let rings = plan.job.surroundings.map_or(0, |all| all.rings.len());
        let is_one_of_several = match clearance.to {
            Obstacle::Chainring(_) => rings > 1,
            Obstacle::Post(_) => true,
            _ => false,
        };
        let basis = basis(clearance.to.limit_key(), limit.mm());
        Some(Self { to: clearance.to, is_one_of_several, distance, limit, basis, station: clearance.station })
    }

    /// A hit stops the work, a clearance below its limit is looked at, a tight one is worth knowing.
    pub(super) fn level(&self) -> Level {
        if self.distance.mm() < 0.0 {
            Level::Stop
        } else if self.distance < self.limit {
            Level::Check
        } else {
            Level::Note
        }
    }

    pub(super) fn is_same(&self, other: &Self) -> bool {
        self.to == other.to && (self.distance - other.distance).mm().abs() < SAME
    }
}

/// The clearances that fall short of their limits or hardly exceed them.
pub fn of_clearances<'a>(
    plan: &'a Plan,
    clearances: &'a [StayClearances],
) -> impl Iterator<Item = Finding> + 'a {
    clearances.iter().flat_map(move |stay| {
        let location = Location::Stay(stay.pair, Stays::One(stay.hand));
        let found = stay.clearances.iter().filter_map(move |one| ClearanceFound::new(plan, one));
        found.map(move |found| Finding::new(location, What::Clearance(found)))
    })
}

/// The limits in use that rest on a shop habit alone: one finding of them all.
pub fn of_limits(clearances: &[StayClearances]) -> Option<Finding> {
    let mut habits: Vec<Obstacle> = Vec::new();
    for clearance in clearances.iter().flat_map(|stay| &stay.clearances) {
        let key = clearance.to.limit_key();
        let is_new = habits.iter().all(|known| known.limit_key() != key);
        if is_new && basis(key, clearance.limit.mm()) == Basis::Habit {
            habits.push(clearance.to);
        }
    }
    (!habits.is_empty()).then(|| Finding::new(Location::Whole, What::LimitsUnsourced(habits)))
}
