//! Which of a job's eight cuts.

use super::result::{Cut, Plan, Stay};
use crate::model::{Hand, PairName};
use serde::{Deserialize, Serialize};

/// One end of one stay.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct CutAt {
    /// Its pair.
    pub pair: PairName,
    /// Its side.
    pub hand: Hand,
    /// Whether it is the front end.
    pub at_front: bool,
}

impl CutAt {
    /// The first one in the order of the work.
    pub const FIRST: Self = Self { pair: PairName::Chainstays, hand: Hand::Right, at_front: true };

    /// All eight, in the order of the work: a pair's front ends, then its rear ends, right first.
    pub fn all() -> impl Iterator<Item = Self> {
        let ends = |pair| [true, false].into_iter().map(move |at_front| (pair, at_front));
        let sides = |(pair, at_front)| Hand::ALL.map(|hand| Self { pair, hand, at_front });
        PairName::ALL.into_iter().flat_map(ends).flat_map(sides)
    }

    /// The cut that [`CutAt::key`] names so.
    pub fn from_key(key: &str) -> Option<Self> {
        Self::all().find(|at| at.key() == key)
    }

    /// Its place as warnings name it: `chainstays.right.front`.
    pub fn key(self) -> String {
        format!("{}.{}.{}", self.pair.key(), self.hand.key(), self.end())
    }

    /// `front` or `rear`.
    pub const fn end(self) -> &'static str {
        if self.at_front { "front" } else { "rear" }
    }

    /// The stay, then its end: `right chainstay, front end`.
    pub fn name(self) -> String {
        format!("{} {}, {} end", self.hand.key(), self.pair.one(), self.end())
    }

    /// Its stay.
    pub const fn stay<T: nalgebra::Scalar + Copy>(self, plan: &Plan<T>) -> &Stay<T> {
        plan.pair(self.pair).stay(self.hand)
    }

    /// The cut itself.
    pub const fn cut<T: nalgebra::Scalar + Copy>(self, plan: &Plan<T>) -> &Cut<T> {
        let stay = self.stay(plan);
        if self.at_front { &stay.front } else { &stay.rear }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn there_are_eight_cuts_and_each_is_found_again() {
        assert_eq!(CutAt::all().count(), 8);
        assert_eq!(CutAt::all().next(), Some(CutAt::FIRST));
        for at in CutAt::all() {
            assert_eq!(CutAt::from_key(&at.key()), Some(at));
        }
        assert_eq!(CutAt::from_key("chainstays.right"), None);
    }
}
