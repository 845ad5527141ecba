//! Stretches of a tube that are pressed oval.

use super::group::{Group, Spec, below, group};
use super::inline_vec::InlineVec;
use crate::units::{Angle, Length};

group! {
    /// A stretch with an elliptical section, which changes from and to round in a straight line before and behind it.
    Press {
        /// Where it starts to be fully oval, from the raw tube's front end.
        from: Length = "from_mm", "oval start", 0.0, -200.0..=1200.0;
        /// Where it ends to be so.
        to: Length = "to_mm", "oval end", 60.0, -200.0..=1200.0;
        /// Length of the change at either end.
        blend: Length = "blend_mm", "oval blend", 40.0, 1.0..=400.0;
        /// Outer width, across the fixture where its roll and the tube's are 0.
        width: Length = "width_mm", "oval width", 16.0, 3.0..=100.0;
        /// Outer height, square to the width.
        height: Length = "height_mm", "oval height", 27.0, 3.0..=100.0;
        /// Turn of the width about the tube, from outboard upwards; on a bent tube from the side that bends of rotation 0 turn
        /// towards.
        roll: Angle = "roll_deg", "oval roll", 0.0, -360.0..=360.0;
    }
}

/// As many oval stretches as a tube may have.
pub(crate) const MOST_OVALS: usize = 4;

/// The oval stretches of a tube; empty for a round one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ovals<T = f64> {
    /// In rising order of station, their blends apart.
    pub list: InlineVec<Press<T>, MOST_OVALS>,
}

impl Default for Ovals {
    fn default() -> Self {
        Self { list: InlineVec::default() }
    }
}

impl<T: Copy> Group<T> for Ovals<T> {
    type Over<U: Copy> = Ovals<U>;

    fn map<U: Copy>(&self, at: &str, f: &mut dyn FnMut(&str, &'static Spec, T) -> U) -> Ovals<U> {
        Ovals { list: self.list.map(&below(at, "ovals"), f) }
    }
}
