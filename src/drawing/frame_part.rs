//! A part of the frame, or of what turns beside it, that can be selected in a drawing.

use crate::clearance::Obstacle;
use crate::model::PairName;
use serde::{Deserialize, Serialize};

/// A part that can be selected in a drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum FramePart {
    /// The frame as a whole: what is not selected piece by piece.
    Frame,
    /// The bottom bracket shell.
    Shell,
    /// The seat tube.
    SeatTube,
    /// The rear axle with its dropouts: hub and dropout spacing.
    Hub,
    /// The rear tyre, with the rim that it sits on.
    Tire,
    /// The pair of chainstays.
    Chainstays,
    /// The pair of seat stays.
    SeatStays,
    /// A chainring, any of them.
    Chainring,
    /// The crank arm, with the heel that goes round with it.
    Crank,
    /// The sprockets, with the chain that runs on them.
    Sprocket,
    /// The brake rotor, with its caliper.
    Rotor,
}

impl FramePart {
    /// All parts, the frame first.
    pub const ALL: [Self; 11] = [
        Self::Frame,
        Self::Shell,
        Self::SeatTube,
        Self::Hub,
        Self::Tire,
        Self::Chainstays,
        Self::SeatStays,
        Self::Chainring,
        Self::Crank,
        Self::Sprocket,
        Self::Rotor,
    ];

    /// Its name in markup and in kept settings; it never changes.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Frame => "frame",
            Self::Shell => "shell",
            Self::SeatTube => "seat_tube",
            Self::Hub => "hub",
            Self::Tire => "tyre",
            Self::Chainstays => "chainstays",
            Self::SeatStays => "seatstays",
            Self::Chainring => "chainring",
            Self::Crank => "crank",
            Self::Sprocket => "sprocket",
            Self::Rotor => "rotor",
        }
    }

    /// The part of that key; `None` where there is none.
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|part| part.key() == key)
    }

    /// The part that a pair of stays is.
    pub const fn of_pair(pair: PairName) -> Self {
        match pair {
            PairName::Chainstays => Self::Chainstays,
            PairName::Seatstays => Self::SeatStays,
        }
    }

    /// The part that an obstacle to a pair of stays belongs to. The other stay is part of the pair; a post of the fixture
    /// is no part of the frame.
    pub const fn of_obstacle(obstacle: Obstacle, pair: PairName) -> Option<Self> {
        match obstacle {
            Obstacle::Tyre => Some(Self::Tire),
            Obstacle::Chainring(_) => Some(Self::Chainring),
            Obstacle::Crank | Obstacle::Heel => Some(Self::Crank),
            Obstacle::Chain => Some(Self::Sprocket),
            Obstacle::Rotor | Obstacle::Caliper => Some(Self::Rotor),
            Obstacle::Other => Some(Self::of_pair(pair)),
            Obstacle::Post(_) => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_part_has_a_key_of_its_own_that_gives_it_back() {
        for part in FramePart::ALL {
            assert_eq!(FramePart::from_key(part.key()), Some(part));
        }
        assert_eq!(FramePart::from_key("fork"), None);
    }
}
