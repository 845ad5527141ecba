//! Why a text is not a link, in words that follow what cannot be opened and a colon.

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
            Self::Empty => f.write_str("there is no job in it"),
            Self::TooLong => f.write_str("it is too long to hold a job"),
            Self::Damaged => {
                f.write_str("part of it is missing or changed; copy it again from where it was sent")
            }
            Self::Later(format) => {
                write!(f, "a later version made it (format {format}); reload to get the newest version")
            }
        }
    }
}

impl std::error::Error for LinkError {}
