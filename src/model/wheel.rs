//! The rear wheel as far as the stays meet it.

use super::group::group;
use crate::units::Length;

group! {
    /// Rim and tyre. A tyre's height above the bead seat is about its width (ISO 5775-1).
    Wheel {
        /// Bead seat diameter (622 for most road wheels).
        bead_seat: Length = "bead_seat_mm", "bead seat diameter", 622.0, 150.0..=800.0;
        /// Tyre section width.
        tyre_width: Length = "tyre_width_mm", "tyre width", 40.0, 10.0..=150.0;
        /// Tyre section height above the bead seat.
        tyre_height: Length = "tyre_height_mm", "tyre height", 40.0, 5.0..=150.0;
    }
}
