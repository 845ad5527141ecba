//! A figure of the plan that is set, read or measured.

use super::show;
use staywright::quantity::{Angle, Length, LengthUnit};

/// A figure with its kind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reading {
    /// A length.
    Length(Length),
    /// The diameter of something round.
    Diameter(Length),
    /// An angle.
    Angle(Angle),
    /// A position that is no number.
    Word(&'static str),
}

impl Reading {
    /// As the page writes it.
    pub fn text(self, unit: LengthUnit) -> String {
        match self {
            Self::Length(length) => show::length(length, unit),
            Self::Diameter(length) => show::diameter(length, unit),
            Self::Angle(angle) => show::angle(angle),
            Self::Word(word) => word.to_owned(),
        }
    }

    /// The figure and its unit, to be written in two sizes.
    pub fn parts(self, unit: LengthUnit) -> (String, &'static str) {
        let text = self.text(unit);
        let sign = match self {
            Self::Length(_) | Self::Diameter(_) => show::sign(unit),
            Self::Angle(_) | Self::Word(_) => "",
        };
        (text.strip_suffix(sign).map_or(text.as_str(), str::trim_end).to_owned(), sign)
    }

    /// The recorded number, where it is one.
    pub const fn number(self) -> Option<f64> {
        match self {
            Self::Length(length) | Self::Diameter(length) => Some(length.mm()),
            Self::Angle(angle) => Some(angle.degrees()),
            Self::Word(_) => None,
        }
    }
}

/// A figure and what it is called.
#[derive(Clone, Debug, PartialEq)]
pub struct Named {
    /// What it is called.
    pub name: String,
    /// The figure.
    pub reading: Reading,
}

impl Named {
    /// A named figure.
    pub fn new(name: impl Into<String>, reading: Reading) -> Self {
        Self { name: name.into(), reading }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figure_and_unit_come_apart() {
        let length = Reading::Length(Length::from_mm(415.0));
        assert_eq!(length.parts(LengthUnit::Millimetre), ("415.00".into(), "mm"));
        assert_eq!(Reading::Angle(Angle::from_degrees(7.5)).parts(LengthUnit::Inch), ("7.50°".into(), ""));
        assert_eq!(Reading::Word("on its side").parts(LengthUnit::Inch), ("on its side".into(), ""));
    }
}
