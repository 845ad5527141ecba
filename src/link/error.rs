//! Why a text is not a link.

use std::fmt;

/// Why a text could not be read as a link.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LinkError {
    /// There is nothing to read.
    Empty,
    /// No job makes a text this long.
    TooLong,
    /// Something of it is missing or changed.
    Damaged,
    /// It is whole, but its format is not known here.
    Later(u8),
}

impl fmt::Display for LinkError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => write!(f, "there is no job in this link"),
            Self::TooLong => write!(f, "this text is too long to be a link"),
            Self::Damaged => {
                write!(
                    f,
                    "this link is damaged: part of it is missing or changed; copy it again from where it was sent"
                )
            }
            Self::Later(format) => {
                write!(
                    f,
                    "this link was made by a later version (format {format}); reload to get the newest version"
                )
            }
        }
    }
}

impl std::error::Error for LinkError {}
