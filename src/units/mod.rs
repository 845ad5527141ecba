//! Numbers with a meaning: lengths, angles, their bounds, and how people write them.

mod angle;
mod bounds;
mod figure;
mod kind;
mod length;
mod plain;
mod ranked;
mod real;
mod scan;
pub mod show;
mod written;

pub use angle::Angle;
pub use bounds::Bounds;
pub use figure::{Figure, FigureError, read_angle, read_figure, read_length, read_within};
pub use kind::{Kind, LengthUnit, Unit};
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
    /// What it is a quantity of.
    const KIND: Kind;
}
