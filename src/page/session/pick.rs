//! Which of the job's eight cuts is looked at.

use staywright::plan::CutAt;
use staywright::trade::{Hand, PairName};

/// One end of one stay.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pick {
    /// Its pair.
    pub pair: PairName,
    /// Its side.
    pub hand: Hand,
    /// Its front end, or its rear end.
    pub at_front: bool,
}

impl Default for Pick {
    fn default() -> Self {
        Self { pair: PairName::Chainstays, hand: Hand::Right, at_front: true }
    }
}

impl Pick {
    /// All eight, in the order of the work: a pair's front ends, then its rear ends.
    pub fn all() -> impl Iterator<Item = Self> {
        PairName::ALL.into_iter().flat_map(|pair| {
            [true, false]
                .into_iter()
                .flat_map(move |at_front| Hand::ALL.map(|hand| Self { pair, hand, at_front }))
        })
    }

    /// The same as the plan has it.
    pub const fn at(self) -> CutAt {
        CutAt { pair: self.pair, hand: self.hand, at_front: self.at_front }
    }

    /// The place in the plan, as warnings name it: `chainstays.right.front`.
    pub fn key(self) -> String {
        format!("{}.{}.{}", self.pair.key(), self.hand.key(), self.end())
    }

    /// The cut kept under `key`.
    pub fn from_key(key: &str) -> Option<Self> {
        Self::all().find(|pick| pick.key() == key)
    }

    /// `front` or `rear`.
    pub const fn end(self) -> &'static str {
        if self.at_front { "front" } else { "rear" }
    }

    /// The stay, then its end: `right chainstay, front end`.
    pub fn name(self) -> String {
        format!("{} {}, {} end", self.hand.key(), self.pair.one(), self.end())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn there_are_eight_cuts_and_each_is_found_again() {
        assert_eq!(Pick::all().count(), 8);
        for pick in Pick::all() {
            assert_eq!(Pick::from_key(&pick.key()), Some(pick));
        }
    }
}
