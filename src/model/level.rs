//! How grave a finding is.

use serde::{Deserialize, Serialize};

/// How grave a finding is, mildest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Level {
    /// Worth knowing; the work can go on.
    Note,
    /// To be looked at before the work goes on.
    Check,
    /// Would scrap a part or hurt someone: nothing is cut until it is mended.
    Stop,
}

impl Level {
    /// All levels, mildest first.
    pub const ALL: [Self; 3] = [Self::Note, Self::Check, Self::Stop];

    /// The word in files: `note`, `check`, `stop`.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Note => "note",
            Self::Check => "check",
            Self::Stop => "stop",
        }
    }
}
