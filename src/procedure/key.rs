//! What a step is for: the same as long as the work is, whatever its place in the list.

use crate::model::{Hand, Location, PairName, Stays};
use serde::{Deserialize, Serialize};

/// The part of the work that a step belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Phase {
    /// Before anything is clamped.
    Before,
    /// Laying the stays in the fixture.
    Clamping,
    /// Cutting the front ends.
    Front,
    /// Cutting the rear ends.
    Rear,
    /// When all is cut.
    After,
}

/// What is set up together: the stays that share it, and the part of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct SettingKey {
    /// The pair. What is done to all stays at once counts as the first pair's before the work and the last one's after it.
    pub pair: PairName,
    /// The stays of the pair that share the setting.
    pub stays: Stays,
    /// The part of the work.
    pub phase: Phase,
}

/// What a step does for its setting.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum StepKind {
    /// Left and right are marked.
    MarkHands,
    /// The fixture's slide, and the dummy axle's height where it is set as well.
    Slide,
    /// The dummy axle's height alone.
    AxleHeight,
    /// The clamp posts.
    Posts,
    /// The stays are clamped.
    Clamp,
    /// The dummy axle comes out.
    AxleOut,
    /// The fixture goes on its side.
    OnSide,
    /// The fixture is tilted.
    Tilt,
    /// The fixture is swivelled.
    Swivel,
    /// The datum edge is found, and the face with it where one edge finder does both.
    TouchEdge,
    /// A face is found.
    TouchFace,
    /// The block is touched with the slitting saw.
    TouchTop,
    /// A hole saw is mounted.
    HoleSaw,
    /// A slitting saw is mounted.
    SlittingSaw,
    /// The table moves along and across the fixture.
    Move,
    /// The table moves along the fixture.
    Along,
    /// The table moves across the fixture.
    Across,
    /// The passes of the slitting saw into one stay.
    Slot(Hand),
    /// The first of two stays is cut, where the saw is not deep enough for both slugs.
    FirstCut,
    /// The slug of the first stay.
    FirstSlug,
    /// The cut.
    Cut,
    /// The slug.
    Slug,
    /// The slitting saw comes out.
    SawOut,
    /// Every end is deburred.
    Deburr,
}

/// What a step is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct StepKey {
    /// The setting.
    pub setting: SettingKey,
    /// What it does for it.
    pub kind: StepKind,
}

impl SettingKey {
    /// Whether a stay of that side is among those that share it.
    pub fn serves(self, hand: Hand) -> bool {
        self.stays == Stays::Both || self.stays == Stays::One(hand)
    }

    /// Whether it is one of cutting, and then whether of the front ends.
    pub const fn at_front(self) -> Option<bool> {
        match self.phase {
            Phase::Front => Some(true),
            Phase::Rear => Some(false),
            Phase::Before | Phase::Clamping | Phase::After => None,
        }
    }

    /// What is worked on.
    pub const fn location(self) -> Location {
        match self.phase {
            Phase::Before | Phase::After => Location::Whole,
            Phase::Clamping => match self.stays {
                Stays::Both => Location::Pair(self.pair),
                Stays::One(_) => Location::Stay(self.pair, self.stays),
            },
            Phase::Front => Location::End(self.pair, self.stays, true),
            Phase::Rear => Location::End(self.pair, self.stays, false),
        }
    }

    fn written(self) -> String {
        let stays = match self.stays {
            Stays::One(hand) => hand.key(),
            Stays::Both => "both",
        };
        let phase = match self.phase {
            Phase::Before => ".before",
            Phase::Clamping => "",
            Phase::Front => ".front",
            Phase::Rear => ".rear",
            Phase::After => ".after",
        };
        format!("{}.{stays}{phase}", self.pair.key())
    }
}

impl StepKey {
    /// As it is kept: `chainstays.both.front.along`. A name once given stays, and is given to nothing else: `post-1`, `pass-right-1` are
    /// names of steps that are part of others now.
    pub fn written(self) -> String {
        format!("{}.{}", self.setting.written(), self.kind.written())
    }
}

impl StepKind {
    fn written(self) -> String {
        let word = match self {
            Self::MarkHands => "mark-hands",
            Self::Slide => "slide",
            Self::AxleHeight => "axle-height",
            Self::Posts => "posts",
            Self::Clamp => "clamp",
            Self::AxleOut => "axle-out",
            Self::OnSide => "side",
            Self::Tilt => "tilt",
            Self::Swivel => "swivel",
            Self::TouchEdge => "touch-edge",
            Self::TouchFace => "touch-side",
            Self::TouchTop => "touch-top",
            Self::HoleSaw => "cutter",
            Self::SlittingSaw => "saw",
            Self::Move => "move",
            Self::Along => "along",
            Self::Across => "across",
            Self::Slot(hand) => return format!("slot-{}", hand.key()),
            Self::FirstCut => "first-cut",
            Self::FirstSlug => "first-slug",
            Self::Cut => "cut",
            Self::Slug => "slug",
            Self::SawOut => "saw-out",
            Self::Deburr => "deburr",
        };
        word.to_owned()
    }
}
