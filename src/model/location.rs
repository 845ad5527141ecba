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
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
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

    /// Whether two locations have an end in common.
    pub fn meets(self, other: Self) -> bool {
        let pairs = [self.pair(), other.pair()];
        let ends = [self.at_front(), other.at_front()];
        agree(pairs)
            && agree(ends)
            && agree([self.stays(), other.stays()].map(|stays| match stays {
                Some(Stays::One(hand)) => Some(hand),
                Some(Stays::Both) | None => None,
            }))
    }

    /// What the figure or text at `path` of a job belongs to.
    pub fn of_path(path: &str) -> Self {
        let mut keys = path.split('.');
        let pair = keys.next().and_then(|key| PairName::ALL.into_iter().find(|pair| pair.key() == key));
        let Some(pair) = pair else { return Self::Whole };
        let hand = keys.next().and_then(|key| Hand::ALL.into_iter().find(|hand| hand.key() == key));
        let Some(hand) = hand else { return Self::Pair(pair) };
        match keys.next() {
            Some("front") => Self::End(pair, Stays::One(hand), true),
            Some("rear") => Self::End(pair, Stays::One(hand), false),
            _ => Self::Stay(pair, Stays::One(hand)),
        }
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

/// Whether two choices are one, or either is open.
fn agree<T: PartialEq>([one, other]: [Option<T>; 2]) -> bool {
    one.is_none() || other.is_none() || one == other
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

    #[test]
    fn locations_meet_where_they_share_an_end() {
        let front = Location::End(Chainstays, Stays::One(Hand::Right), true);
        let left = Location::Stay(Chainstays, Stays::One(Hand::Left));
        assert!(front.meets(Location::Whole) && Location::Whole.meets(front));
        assert!(front.meets(Location::End(Chainstays, Stays::Both, true)));
        assert!(front.meets(Location::Stay(Chainstays, Stays::One(Hand::Right))));
        assert!(!front.meets(Location::End(Chainstays, Stays::Both, false)));
        assert!(!front.meets(left) && !left.meets(front));
        assert!(!Location::Pair(Seatstays).meets(Location::Pair(Chainstays)));
    }

    #[test]
    fn paths_of_a_job_have_locations() {
        let end = Location::End(Chainstays, Stays::One(Hand::Left), false);
        assert_eq!(Location::of_path("chainstays.left.rear.reach_mm"), end);
        let stay = Location::Stay(Seatstays, Stays::One(Hand::Right));
        assert_eq!(Location::of_path("seatstays.right.tube.wall_mm"), stay);
        assert_eq!(Location::of_path("seatstays.front_station_mm"), Location::Pair(Seatstays));
        assert_eq!(Location::of_path("wheel.tyre_width_mm"), Location::Whole);
    }
}
