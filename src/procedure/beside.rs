//! The figures that stand beside the one to set.

use super::reading::Reading;
use super::task::{AxleSide, Face};
use crate::machining::{Standing, Turning};
use crate::model::Hand;
use crate::model::shop::Axis;
use crate::units::Length;

/// What a figure is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Quantity {
    /// Along the fixture, from the front datum line to the dummy axle.
    DatumToAxle,
    /// From the stay plane to the dummy axle, on that side.
    AxleFromPlane(AxleSide),
    /// Where the post of that count stands along the fixture.
    PostStation(u8),
    /// What the clamp scale of that post shows on that side.
    OnScale(u8, Hand),
    /// Calipers between the two tubes at that post.
    CalipersInside(u8),
    /// Calipers over both tubes at that post.
    CalipersOutside(u8),
    /// From the raw tube's front end to its mark, of that side.
    Trim(Hand),
    /// A bend's apex, from the front datum line; bends count from 1, and are of that side where the sides differ.
    BendAlong(u8, Option<Hand>),
    /// A bend's apex above the stay plane.
    BendAbove(u8, Option<Hand>),
    /// A bend's apex from the centre line.
    BendOut(u8, Option<Hand>),
    /// The edge finder's tip.
    EdgeFinder,
    /// From a face to the cutter's axis.
    FaceToAxis(Face),
    /// From the datum edge to the cutter's axis.
    EdgeToAxis,
    /// From the datum edge to the slot's root.
    EdgeToRoot,
    /// What the readout would show with the planned cutter; with the saw on hand the stay goes in further by so much, or stands
    /// off where that is negative.
    Planned {
        /// The readout.
        axis: Axis,
        /// How far the stay goes in.
        goes_in: Length,
    },
    /// What a readout shows that is left as it stands.
    Stays(Axis),
    /// How far a saw must cut along its axis.
    CutThrough,
    /// The largest gap that a saw leaves.
    SawGap,
    /// How far a stay goes in further than planned with a saw.
    GoesIn,
    /// How far a stay stands off from where it is planned with a saw.
    StandsOff,
    /// The spindle's speed.
    Spindle,
    /// The fastest feed.
    Feed,
    /// The smallest gap on the way in, between what turns and what stands.
    SmallestGap(Turning, Standing),
    /// The plate's thickness.
    Plate,
    /// The slot's width: the plate and its clearance.
    SlotWidth,
    /// The slitting saw's diameter.
    SawDiameter,
    /// How much shallower the slot is at the tube's edges, the saw being round.
    ShallowerAtEdges,
    /// From the centre plane to the slot's middle.
    CentreToSlot,
    /// The same at the rear reference point, where the plate splays.
    CentreToSlotAtRear,
    /// The slot's depth along the stay.
    SlotDepth,
    /// Between the stay plane and the spindle.
    PlaneToSpindle,
}

/// A figure beside the one to set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beside {
    /// What it is.
    pub what: Quantity,
    /// The figure.
    pub reading: Reading,
}
