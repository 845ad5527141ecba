//! What is to be done at a step. Its figures stand beside it in the [`Step`](super::Step).

use crate::model::shop::{Axis, Mounting, SpindleWay};
use crate::model::{Hand, TouchSide};
use crate::plan::EndUp;

/// Which side of the stay plane the dummy axle sits on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AxleSide {
    /// Towards the base.
    Below,
    /// In the plane.
    In,
    /// Away from the base.
    Above,
}

/// A face that is touched across the fixture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Face {
    /// The fixture's base face.
    Base,
    /// That side of the mounting block.
    Block(Hand),
}

/// How the cutter is seen to go over the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Motion {
    /// To the right of the person at the mill.
    Right,
    /// To the left.
    Left,
    /// Away from the person.
    Away,
    /// Towards the person.
    Near,
    /// Up, square to a level spindle.
    Up,
    /// Down.
    Down,
    /// Along the spindle, away from the work.
    OutOfWork,
    /// Along the spindle, towards the work.
    IntoWork,
}

/// Which way a swivel turns, seen from above the stays.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turn {
    /// As a clock's hands go.
    Clockwise,
    /// The other way.
    CounterClockwise,
}

/// What is to be done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Task {
    /// Mark every tube left or right.
    MarkHands,
    /// Set the slide.
    SetSlide,
    /// Set the dummy axle's height.
    SetAxleHeight(AxleSide),
    /// Set the slide and the dummy axle's height.
    SetAxle(AxleSide),
    /// Set the clamp posts.
    SetPosts {
        /// How many there are.
        count: u8,
        /// Whether calipers can check one of them across both tubes.
        has_calipers: bool,
    },
    /// Clamp the stays.
    Clamp {
        /// Whether any of them is bent.
        is_bent: bool,
    },
    /// Take the dummy axle out.
    TakeAxleOut,
    /// Stand the fixture on its side.
    StandOnSide {
        /// The side that faces the spindle.
        side: Hand,
        /// What holds it.
        mounting: Mounting,
    },
    /// Tilt the fixture by the gauge.
    Tilt {
        /// The end that goes up.
        end_up: EndUp,
        /// How the spindle stands, which says what the gauge is zeroed on.
        spindle: SpindleWay,
    },
    /// Turn the fixture about its own normal.
    Swivel {
        /// Which way.
        turn: Turn,
        /// Whether it stands on its side then; else it is tilted.
        is_on_side: bool,
    },
    /// Touch the datum edge and a face with the edge finder, setting each readout to zero.
    TouchCorner {
        /// The side that the edge is touched from.
        from: TouchSide,
        /// The readout along the fixture.
        along: Axis,
        /// The face.
        face: Face,
        /// The readout across the fixture.
        across: Axis,
    },
    /// Bring a pointed tip over the place where the centre line crosses the datum edge.
    PointAtEdge,
    /// Touch a face with the edge finder.
    TouchFace(Face),
    /// Touch that side of the mounting block with the slitting saw.
    TouchTop(Hand),
    /// Mount the hole saw.
    MountHoleSaw {
        /// Whether its cut has been measured.
        is_measured: bool,
    },
    /// Mount the slitting saw.
    MountSlittingSaw {
        /// How many passes it takes; `None` where no saw on hand will do.
        passes: Option<u8>,
        /// The side of the mounting block that is touched with it then, to set the readout along the spindle to zero.
        touches: Option<Hand>,
    },
    /// Move the table along and across the fixture.
    Move {
        /// Whether that is rearwards.
        is_rearwards: bool,
        /// How the cutter goes along.
        along: Motion,
        /// From which face it goes across.
        face: Face,
        /// How the cutter goes across.
        across: Motion,
    },
    /// Move the table along the fixture.
    MoveAlong {
        /// Whether that is rearwards.
        is_rearwards: bool,
        /// How the cutter goes.
        motion: Motion,
    },
    /// Move the table across the fixture.
    MoveAcross {
        /// From which face.
        face: Face,
        /// How the cutter goes.
        motion: Motion,
    },
    /// Set the stop at which the slitting saw's front edge stands at the slot's root.
    StopAtRoot {
        /// How the cutter goes; `None` where the saw's diameter is not known.
        motion: Option<Motion>,
        /// From which face the table moves across too, and how the cutter goes; `None` where it stays.
        across: Option<(Face, Motion)>,
    },
    /// Set the slitting saw's height for each pass, and cut.
    Slot {
        /// The stay.
        hand: Hand,
        /// How many passes.
        passes: u8,
        /// From what the height counts.
        from: HeightFrom,
    },
    /// Cut the ends.
    Cut {
        /// How much of the pass this is.
        part: CutPart,
    },
    /// Saw the end square.
    SawSquare,
    /// Take the slug out of the saw.
    ClearSlug {
        /// Whether the saw comes out with it: another thing goes into the spindle next.
        takes_saw_out: bool,
    },
    /// Take the slitting saw out.
    TakeSawOut,
    /// Deburr every end.
    Deburr,
}

/// From what a slitting saw's height counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HeightFrom {
    /// From the touch, as the readout along the spindle shows; how the saw goes from there.
    Touch(Motion),
    /// From the datum edge's point, outboard, square to the plate.
    Datum,
    /// From the centre plane.
    CentrePlane,
}

/// How much of a round pass is cut at a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CutPart {
    /// One stay alone.
    One,
    /// Both stays in one go.
    Both,
    /// The first of two: the saw is not deep enough for both slugs.
    First,
    /// The second of two.
    Second,
}
