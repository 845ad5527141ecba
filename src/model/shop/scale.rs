//! A scale: what it shows for a true figure, and how finely.

use crate::model::group::group;
use crate::units::{Angle, Length, Quantity};

/// Which way a scale counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Sense {
    /// It shows more as the figure grows.
    #[default]
    Rises,
    /// It shows less as the figure grows.
    Falls,
}

impl Sense {
    /// Both ways.
    pub const ALL: [Self; 2] = [Self::Rises, Self::Falls];

    /// The word in a shop file.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Rises => "rises",
            Self::Falls => "falls",
        }
    }

    /// +1 or −1.
    pub const fn sign(self) -> f64 {
        match self {
            Self::Rises => 1.0,
            Self::Falls => -1.0,
        }
    }

    /// The way that is left when the figure itself counts the other way (`sign` −1) or not (+1).
    #[must_use]
    pub const fn turned(self, sign: f64) -> Self {
        match (self, sign < 0.0) {
            (Self::Rises, true) => Self::Falls,
            (Self::Falls, true) => Self::Rises,
            (same, false) => same,
        }
    }
}

group! {
    /// A scale of lengths.
    LengthScaleFigures {
        /// What it shows where the true figure is 0.
        zero: Length = "zero_mm", "scale zero", 0.0, -5000.0..=5000.0;
        /// Its smallest division; 0 for one that shows every figure.
        division: Length = "division_mm", "smallest division", 0.0, 0.0..=10.0;
    }
}

group! {
    /// A scale of angles.
    AngleScaleFigures {
        /// What it shows where the true figure is 0.
        zero: Angle = "zero_deg", "scale zero", 0.0, -360.0..=360.0;
        /// Its smallest division; 0 for one that shows every figure.
        division: Angle = "division_deg", "smallest division", 0.0, 0.0..=10.0;
    }
}

/// A scale of lengths and its way.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct LengthScale {
    /// Zero and division.
    pub figures: LengthScaleFigures,
    /// Which way it counts.
    pub sense: Sense,
}

/// A scale of angles and its way.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct AngleScale {
    /// Zero and division.
    pub figures: AngleScaleFigures,
    /// Which way it counts.
    pub sense: Sense,
}

/// A figure as a scale shows it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shown<Q> {
    /// What the scale shows when it is set, a whole count of divisions.
    pub reading: Q,
    /// The figure that this reading makes.
    pub as_set: Q,
    /// The figure wanted less the one made.
    pub remainder: Q,
    /// The scale's smallest division.
    pub division: Q,
}

impl LengthScale {
    /// What is set for a wanted length.
    pub fn shows(&self, wanted: Length) -> Shown<Length> {
        shown(wanted, self.figures.zero, self.figures.division, self.sense)
    }
}

impl AngleScale {
    /// What is set for a wanted angle.
    pub fn shows(&self, wanted: Angle) -> Shown<Angle> {
        shown(wanted, self.figures.zero, self.figures.division, self.sense)
    }
}

fn shown<Q: Quantity<f64>>(wanted: Q, zero: Q, division: Q, sense: Sense) -> Shown<Q> {
    let (true_figure, zero, step) = (wanted.recorded(), zero.recorded(), division.recorded());
    let exact = zero + sense.sign() * true_figure;
    let reading = if step > 0.0 { (exact / step).round() * step } else { exact };
    let as_set = sense.sign() * (reading - zero);
    Shown {
        reading: Q::from_recorded(reading),
        as_set: Q::from_recorded(as_set),
        remainder: Q::from_recorded(true_figure - as_set),
        division,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn scale(zero: f64, division: f64, sense: Sense) -> LengthScale {
        let figures = LengthScaleFigures { zero: Length::from_mm(zero), division: Length::from_mm(division) };
        LengthScale { figures, sense }
    }

    /// By hand: a rule whose 20 stands at the true zero and that is marked every half millimetre.
    #[test]
    fn zero_way_and_division_all_count() {
        let rising = scale(20.0, 0.5, Sense::Rises).shows(Length::from_mm(398.2));
        assert_eq!(rising.reading.mm(), 418.0);
        assert_eq!(rising.as_set.mm(), 398.0);
        assert!((rising.remainder.mm() - 0.2).abs() < 1e-12);
        let falling = scale(500.0, 0.5, Sense::Falls).shows(Length::from_mm(398.2));
        assert_eq!(falling.reading.mm(), 102.0);
        assert_eq!(falling.as_set.mm(), 398.0);
    }

    #[test]
    fn a_scale_without_divisions_shows_the_figure_itself() {
        let shown = scale(0.0, 0.0, Sense::Falls).shows(Length::from_mm(12.345));
        assert_eq!((shown.reading.mm(), shown.remainder.mm()), (-12.345, 0.0));
    }
}
