//! What the bodies of a scene are.

use crate::drawing::FramePart;
use crate::model::{Hand, PairName};

/// A body of a scene.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ScenePart {
    /// The bottom bracket shell.
    Shell,
    /// The seat tube.
    SeatTube,
    /// A stay.
    Stay(PairName, Hand),
    /// A dropout.
    Dropout(Hand),
    /// The axle of the rear wheel.
    Axle,
    /// The rear tyre.
    Tyre,
    /// A chainring, by its place in the list.
    Chainring(usize),
    /// The smallest sprocket with its chain.
    Sprocket,
    /// The brake rotor.
    Rotor,
    /// The brake caliper.
    Caliper,
    /// A body that is none of these, by a number of the caller's.
    Other(u32),
}

impl ScenePart {
    /// Its name in markup.
    pub fn key(self) -> String {
        match self {
            Self::Shell => "shell".into(),
            Self::SeatTube => "seat_tube".into(),
            Self::Stay(pair, hand) => format!("{}.{}", pair.key(), hand.key()),
            Self::Dropout(hand) => format!("dropout.{}", hand.key()),
            Self::Axle => "axle".into(),
            Self::Tyre => "tyre".into(),
            Self::Chainring(place) => format!("chainring[{place}]"),
            Self::Sprocket => "sprocket".into(),
            Self::Rotor => "rotor".into(),
            Self::Caliper => "caliper".into(),
            Self::Other(number) => format!("body[{number}]"),
        }
    }

    /// The part of the frame that is selected by it; `None` for a body that is no part of the frame.
    pub const fn frame_part(self) -> Option<FramePart> {
        match self {
            Self::Shell => Some(FramePart::Shell),
            Self::SeatTube => Some(FramePart::SeatTube),
            Self::Stay(pair, _) => Some(FramePart::of_pair(pair)),
            Self::Dropout(_) | Self::Axle => Some(FramePart::Hub),
            Self::Tyre => Some(FramePart::Tire),
            Self::Chainring(_) => Some(FramePart::Chainring),
            Self::Sprocket => Some(FramePart::Sprocket),
            Self::Rotor | Self::Caliper => Some(FramePart::Rotor),
            Self::Other(_) => None,
        }
    }
}

/// What a body is made of: the styles give each its tones.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Material {
    /// The shell, the seat tube.
    Member,
    /// A stay.
    Stay,
    /// A dropout, the axle.
    Dropout,
    /// The tyre.
    Rubber,
    /// Chainrings, the sprocket, the rotor.
    Wheelwork,
}

impl Material {
    /// Its class in markup.
    pub const fn class(self) -> &'static str {
        match self {
            Self::Member => "of-member",
            Self::Stay => "of-stay",
            Self::Dropout => "of-dropout",
            Self::Rubber => "of-rubber",
            Self::Wheelwork => "of-wheelwork",
        }
    }
}
