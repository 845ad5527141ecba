//! Warnings: a stable code, where, and a sentence a builder understands.

use serde::Serialize;

/// What a warning is about. The written code is the name in snake case and never changes its meaning.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Code {
    /// Left and right need different clamp frames.
    SidesApart,
    /// Part of the stay passes the member by.
    PartialContact,
    /// The whole stay passes the member by.
    NoContact,
    /// The stay touches the member at a point only.
    TouchOnly,
    /// The stay runs parallel to the member.
    AxesParallel,
    /// The cutter's edge runs along the stay's side: the cut feathers out.
    GrazingCut,
    /// The cutter is slimmer than the stay.
    CutterSmallerThanStay,
    /// The cutter is slimmer than the member, so the stay cannot seat.
    CutterSmallerThanMember,
    /// Left and right tubes run into each other.
    StaysCollide,
    /// The cut lies past the end of the raw tube.
    CutPastTubeEnd,
    /// The taper starts or ends inside the cut.
    TaperInCut,
    /// The slide's scale does not reach.
    SlideOutOfRange,
    /// The axle holder does not reach.
    AxleHeightOutOfRange,
    /// A post stands where the stay is not.
    PostOffStay,
    /// A tilt and a swivel are both needed.
    CompoundSetting,
    /// A face of the slot lies outside the tube.
    SlotOutsideTube,
    /// The slot is deeper than what is left of the stay.
    SlotTooDeep,
    /// The front and rear cuts meet.
    CutsOverlap,
    /// A bend begins before the cut ends: the cut is figured as if its end were straight.
    BendInCut,
    /// A bend is tight for its tube.
    TightBend,
    /// The taper runs on into a bend.
    TaperInBend,
    /// A bend lies past an end of the raw tube.
    BendPastTubeEnd,
    /// A post stands on a bend.
    PostOnBend,
    /// No trim lets the tube span its reference points with both cuts on the tube and on its straight ends.
    TubeCannotSpan,
}
