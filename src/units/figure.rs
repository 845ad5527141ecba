//! Reading figures as people type them: millimetres or inches, point or comma, fractions.

use super::{Angle, Length};
use serde::{Deserialize, Serialize};
use std::fmt;

/// A unit of length for entry and display.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum LengthUnit {
    /// Millimetres, the unit of record.
    #[default]
    Millimetre,
    /// Inches of 25.4 mm.
    Inch,
}

/// What was understood of a typed figure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figure<Q> {
    /// The quantity.
    pub value: Q,
    /// The unit it was read in (millimetres for an angle, which has only degrees).
    pub unit: LengthUnit,
}

/// Why a typed text is not a figure.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FigureError {
    /// Nothing was typed.
    Empty,
    /// The text holds no number that can be read.
    NotANumber(String),
    /// A fraction with a zero below the line.
    ZeroDenominator,
    /// More than one comma or point, so the thousands and the decimals cannot be told apart.
    TwoDecimalMarks(String),
    /// The number is followed by something that is no unit of this quantity.
    UnknownUnit(String),
}

impl fmt::Display for FigureError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => write!(f, "a figure is needed here"),
            Self::NotANumber(text) => write!(f, "“{text}” is not a figure"),
            Self::ZeroDenominator => write!(f, "a fraction cannot have 0 below the line"),
            Self::TwoDecimalMarks(text) => write!(f, "“{text}” has more than one decimal mark"),
            Self::UnknownUnit(text) => write!(f, "“{text}” is not a unit known here"),
        }
    }
}

impl std::error::Error for FigureError {}

/// Reads a length. A text without a unit is taken in `default`.
///
/// Understood: `430`, `28,6`, `28.6 mm`, `1.125in`, `1 1/8"`, `1-1/8 in`, `-3/16 inch`.
pub fn read_length(text: &str, default: LengthUnit) -> Result<Figure<Length>, FigureError> {
    let (number, unit) = split_unit(text)?;
    let unit = match unit.to_ascii_lowercase().as_str() {
        "" => default,
        "mm" => LengthUnit::Millimetre,
        "in" | "inch" | "inches" | "\"" | "″" | "”" => LengthUnit::Inch,
        _ => return Err(FigureError::UnknownUnit(clipped(unit))),
    };
    let value = read_number(number)?;
    let value = match unit {
        LengthUnit::Millimetre => Length::from_mm(value),
        LengthUnit::Inch => Length::from_inches(value),
    };
    Ok(Figure { value, unit })
}

/// Reads an angle in degrees: `73`, `73,5°`, `73.5 deg`.
pub fn read_angle(text: &str) -> Result<Figure<Angle>, FigureError> {
    let (number, unit) = split_unit(text)?;
    if !matches!(unit.to_ascii_lowercase().as_str(), "" | "°" | "deg" | "degree" | "degrees") {
        return Err(FigureError::UnknownUnit(clipped(unit)));
    }
    Ok(Figure { value: Angle::from_degrees(read_number(number)?), unit: LengthUnit::Millimetre })
}

/// The number part and the unit part of a typed text, both trimmed.
fn split_unit(text: &str) -> Result<(&str, &str), FigureError> {
    let text = text.trim();
    if text.is_empty() {
        return Err(FigureError::Empty);
    }
    let end = text.rfind(|c: char| c.is_ascii_digit() || c == '.' || c == ',');
    let end = end.ok_or_else(|| FigureError::NotANumber(clipped(text)))?;
    let (number, unit) = text.split_at(end + 1);
    Ok((number.trim(), unit.trim()))
}

/// A signed decimal, fraction or mixed fraction.
fn read_number(text: &str) -> Result<f64, FigureError> {
    let (sign, body) = match text.strip_prefix(['-', '−']) {
        Some(rest) => (-1.0, rest.trim_start()),
        None => (1.0, text.strip_prefix('+').unwrap_or(text).trim_start()),
    };
    let value = match body.split_once('/') {
        None => decimal(body)?,
        Some((top, bottom)) => fraction(top.trim(), bottom.trim())?,
    };
    Ok(sign * value)
}

/// `1 1`/`8`, `1-1`/`8` or `1`/`8`: an optional whole number, then a fraction.
fn fraction(top: &str, bottom: &str) -> Result<f64, FigureError> {
    let (whole, top) = match top.rsplit_once([' ', '-']) {
        Some((whole, top)) => (decimal(whole.trim())?, decimal(top)?),
        None => (0.0, decimal(top)?),
    };
    let bottom = decimal(bottom)?;
    if bottom == 0.0 {
        return Err(FigureError::ZeroDenominator);
    }
    Ok(whole + top / bottom)
}

/// An unsigned decimal with at most one point or comma. Exponents are refused: nobody types them at a mill,
/// and `1e5` is more likely a slip than a length.
fn decimal(text: &str) -> Result<f64, FigureError> {
    if text.matches(['.', ',']).count() > 1 {
        return Err(FigureError::TwoDecimalMarks(clipped(text)));
    }
    let (whole, part) = text.split_once(['.', ',']).unwrap_or((text, ""));
    if whole.len() + part.len() == 0 || !whole.bytes().chain(part.bytes()).all(|b| b.is_ascii_digit()) {
        return Err(FigureError::NotANumber(clipped(text)));
    }
    Some(from_digits(whole, part))
        .filter(|number| number.is_finite())
        .ok_or_else(|| FigureError::NotANumber(clipped(text)))
}

/// Most digits that are read of a figure: far beyond a millionth of a millimetre.
const MOST_DIGITS: u64 = 1_000_000_000_000_000;

/// The number with those digits before and behind its point.
///
/// Fifteen digits and the powers of ten up to 22 are exact, so the one division rounds as it should (Clinger, How to read
/// floating point numbers accurately, 1990). Further digits are left out.
fn from_digits(whole: &str, part: &str) -> f64 {
    let (mut digits, mut point) = (0u64, 0i32);
    let places = whole.bytes().map(|b| (b, 0)).chain(part.bytes().map(|b| (b, 1)));
    for (digit, behind) in places {
        if digits < MOST_DIGITS / 10 {
            digits = digits * 10 + u64::from(digit - b'0');
            point += behind;
        } else {
            point -= 1 - behind;
        }
    }
    let power = 10f64.powi(point.abs());
    if point >= 0 { digits as f64 / power } else { digits as f64 * power }
}

/// At most the first 24 characters, so that an error stays a sentence whatever was pasted.
fn clipped(text: &str) -> String {
    let mut clip: String = text.chars().take(24).collect();
    if text.chars().nth(24).is_some() {
        clip.push('…');
    }
    clip
}

#[cfg(test)]
mod tests {
    use super::*;
    use LengthUnit::{Inch, Millimetre};

    fn check(text: &str, mm: f64, unit: LengthUnit) {
        match read_length(text, Millimetre) {
            Ok(figure) => {
                assert!((figure.value.mm() - mm).abs() < 1e-12, "{text}: {}", figure.value.mm());
                assert_eq!(figure.unit, unit, "{text}");
            }
            Err(error) => panic!("{text}: {error}"),
        }
    }

    proptest::proptest! {
        #[test]
        fn a_decimal_is_the_number_nearest_to_it(digits in 0u64..1_000_000_000_000_000, behind in 0usize..=15) {
            let text = format!("{digits:016}");
            let (whole, part) = text.split_at(text.len() - behind);
            let known: f64 = format!("{whole}.{part}").parse().unwrap_or(f64::NAN);
            proptest::prop_assert_eq!(from_digits(whole, part).to_bits(), known.to_bits());
        }
    }

    #[test]
    fn digits_beyond_all_use_are_left_out() {
        assert_eq!(from_digits("430", &"1234567".repeat(9)), 430.123_456_712_345);
        assert_eq!(from_digits("0", "00000000000000000000005"), 5e-23);
        let huge = from_digits(&"9".repeat(24), "5");
        assert!((huge / 1e24 - 1.0).abs() < 1e-14, "{huge}");
    }

    #[test]
    fn what_people_type_is_understood() {
        check("430", 430.0, Millimetre);
        check(" 28,6 ", 28.6, Millimetre);
        check("28.6mm", 28.6, Millimetre);
        check("1 1/8 in", 28.575, Inch);
        check("1-1/8\"", 28.575, Inch);
        check("7/8 inch", 22.225, Inch);
        check("-3/16 in", -4.7625, Inch);
        check("−12", -12.0, Millimetre);
        check(".5", 0.5, Millimetre);
        check("5.", 5.0, Millimetre);
    }

    #[test]
    fn what_is_not_a_figure_is_named() {
        let why = |text| read_length(text, Millimetre).map(|f| f.value.mm());
        assert_eq!(why(""), Err(FigureError::Empty));
        assert_eq!(why("abc"), Err(FigureError::NotANumber("abc".into())));
        assert_eq!(why("1/0"), Err(FigureError::ZeroDenominator));
        assert_eq!(why("1.000,5"), Err(FigureError::TwoDecimalMarks("1.000,5".into())));
        assert_eq!(why("12 furlongs"), Err(FigureError::UnknownUnit("furlongs".into())));
        assert_eq!(why("1e5"), Err(FigureError::NotANumber("1e5".into())));
        assert_eq!(why("1//2"), Err(FigureError::NotANumber("/2".into())));
        assert_eq!(why("NaN"), Err(FigureError::NotANumber("NaN".into())));
        let endless = "9".repeat(400);
        assert!(why(&endless).is_err());
        assert_eq!(why("--5"), Err(FigureError::NotANumber("-5".into())));
    }

    #[test]
    fn angles_have_degrees_only() {
        assert_eq!(read_angle("73,5°").map(|f| f.value.degrees()), Ok(73.5));
        assert_eq!(
            read_angle("73 mm").map(|f| f.value.degrees()),
            Err(FigureError::UnknownUnit("mm".into()))
        );
    }
}
