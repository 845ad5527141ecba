//! What a figure is a figure of, and the units in which it is entered and shown.

use super::Length;
use super::length::MM_PER_INCH;
use super::plain::M_PER_FOOT;
use serde::{Deserialize, Serialize};

/// A unit of length for entry and display: which units the page shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum LengthUnit {
    /// Millimetres, the unit of record.
    #[default]
    Millimetre,
    /// Inches of 25.4 mm.
    Inch,
}

/// What a figure is a figure of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A length, recorded in millimetres.
    Length,
    /// An angle, recorded in degrees.
    Angle,
    /// How many teeth: a whole number.
    Count,
    /// How fast a cutting edge goes through the work, recorded in m/min.
    CuttingSpeed,
    /// How fast a spindle turns, recorded in rpm.
    SpindleSpeed,
    /// How fast work and cutter are fed together, recorded in mm/min.
    Feed,
    /// A force, recorded in newtons.
    Force,
    /// Force on an area, recorded in N/mm².
    Stress,
}

/// A unit in which a figure is typed or shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// Millimetres.
    Millimetre,
    /// Centimetres, in which frame sizes are given; read and never written.
    Centimetre,
    /// Inches.
    Inch,
    /// Degrees.
    Degree,
    /// Teeth.
    Tooth,
    /// Metres per minute.
    MetrePerMinute,
    /// Surface feet per minute.
    FootPerMinute,
    /// Turns per minute.
    TurnPerMinute,
    /// Millimetres per minute.
    MillimetrePerMinute,
    /// Inches per minute.
    InchPerMinute,
    /// Newtons.
    Newton,
    /// Newtons per square millimetre, which are megapascals.
    NewtonPerSquareMillimetre,
}

impl Kind {
    /// The unit in which the page shows the figure, and in which a number without a unit is taken.
    pub const fn unit(self, page: LengthUnit) -> Unit {
        match (self, page) {
            (Self::Length, LengthUnit::Millimetre) => Unit::Millimetre,
            (Self::Length, LengthUnit::Inch) => Unit::Inch,
            (Self::Angle, _) => Unit::Degree,
            (Self::Count, _) => Unit::Tooth,
            (Self::CuttingSpeed, LengthUnit::Millimetre) => Unit::MetrePerMinute,
            (Self::CuttingSpeed, LengthUnit::Inch) => Unit::FootPerMinute,
            (Self::SpindleSpeed, _) => Unit::TurnPerMinute,
            (Self::Feed, LengthUnit::Millimetre) => Unit::MillimetrePerMinute,
            (Self::Feed, LengthUnit::Inch) => Unit::InchPerMinute,
            (Self::Force, _) => Unit::Newton,
            (Self::Stress, _) => Unit::NewtonPerSquareMillimetre,
        }
    }
}

/// Every spelling of a unit that is read, without regard to capitals; the first of each unit is the one written.
const SPELLINGS: &[(&str, Unit)] = &[
    ("mm", Unit::Millimetre),
    ("millimetre", Unit::Millimetre),
    ("millimetres", Unit::Millimetre),
    ("millimeter", Unit::Millimetre),
    ("millimeters", Unit::Millimetre),
    ("cm", Unit::Centimetre),
    ("in", Unit::Inch),
    ("inch", Unit::Inch),
    ("inches", Unit::Inch),
    ("\"", Unit::Inch),
    ("″", Unit::Inch),
    ("”", Unit::Inch),
    ("''", Unit::Inch),
    ("°", Unit::Degree),
    ("º", Unit::Degree),
    ("˚", Unit::Degree),
    ("deg", Unit::Degree),
    ("degree", Unit::Degree),
    ("degrees", Unit::Degree),
    ("t", Unit::Tooth),
    ("tooth", Unit::Tooth),
    ("teeth", Unit::Tooth),
    ("m/min", Unit::MetrePerMinute),
    ("ft/min", Unit::FootPerMinute),
    ("fpm", Unit::FootPerMinute),
    ("sfm", Unit::FootPerMinute),
    ("rpm", Unit::TurnPerMinute),
    ("r/min", Unit::TurnPerMinute),
    ("/min", Unit::TurnPerMinute),
    ("mm/min", Unit::MillimetrePerMinute),
    ("in/min", Unit::InchPerMinute),
    ("ipm", Unit::InchPerMinute),
    ("N", Unit::Newton),
    ("N/mm²", Unit::NewtonPerSquareMillimetre),
    ("N/mm2", Unit::NewtonPerSquareMillimetre),
    ("MPa", Unit::NewtonPerSquareMillimetre),
];

impl Unit {
    /// The unit that a text names.
    pub(super) fn named(text: &str) -> Option<Self> {
        let text = text.strip_suffix('.').unwrap_or(text);
        SPELLINGS.iter().find(|(spelling, _)| spelling.eq_ignore_ascii_case(text)).map(|(_, unit)| *unit)
    }

    /// What it measures.
    pub const fn kind(self) -> Kind {
        match self {
            Self::Millimetre | Self::Centimetre | Self::Inch => Kind::Length,
            Self::Degree => Kind::Angle,
            Self::Tooth => Kind::Count,
            Self::MetrePerMinute | Self::FootPerMinute => Kind::CuttingSpeed,
            Self::TurnPerMinute => Kind::SpindleSpeed,
            Self::MillimetrePerMinute | Self::InchPerMinute => Kind::Feed,
            Self::Newton => Kind::Force,
            Self::NewtonPerSquareMillimetre => Kind::Stress,
        }
    }

    /// The sign that follows a number on the page; empty for teeth.
    pub const fn sign(self) -> &'static str {
        match self {
            Self::Millimetre => "mm",
            Self::Centimetre => "cm",
            Self::Inch => "in",
            Self::Degree => "°",
            Self::Tooth => "",
            Self::MetrePerMinute => "m/min",
            Self::FootPerMinute => "ft/min",
            Self::TurnPerMinute => "rpm",
            Self::MillimetrePerMinute => "mm/min",
            Self::InchPerMinute => "in/min",
            Self::Newton => "N",
            Self::NewtonPerSquareMillimetre => "N/mm²",
        }
    }

    /// The recorded number of `value` in this unit.
    pub fn recorded(self, value: f64) -> f64 {
        match self {
            Self::Centimetre => value * 10.0,
            Self::Inch => Length::from_inches(value).mm(),
            Self::InchPerMinute => value * MM_PER_INCH,
            Self::FootPerMinute => value * M_PER_FOOT,
            _ => value,
        }
    }

    /// The number in this unit of a recorded one.
    pub fn of_recorded(self, recorded: f64) -> f64 {
        match self {
            Self::Centimetre => recorded / 10.0,
            Self::Inch => Length::from_mm(recorded).inches(),
            Self::InchPerMinute => recorded / MM_PER_INCH,
            Self::FootPerMinute => recorded / M_PER_FOOT,
            _ => recorded,
        }
    }
}
