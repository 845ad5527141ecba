//! Where the hub's faces lie, and where dropouts hold them.

use crate::model::{Frame, Hand, Job, PairName};
use crate::units::{Length, Real};

/// The hub's face on that side, outboard of the centre plane.
pub(crate) fn hub_face<T: Real>(frame: &Frame<T>, hand: Hand) -> Length<T> {
    Length::from_mm(frame.axle_spacing.mm() * T::of(0.5) + frame.axle_offset.mm() * T::of(hand.sign()))
}

/// Where a stay puts the face of its dropout that holds the hub, outboard of the centre plane; `None` where no dropout is known.
pub(crate) fn held_face<T: Real>(job: &Job<T>, name: PairName, hand: Hand) -> Option<Length<T>> {
    let part = job.dropouts.as_ref()?.side(hand);
    let half = Length::from_mm(part.width().mm() * T::of(0.5));
    let stay = job.pair(name).side(hand).rear.half_spacing;
    Some(stay - part.tab(name).stay_offset - half + part.recess())
}
