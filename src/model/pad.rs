//! A flat for a brake mount on a chainstay.

use super::group::group;
use crate::units::Length;

group! {
    /// A flat, parallel to the stay plane, that a brake mount sits on. All its figures are the mount's own, as measured
    /// or read off its drawing: none is shown as a fact here.
    BrakeMountFlat {
        /// From the wheel axle forwards to the pad's middle, along the fixture. The rotor's size decides it.
        ahead: Length = "ahead_of_axle_mm", "pad middle ahead of the axle", 80.0, -100.0..=400.0;
        /// Between its two holes.
        holes: Length = "hole_spacing_mm", "hole spacing", 34.0, 1.0..=150.0;
        /// Length of the flat along the fixture.
        length: Length = "length_mm", "pad length", 60.0, 2.0..=200.0;
        /// The flat above the stay's axis; below it where negative.
        above: Length = "above_axis_mm", "pad above the stay's axis", 9.0, -60.0..=60.0;
    }
}
