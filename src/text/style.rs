//! How sentences are written: the unit of their lengths, and which English.

use crate::units::{Angle, Bounds, Length, LengthUnit, said, show};

/// Which English.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum English {
    /// tire, miter, center.
    American,
    /// tyre, mitre, centre.
    #[default]
    British,
}

impl English {
    /// Both, in the order they are offered.
    pub const ALL: [Self; 2] = [Self::American, Self::British];

    /// The tag of RFC 5646: `en-US`, `en-GB`.
    pub const fn tag(self) -> &'static str {
        match self {
            Self::American => "en-US",
            Self::British => "en-GB",
        }
    }

    /// The English of that tag.
    pub fn from_tag(tag: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|english| english.tag() == tag)
    }

    /// The English of a reader whose browser asks for `tag` first: American for `en-US` and for languages other than English
    /// in the Americas, British for the rest.
    pub fn of_browser(tag: &str) -> Self {
        let mut parts = tag.split('-').skip(1);
        let american = parts.any(|part| {
            ["US", "PH", "PR", "MX", "BR", "AR", "CL", "CO", "PE"]
                .iter()
                .any(|known| part.eq_ignore_ascii_case(known))
        });
        if american || tag.eq_ignore_ascii_case("en") { Self::American } else { Self::British }
    }
}

/// How sentences are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub struct Style {
    /// The unit of lengths.
    pub unit: LengthUnit,
    /// Which English.
    pub english: English,
}

impl Style {
    /// The style of public files: millimetres, British English.
    pub const FILE: Self = Self { unit: LengthUnit::Millimetre, english: English::British };

    /// Every style there is.
    pub const ALL: [Self; 4] = [
        Self::FILE,
        Self { unit: LengthUnit::Inch, english: English::British },
        Self { unit: LengthUnit::Millimetre, english: English::American },
        Self { unit: LengthUnit::Inch, english: English::American },
    ];

    /// The word of this English.
    pub const fn word(self, american: &'static str, british: &'static str) -> &'static str {
        match self.english {
            English::American => american,
            English::British => british,
        }
    }

    /// A name that is written in British English, in this English.
    pub fn spell(self, name: &str) -> String {
        match self.english {
            English::British => name.to_owned(),
            English::American => SPELLED
                .iter()
                .fold(name.to_owned(), |name, (american, british)| name.replace(british, american)),
        }
    }

    /// A length with its unit, to a hundredth of a millimetre or a thousandth of an inch, closing zeros left off.
    pub fn length(self, length: Length) -> String {
        format!("{} {}", self.bare(length), show::sign(self.unit))
    }

    /// The same as entered: to a thousandth of a millimetre.
    pub fn entered(self, length: Length) -> String {
        let decimals = if self.unit == LengthUnit::Inch { 4 } else { 3 };
        format!("{} {}", said(show::in_unit(length.mm(), self.unit), decimals), show::sign(self.unit))
    }

    fn bare(self, length: Length) -> String {
        let decimals = if self.unit == LengthUnit::Inch { 3 } else { 2 };
        said(show::in_unit(length.mm(), self.unit), decimals)
    }

    /// An angle to a hundredth of a degree, closing zeros left off.
    pub fn angle(self, angle: Angle) -> String {
        format!("{}°", said(angle.degrees(), 2))
    }

    /// An angle to a tenth of a degree.
    pub fn rough_angle(self, angle: Angle) -> String {
        format!("{}°", said(angle.degrees(), 1))
    }

    /// A figure of a unit of record (`mm`, `°`, `rpm`, or empty for a count): lengths in the unit of the page.
    pub fn figure(self, value: f64, unit: &str) -> String {
        match unit {
            "mm" => self.entered(Length::from_mm(value)),
            _ => format!("{}{}", said(value, 3), spaced(unit)),
        }
    }

    /// A range of a unit of record: `250 to 800 mm`. In inches it is rounded inwards, so that every figure it shows is allowed.
    pub fn range(self, bounds: Bounds, unit: &str) -> String {
        if unit == "mm" && self.unit == LengthUnit::Inch {
            let inwards =
                |mm: f64, round: fn(f64) -> f64| round_to_thousandth(show::in_unit(mm, self.unit), round);
            let (min, max) = (inwards(bounds.min, f64::ceil), inwards(bounds.max, f64::floor));
            return format!("{} to {} in", said(min, 3), said(max, 3));
        }
        format!("{} to {}{}", said(bounds.min, 3), said(bounds.max, 3), spaced(unit))
    }
}

/// Words of names that the two Englishes spell each in their own way: American, British.
const SPELLED: [(&str, &str); 1] = [("tire", "tyre")];

/// Rounded to a thousandth; what is one already, but for rounding, stays.
fn round_to_thousandth(value: f64, round: fn(f64) -> f64) -> f64 {
    let thousandths = value * 1000.0;
    let nearest = thousandths.round();
    let whole = if (thousandths - nearest).abs() < 1e-6 { nearest } else { round(thousandths) };
    whole / 1000.0
}

/// ISO 80000-1: a space before `mm`, none before `°`. A count has no unit.
fn spaced(unit: &str) -> String {
    if matches!(unit, "°" | "") { unit.to_owned() } else { format!(" {unit}") }
}

#[cfg(test)]
mod tests {
    use super::*;

    const INCHES: Style = Style { unit: LengthUnit::Inch, english: English::American };

    #[test]
    fn lengths_are_written_in_the_unit_of_the_page() {
        assert_eq!(Style::FILE.length(Length::from_mm(-28.575)), "−28.58 mm");
        assert_eq!(INCHES.length(Length::from_mm(28.575)), "1.125 in");
        assert_eq!(INCHES.figure(25.4, "mm"), "1 in");
        assert_eq!(INCHES.figure(12.5, "°"), "12.5°");
        assert_eq!(INCHES.figure(120.0, "rpm"), "120 rpm");
    }

    #[test]
    fn a_range_in_inches_holds_only_what_is_allowed() {
        let bounds = Bounds::new(250.0, 800.0);
        assert_eq!(Style::FILE.range(bounds, "mm"), "250 to 800 mm");
        // 250 / 25.4 = 9.84252, 800 / 25.4 = 31.49606
        assert_eq!(INCHES.range(bounds, "mm"), "9.843 to 31.496 in");
        assert_eq!(INCHES.range(Bounds::new(-254.0, 508.0), "mm"), "−10 to 20 in");
        assert_eq!(INCHES.range(Bounds::new(45.0, 90.0), "°"), "45 to 90°");
    }

    #[test]
    fn the_browser_says_which_english() {
        for (tag, english) in
            [("en-US", English::American), ("en", English::American), ("en-GB", English::British)]
        {
            assert_eq!(English::of_browser(tag), english, "{tag}");
        }
        for tag in ["de-DE", "", "en-AU", "fr"] {
            assert_eq!(English::of_browser(tag), English::British, "{tag}");
        }
        assert_eq!(English::of_browser("es-MX"), English::American);
    }
}
