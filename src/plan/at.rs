//! Which cut of a plan.

use super::result::{Cut, Plan, Stay};
use crate::trade::{Hand, PairName};
use nanoserde::{DeBin, SerBin};

/// One end of one stay.
#[derive(Clone, Copy, Debug, PartialEq, Eq, SerBin, DeBin)]
pub struct CutAt {
    /// Its pair.
    pub pair: PairName,
    /// Its side.
    pub hand: Hand,
    /// Whether it is the front end.
    pub at_front: bool,
}

impl CutAt {
    /// Every cut of a plan, pair by pair, right first, front first.
    pub fn all() -> impl Iterator<Item = Self> {
        let sides = |pair| Hand::ALL.into_iter().map(move |hand| (pair, hand));
        let ends = |(pair, hand)| [true, false].map(|at_front| Self { pair, hand, at_front });
        PairName::ALL.into_iter().flat_map(sides).flat_map(ends)
    }

    /// Its place as warnings name it: `chainstays.right.front`.
    pub fn key(self) -> String {
        format!("{}.{}.{}", self.pair.key(), self.hand.key(), self.end())
    }

    /// `front` or `rear`.
    pub const fn end(self) -> &'static str {
        if self.at_front { "front" } else { "rear" }
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
