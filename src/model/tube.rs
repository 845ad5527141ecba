//! A stay's raw tube.

use super::bends::Bends;
use super::butts::Butts;
use super::group::group;
use super::ovals::Ovals;
use crate::units::Length;

group! {
    /// A tube with at most one straight-line taper, round but for its oval stretches; stations run from the raw tube's front end, along its middle.
    Tube {
        /// Outer diameter up to the taper.
        od_front: Length = "od_front_mm", "front diameter", 22.2, 4.0..=100.0;
        /// Outer diameter after the taper.
        od_rear: Length = "od_rear_mm", "rear diameter", 16.0, 4.0..=100.0;
        /// Where the taper starts.
        taper_start: Length = "taper_start_mm", "taper start", 150.0, 0.0..=1200.0;
        /// Where the taper ends.
        taper_end: Length = "taper_end_mm", "taper end", 380.0, 0.0..=1200.0;
        /// Wall thickness, where no butts say otherwise.
        wall: Length = "wall_mm", "wall", 0.8, 0.1..=20.0;
        /// Length of the raw tube, along its middle.
        length: Length = "length_mm", "tube length", 430.0, 20.0..=1200.0;
        /// The place on the raw tube that lies at the front reference point.
        front_trim: Length = "front_trim_mm", "front trim", 10.0, -200.0..=600.0;
    } with {
        /// Its bends, and how it is laid with them.
        bends: Bends;
        /// Its wall by station.
        butts: Butts;
        /// Its oval stretches.
        ovals: Ovals;
    }
}
