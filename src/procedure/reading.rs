//! A figure that is set, read or measured.

use crate::units::{Angle, Feed, Length, LengthUnit, SpindleSpeed, fixed, show};

/// A figure with its kind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reading {
    /// A length.
    Length(Length),
    /// The diameter of something round.
    Diameter(Length),
    /// An angle.
    Angle(Angle),
    /// How fast the spindle turns.
    Speed(SpindleSpeed),
    /// How fast the table is fed.
    Feed(Feed),
    /// A position that is no number.
    Word(&'static str),
}

impl Reading {
    /// The recorded number, where it is one.
    pub const fn number(self) -> Option<f64> {
        match self {
            Self::Length(length) | Self::Diameter(length) => Some(length.mm()),
            Self::Angle(angle) => Some(angle.degrees()),
            Self::Speed(speed) => Some(speed.rpm()),
            Self::Feed(feed) => Some(feed.mm_per_min()),
            Self::Word(_) => None,
        }
    }

    /// As the page writes it.
    pub fn text(self, unit: LengthUnit) -> String {
        match self {
            Self::Length(length) => show::length(length, unit),
            Self::Diameter(length) => show::diameter(length, unit),
            Self::Angle(angle) => show::angle(angle),
            Self::Speed(speed) => format!("{} rpm", fixed(speed.rpm(), 0)),
            Self::Feed(feed) => match unit {
                LengthUnit::Millimetre => format!("{} {}", fixed(feed.mm_per_min(), 0), feed_sign(unit)),
                LengthUnit::Inch => {
                    format!("{} {}", fixed(show::in_unit(feed.mm_per_min(), unit), 2), feed_sign(unit))
                }
            },
            Self::Word(word) => word.to_owned(),
        }
    }

    /// The figure and its unit, to be written in two sizes.
    pub fn parts(self, unit: LengthUnit) -> (String, &'static str) {
        let text = self.text(unit);
        let sign = match self {
            Self::Length(_) | Self::Diameter(_) => show::sign(unit),
            Self::Speed(_) => "rpm",
            Self::Feed(_) => feed_sign(unit),
            Self::Angle(_) | Self::Word(_) => "",
        };
        (text.strip_suffix(sign).map_or(text.as_str(), str::trim_end).to_owned(), sign)
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

const fn feed_sign(unit: LengthUnit) -> &'static str {
    match unit {
        LengthUnit::Millimetre => "mm/min",
        LengthUnit::Inch => "in/min",
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
        assert_eq!(
            Reading::Speed(SpindleSpeed::from_rpm(135.0)).parts(LengthUnit::Inch),
            ("135".into(), "rpm")
        );
    }
}
