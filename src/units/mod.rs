//! Numbers with a meaning: lengths, angles, their bounds, and how people write them.

mod angle;
mod bounds;
mod figure;
mod length;
mod plain;
mod ranked;
mod real;
pub mod show;
mod written;

pub use angle::Angle;
pub use bounds::Bounds;
pub use figure::{Figure, FigureError, LengthUnit, read_angle, read_length};
pub use length::Length;
pub use plain::{Count, CuttingSpeed, Feed, Force, SpindleSpeed, Stress};
pub use ranked::ranked;
pub use real::Real;
pub use written::{fixed, inch_fraction, said, trimmed, write_fixed};

/// A quantity that a job or a plan writes as one number in its unit of record.
pub trait Quantity<T>: Copy {
    /// The number as files and links write it: millimetres for a length, degrees for an angle.
    fn recorded(self) -> T;
    /// The quantity whose recorded number is `value`.
    fn from_recorded(value: T) -> Self;
    /// The unit that follows the number on the page: `mm`, `°`, `rpm`; empty for a count.
    const UNIT: &'static str;
}
