//! A figure of the plan that is set, read or measured, as the page writes it.

use super::show;
use staywright::quantity::{LengthUnit, fixed};

pub use staywright::work::{Named, Reading};

/// Writing a figure in the page's unit.
pub trait Written {
    /// As the page writes it.
    fn text(self, unit: LengthUnit) -> String;

    /// The figure and its unit, to be written in two sizes.
    fn parts(self, unit: LengthUnit) -> (String, &'static str);
}

impl Written for Reading {
    fn text(self, unit: LengthUnit) -> String {
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

    fn parts(self, unit: LengthUnit) -> (String, &'static str) {
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

const fn feed_sign(unit: LengthUnit) -> &'static str {
    match unit {
        LengthUnit::Millimetre => "mm/min",
        LengthUnit::Inch => "in/min",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use staywright::quantity::{Angle, Length, SpindleSpeed};

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
