//! What a finding is about: a pair, a stay or one of its ends.

use super::{Hand, PairName};
use serde::{Deserialize, Serialize};

/// One stay of a pair, or both where the same holds of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Stays {
    /// The stay of that side.
    One(Hand),
    /// The right and the left stay.
    Both,
}

/// What a finding is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Location {
    /// The job as a whole, or the shop.
    Whole,
    /// A pair of stays.
    Pair(PairName),
    /// A stay, or both of a pair.
    Stay(PairName, Stays),
    /// An end of it, the front end where the flag is set.
    End(PairName, Stays, bool),
}

impl Location {
    /// The pair, if it is about one.
    pub const fn pair(self) -> Option<PairName> {
        match self {
            Self::Whole => None,
            Self::Pair(pair) | Self::Stay(pair, _) | Self::End(pair, ..) => Some(pair),
        }
    }

    /// The stays, if it is about any.
    pub const fn stays(self) -> Option<Stays> {
        match self {
            Self::Whole | Self::Pair(_) => None,
            Self::Stay(_, stays) | Self::End(_, stays, _) => Some(stays),
        }
    }

    /// Whether the front end is meant, where it is about an end.
    pub const fn at_front(self) -> Option<bool> {
        match self {
            Self::End(_, _, at_front) => Some(at_front),
            _ => None,
        }
    }

    /// The same location of other stays; itself where it is about none.
    pub const fn of(self, stays: Stays) -> Self {
        match self {
            Self::Stay(pair, _) => Self::Stay(pair, stays),
            Self::End(pair, _, at_front) => Self::End(pair, stays, at_front),
            _ => self,
        }
    }

    /// Whether something said here holds of that end: it is said of the end, of its stay, of its pair or of everything.
    pub fn covers(self, pair: PairName, hand: Hand, at_front: bool) -> bool {
        self.pair().is_none_or(|own| own == pair)
            && self.stays().is_none_or(|own| own == Stays::Both || own == Stays::One(hand))
            && self.at_front().is_none_or(|own| own == at_front)
    }

    /// As files write it: `chainstays.right.front`; empty for the whole.
    pub fn key(self) -> String {
        let stays = self.stays().map(|stays| match stays {
            Stays::One(hand) => hand.key(),
            Stays::Both => "both",
        });
        let end = self.at_front().map(|at_front| if at_front { "front" } else { "rear" });
        let words = [self.pair().map(PairName::key), stays, end];
        words.into_iter().flatten().collect::<Vec<_>>().join(".")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use PairName::{Chainstays, Seatstays};

    #[test]
    fn locations_are_written_as_files_know_them() {
        let end = Location::End(Chainstays, Stays::One(Hand::Right), true);
        assert_eq!(end.key(), "chainstays.right.front");
        assert_eq!(end.of(Stays::Both).key(), "chainstays.both.front");
        assert_eq!(Location::Stay(Seatstays, Stays::One(Hand::Left)).key(), "seatstays.left");
        assert_eq!(Location::Pair(Seatstays).key(), "seatstays");
        assert_eq!(Location::Whole.key(), "");
    }

    #[test]
    fn what_is_said_of_more_covers_each_of_its_ends() {
        let covers = |location: Location| location.covers(Chainstays, Hand::Right, true);
        assert!(covers(Location::Whole));
        assert!(covers(Location::Pair(Chainstays)));
        assert!(covers(Location::Stay(Chainstays, Stays::Both)));
        assert!(covers(Location::End(Chainstays, Stays::One(Hand::Right), true)));
        assert!(!covers(Location::End(Chainstays, Stays::One(Hand::Right), false)));
        assert!(!covers(Location::Stay(Chainstays, Stays::One(Hand::Left))));
        assert!(!covers(Location::Pair(Seatstays)));
    }
}
