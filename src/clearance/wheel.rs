//! What is round about the wheel's and the shell's axis, by its trade figures.

use crate::geometry::{Line, Turned};
use crate::model::{Sprocket, Surroundings, Wheel};
use crate::units::{Length, Real};
use nalgebra::Vector3;

/// Pitch of a bicycle chain, half an inch (ISO 9633).
const PITCH: f64 = 12.7;

/// Diameter of the circle that the chain's pins run on: `p / sin(180°/N)` (ASME B29.1, as quoted by sprocket makers).
pub fn pitch_diameter<T: Real>(teeth: T) -> Length<T> {
    let half_step = T::of(std::f64::consts::PI) / teeth;
    Length::from_mm(T::of(PITCH) / half_step.sin())
}

/// Diameter over the teeth: `p (0.6 + cot(180°/N))` (the same source). A bicycle's rings can be a little smaller.
pub fn tip_diameter<T: Real>(teeth: T) -> Length<T> {
    let half_step = T::of(std::f64::consts::PI) / teeth;
    Length::from_mm(T::of(PITCH) * (T::of(0.6) + T::one() / half_step.tan()))
}

/// The tyre: its section is a circle stretched to its width or height, its foot on the bead seat, swollen by the run-out. For
/// a tyre as high as it is wide that is a torus; else it holds the ellipse of that width and height.
pub(super) fn tyre<T: Real>(wheel: &Wheel<T>, surroundings: &Surroundings<T>, axle: Line<T>) -> Turned<T> {
    let half = T::of(0.5);
    let width = surroundings.measured_width.unwrap_or(wheel.tyre_width).mm();
    let height = wheel.tyre_height.mm();
    let seat = wheel.bead_seat.mm() * half;
    let (round, wide) =
        if width.value() <= height.value() { (width, T::zero()) } else { (height, width - height) };
    Turned {
        axis: axle,
        hole: seat + round * half,
        rim: seat + height - round * half,
        low: -wide * half,
        high: wide * half,
        rounding: round * half + surroundings.limits.run_out.mm(),
    }
}

/// A solid disc about `axis`, `thickness` wide about `middle` along it.
pub(super) fn disc<T: Real>(axis: Line<T>, diameter: T, middle: T, thickness: T) -> Turned<T> {
    let half = thickness * T::of(0.5);
    Turned {
        axis,
        hole: T::zero(),
        rim: diameter * T::of(0.5),
        low: middle - half,
        high: middle + half,
        rounding: T::zero(),
    }
}

/// The smallest sprocket's chain: a disc as wide as the chain, half a plate higher than its pins.
pub(super) fn chain<T: Real>(sprocket: &Sprocket<T>, axis: Line<T>, half_spacing: T) -> Turned<T> {
    let diameter = pitch_diameter(sprocket.teeth.number()).mm() + sprocket.chain_height.mm();
    disc(axis, diameter, half_spacing - sprocket.from_dropout.mm(), sprocket.chain_width.mm())
}

/// The same line, its stations counting to the side `sign`.
pub(super) fn towards<T: Real>(axis: Line<T>, sign: f64) -> Line<T> {
    Line { direction: Vector3::y() * T::of(sign), ..axis }
}
