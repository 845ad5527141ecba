//! A figure that is set, read or measured.

use crate::quantity::{Angle, Feed, Length, SpindleSpeed};

/// A figure with its kind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reading {
    /// A length.
    Length(Length),
    /// The diameter of something round.
    Diameter(Length),
    /// An angle.
    Angle(Angle),
    /// How fast the spindle turns.
    Speed(SpindleSpeed),
    /// How fast the table is fed.
    Feed(Feed),
    /// A position that is no number.
    Word(&'static str),
}

impl Reading {
    /// The recorded number, where it is one.
    pub const fn number(self) -> Option<f64> {
        match self {
            Self::Length(length) | Self::Diameter(length) => Some(length.mm()),
            Self::Angle(angle) => Some(angle.degrees()),
            Self::Speed(speed) => Some(speed.rpm()),
            Self::Feed(feed) => Some(feed.mm_per_min()),
            Self::Word(_) => None,
        }
    }
}

/// A figure and what it is called.
#[derive(Clone, Debug, PartialEq)]
pub struct Named {
    /// What it is called.
    pub name: String,
    /// The figure.
    pub reading: Reading,
}

impl Named {
    /// A named figure.
    pub fn new(name: impl Into<String>, reading: Reading) -> Self {
        Self { name: name.into(), reading }
    }
}
