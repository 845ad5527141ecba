//! The frame's rear end.

use super::group::group;
use crate::units::{Angle, Length};

group! {
    /// The figures that place the axle, the shell and the seat tube.
    Frame {
        /// Shell centre to axle centre, in the centre plane.
        chainstay_length: Length = "chainstay_length_mm", "chainstay length", 430.0, 250.0..=800.0;
        /// How far the shell sits below the axle; negative when above.
        bb_drop: Length = "bb_drop_mm", "bottom bracket drop", 70.0, -200.0..=200.0;
        /// Seat tube from the horizontal.
        seat_angle: Angle = "seat_angle_deg", "seat angle", 73.0, 45.0..=90.0;
        /// How far the seat-tube axis passes behind the shell centre.
        seat_tube_setback: Length = "seat_tube_setback_mm", "seat tube setback", 0.0, -150.0..=150.0;
        /// Outer diameter of the seat tube.
        seat_tube_od: Length = "seat_tube_od_mm", "seat tube diameter", 28.6, 10.0..=100.0;
        /// Outer diameter of the bottom-bracket shell.
        shell_od: Length = "shell_od_mm", "shell diameter", 40.0, 20.0..=100.0;
        /// Width of the bottom-bracket shell.
        shell_width: Length = "shell_width_mm", "shell width", 73.0, 30.0..=200.0;
        /// The hub's width over its faces.
        axle_spacing: Length = "axle_spacing_mm", "axle spacing", 142.0, 60.0..=260.0;
        /// How far the middle between the hub's faces lies to the drive side.
        axle_offset: Length = "axle_offset_mm", "axle offset", 0.0, -30.0..=30.0;
    }
}
