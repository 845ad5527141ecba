//! Which pair of stays.

use serde::{Deserialize, Serialize};

/// The two pairs of stays of a rear end.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum PairName {
    /// From the shell to the axle.
    Chainstays,
    /// From the seat tube to the axle.
    Seatstays,
}

impl PairName {
    /// Both pairs.
    pub const ALL: [Self; 2] = [Self::Chainstays, Self::Seatstays];

    /// The key in a job file.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Chainstays => "chainstays",
            Self::Seatstays => "seatstays",
        }
    }

    /// One stay of the pair in the trade's words.
    pub const fn one(self) -> &'static str {
        match self {
            Self::Chainstays => "chainstay",
            Self::Seatstays => "seat stay",
        }
    }

    /// The pair in the trade's words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Chainstays => "chainstays",
            Self::Seatstays => "seat stays",
        }
    }
}
