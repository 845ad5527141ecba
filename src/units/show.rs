//! How a figure is written where people read it.

use super::{Angle, Length, LengthUnit, fixed, trimmed};

/// Figures after the point of a length that is set or measured: a hundredth of a millimetre, a thousandth of an inch.
const fn decimals(unit: LengthUnit) -> u32 {
    match unit {
        LengthUnit::Millimetre => 2,
        LengthUnit::Inch => 3,
    }
}

/// The unit's sign.
pub const fn sign(unit: LengthUnit) -> &'static str {
    match unit {
        LengthUnit::Millimetre => "mm",
        LengthUnit::Inch => "in",
    }
}

/// A number of millimetres, in `unit`.
pub fn in_unit(mm: f64, unit: LengthUnit) -> f64 {
    match unit {
        LengthUnit::Millimetre => mm,
        LengthUnit::Inch => Length::from_mm(mm).inches(),
    }
}

/// A length without its unit's sign.
pub fn bare_length(length: Length, unit: LengthUnit) -> String {
    minus(&fixed(in_unit(length.mm(), unit), decimals(unit)))
}

/// A length with its unit's sign.
pub fn length(length: Length, unit: LengthUnit) -> String {
    format!("{} {}", bare_length(length, unit), sign(unit))
}

/// A diameter as a shop writes it, closing zeros left off.
pub fn diameter(length: Length, unit: LengthUnit) -> String {
    format!("⌀\u{202f}{} {}", trimmed(in_unit(length.mm(), unit), decimals(unit)), sign(unit))
}

/// An angle to a hundredth of a degree.
pub fn angle(angle: Angle) -> String {
    format!("{}°", minus(&fixed(angle.degrees(), 2)))
}

/// A length that may not exist.
pub fn length_or_dash(length: Option<Length>, unit: LengthUnit) -> String {
    length.map_or_else(|| "—".to_owned(), |known| self::length(known, unit))
}

/// A difference, with its sign always written.
pub fn signed_length(mm: f64, unit: LengthUnit) -> String {
    let text = bare_length(Length::from_mm(mm), unit);
    let plus =
        if text.starts_with('−') || text.bytes().all(|b| matches!(b, b'0' | b'.')) { "" } else { "+" };
    format!("{plus}{text} {}", sign(unit))
}

/// A difference of angles, with its sign always written.
pub fn signed_angle(degrees: f64) -> String {
    let text = angle(Angle::from_degrees(degrees));
    let none = text.trim_end_matches('°').bytes().all(|b| matches!(b, b'0' | b'.'));
    let plus = if text.starts_with('−') || none { "" } else { "+" };
    format!("{plus}{text}")
}

/// A small figure, mm or degrees: as fine as it needs to be read.
pub fn fine(value: f64, is_angle: bool, unit: LengthUnit) -> String {
    let small = if value.abs() < 0.1 { 3 } else { 2 };
    if is_angle {
        return format!("{}°", minus(&trimmed(value, small)));
    }
    let decimals = if unit == LengthUnit::Inch { 4 } else { small };
    format!("{} {}", minus(&trimmed(in_unit(value, unit), decimals)), sign(unit))
}

/// The typographic minus, which stands as wide as a figure.
pub fn minus(text: &str) -> String {
    text.replacen('-', "−", 1)
}

#[cfg(test)]
mod tests {
    use super::*;
    use LengthUnit::{Inch, Millimetre};

    #[test]
    fn lengths_follow_the_unit_of_the_page() {
        let mm = Length::from_mm;
        assert_eq!(length(mm(28.575), Inch), "1.125 in");
        assert_eq!(length(mm(28.6), Millimetre), "28.60 mm");
        assert_eq!(length(mm(-3.5), Millimetre), "−3.50 mm");
        assert_eq!(length_or_dash(None, Millimetre), "—");
        assert_eq!(diameter(mm(40.0), Millimetre), "⌀\u{202f}40 mm");
    }

    #[test]
    fn differences_always_carry_a_sign_unless_they_are_nothing() {
        assert_eq!(signed_length(0.25, Millimetre), "+0.25 mm");
        assert_eq!(signed_length(-0.25, Millimetre), "−0.25 mm");
        assert_eq!(signed_length(0.001, Millimetre), "0.00 mm");
        assert_eq!(signed_angle(0.5), "+0.50°");
        assert_eq!(signed_angle(-0.001), "0.00°");
    }
}
