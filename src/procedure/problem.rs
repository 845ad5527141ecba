//! What cannot be done at a step, or is to be minded there.

use super::key::StepKey;
use super::step::Step;
use crate::machining::{Standing, Turning, Verdict};
use crate::model::shop::Axis;
use crate::model::{Hand, Level};
use crate::units::{Angle, Length, SpindleSpeed};
use serde::{Deserialize, Serialize};

/// Something that goes from one end to another.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Ranged {
    /// The fixture's slide.
    Slide,
    /// The dummy axle's height.
    AxleHeight,
    /// A post, along the fixture.
    Post,
    /// A clamp, from the centre line.
    Clamp,
}

/// A turn of the fixture.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Turned {
    /// Its tilt, as a gauge on a vertical mill's table would show it.
    Tilt,
    /// Its swivel, either way.
    Swivel,
}

/// A hole saw on hand that comes nearest to what a cut needs.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Nearest {
    /// Its diameter.
    pub diameter: Length,
    /// Why it will not do.
    pub verdict: Verdict,
}

/// What cannot be done, with the figure by which it fails.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Problem {
    /// A figure lies outside what the fixture goes to.
    OutOfRange {
        /// What is set.
        what: Ranged,
        /// Where it would stand.
        wanted: Length,
        /// Its lower end.
        from: Length,
        /// Its upper end.
        to: Length,
    },
    /// An angle lies outside what the fixture turns to.
    TurnOutOfRange {
        /// Which turn.
        what: Turned,
        /// What is wanted.
        wanted: Angle,
        /// Its lower end.
        from: Angle,
        /// Its upper end.
        to: Angle,
    },
    /// No hole saw on hand will do.
    NoHoleSaw {
        /// The planned diameter, which the steps name.
        planned: Length,
        /// The one that comes nearest.
        nearest: Option<Nearest>,
    },
    /// No slitting saw on hand will do.
    NoSlittingSaw {
        /// The slot's width.
        width: Length,
    },
    /// No stay reaches the post of that count: it is not needed.
    PostNotReached(u8),
    /// Nobody has entered what saws there are.
    SawsUnknown,
    /// The slitting saw's collar meets the stay before the slot is deep enough.
    CollarShort(Length),
    /// The holder meets the first stay before the saw is through.
    ArborShort(Length),
    /// The slug does not go into the saw.
    SawShallow(Length),
    /// The way in is longer than the travel along the spindle.
    SpindleTravelShort(Length),
    /// The table does not go far enough.
    TableTravelShort {
        /// The readout's axis.
        axis: Axis,
        /// What is missing.
        by: Length,
    },
    /// Something that turns meets something that stands.
    Meets {
        /// What turns.
        part: Turning,
        /// What stands.
        body: Standing,
        /// How far the cutter goes before they meet.
        after: Length,
    },
    /// Nothing is in the way if the spindle is on that side.
    ClearFrom(Hand),
    /// The mill's slowest speed is too fast for this cutter.
    TooFast {
        /// What the cutter wants.
        wanted: SpindleSpeed,
        /// How many times that the slowest speed is.
        times: f64,
    },
}

impl Problem {
    /// How grave it is: what cannot be set, has no saw or meets something stops the work.
    pub const fn level(&self) -> Level {
        match self {
            Self::OutOfRange { .. }
            | Self::TurnOutOfRange { .. }
            | Self::NoHoleSaw { .. }
            | Self::NoSlittingSaw { .. }
            | Self::CollarShort(_)
            | Self::ArborShort(_)
            | Self::SawShallow(_)
            | Self::SpindleTravelShort(_)
            | Self::TableTravelShort { .. }
            | Self::Meets { .. } => Level::Stop,
            Self::TooFast { .. } => Level::Check,
            Self::PostNotReached(_) | Self::SawsUnknown | Self::ClearFrom(_) => Level::Note,
        }
    }

    /// Its stable name in files.
    pub const fn code(&self) -> &'static str {
        match self {
            Self::OutOfRange { what: Ranged::Slide, .. } => "slide_out_of_range",
            Self::OutOfRange { what: Ranged::AxleHeight, .. } => "axle_height_out_of_range",
            Self::OutOfRange { what: Ranged::Post, .. } => "post_out_of_range",
            Self::OutOfRange { what: Ranged::Clamp, .. } => "clamp_out_of_range",
            Self::TurnOutOfRange { what: Turned::Tilt, .. } => "tilt_out_of_range",
            Self::TurnOutOfRange { what: Turned::Swivel, .. } => "swivel_out_of_range",
            Self::NoHoleSaw { .. } => "no_hole_saw",
            Self::NoSlittingSaw { .. } => "no_slitting_saw",
            Self::PostNotReached(_) => "post_not_reached",
            Self::SawsUnknown => "saws_unknown",
            Self::CollarShort(_) => "collar_short",
            Self::ArborShort(_) => "arbor_short",
            Self::SawShallow(_) => "saw_shallow",
            Self::SpindleTravelShort(_) => "spindle_travel_short",
            Self::TableTravelShort { .. } => "table_travel_short",
            Self::Meets { .. } => "collision",
            Self::ClearFrom(_) => "clear_from_other_side",
            Self::TooFast { .. } => "speed_too_fast",
        }
    }

    /// A length that lies outside its range, if it does.
    pub(super) fn of_range(what: Ranged, wanted: Length, from: Length, to: Length) -> Option<Self> {
        let is_inside = wanted.mm() >= from.mm() && wanted.mm() <= to.mm();
        (!is_inside).then_some(Self::OutOfRange { what, wanted, from, to })
    }

    /// An angle that lies outside its range, if it does.
    pub(super) fn of_turn(what: Turned, wanted: Angle, from: Angle, to: Angle) -> Option<Self> {
        let is_inside = wanted.degrees() >= from.degrees() && wanted.degrees() <= to.degrees();
        (!is_inside).then_some(Self::TurnOutOfRange { what, wanted, from, to })
    }
}

/// Every problem of a list of steps, each with the step at which it is.
pub fn problems(steps: &[Step]) -> impl Iterator<Item = (StepKey, &Problem)> {
    steps.iter().flat_map(|step| step.problems.iter().map(move |problem| (step.key, problem)))
}
