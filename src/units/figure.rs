//! Reading figures as people type them: any unit of the right kind, point or comma, fractions.

use super::kind::{Kind, LengthUnit, Unit};
use super::scan::{ScanError, is_of_number, signed_number};
use super::{Angle, Bounds, Length};

/// What was understood of a typed figure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figure<Q> {
    /// The quantity.
    pub value: Q,
    /// The unit it was typed in, or taken in where none was typed.
    pub unit: Unit,
}

impl<Q> Figure<Q> {
    fn map<R>(self, to: impl FnOnce(Q) -> R) -> Figure<R> {
        Figure { value: to(self.value), unit: self.unit }
    }
}

/// Why a typed text is not the figure that is wanted.
#[derive(Clone, Debug, PartialEq)]
pub enum FigureError {
    /// Nothing was typed.
    Empty,
    /// The text holds no number that can be read. At most its first 24 characters, as with the other texts here.
    NotANumber(String),
    /// A fraction with a zero below the line.
    ZeroDenominator,
    /// More than one comma or point, so the thousands and the decimals cannot be told apart.
    TwoDecimalMarks(String),
    /// The number is followed by something that is no unit.
    UnknownUnit(String),
    /// The number is followed by a unit of something else: degrees where a length is wanted.
    WrongUnit {
        /// What was typed behind the number.
        text: String,
        /// What is wanted.
        wanted: Kind,
    },
    /// A part of a tooth.
    NotWhole,
    /// A figure outside its range.
    Outside {
        /// The recorded number.
        value: f64,
        /// The range of recorded numbers.
        bounds: Bounds,
    },
}

/// Reads a figure of a kind; its value is the recorded number. A text without a unit is taken in the page's.
///
/// Understood: `430`, `28,6`, `28.6 mm`, `1.125in`, `1 1/8"`, `1-1/8 in`, `1⅝`, `−3/16 inch`, `73,5°`, `42T`, `⌀ 40 mm`.
///
/// # Errors
/// Every error of [`FigureError`] but `Outside`.
pub fn read_figure(text: &str, kind: Kind, page: LengthUnit) -> Result<Figure<f64>, FigureError> {
    let text = text.trim().trim_start_matches(['⌀', 'Ø', 'ø']).trim_start();
    if text.is_empty() {
        return Err(FigureError::Empty);
    }
    let (number, rest) = signed_number(text).map_err(|error| named(error, text))?;
    let unit = unit_of(rest.trim(), text, kind, page)?;
    if kind == Kind::Count && number.fract() != 0.0 {
        return Err(FigureError::NotWhole);
    }
    let value = unit.recorded(number);
    if value.is_finite() { Ok(Figure { value, unit }) } else { Err(FigureError::NotANumber(clipped(text))) }
}

/// Reads a figure that must lie in `bounds` of recorded numbers.
///
/// # Errors
/// Every error of [`FigureError`].
pub fn read_within(
    text: &str,
    kind: Kind,
    bounds: Bounds,
    page: LengthUnit,
) -> Result<Figure<f64>, FigureError> {
    let figure = read_figure(text, kind, page)?;
    if bounds.contain(figure.value) {
        Ok(figure)
    } else {
        Err(FigureError::Outside { value: figure.value, bounds })
    }
}

/// Reads a length.
///
/// # Errors
/// As [`read_figure`].
pub fn read_length(text: &str, page: LengthUnit) -> Result<Figure<Length>, FigureError> {
    read_figure(text, Kind::Length, page).map(|figure| figure.map(Length::from_mm))
}

/// Reads an angle in degrees: `73`, `73,5°`, `73.5 deg`.
///
/// # Errors
/// As [`read_figure`].
pub fn read_angle(text: &str) -> Result<Figure<Angle>, FigureError> {
    read_figure(text, Kind::Angle, LengthUnit::Millimetre).map(|figure| figure.map(Angle::from_degrees))
}

/// The unit that `rest` of `text` names.
fn unit_of(rest: &str, text: &str, kind: Kind, page: LengthUnit) -> Result<Unit, FigureError> {
    if rest.is_empty() {
        return Ok(kind.unit(page));
    }
    match Unit::named(rest) {
        Some(unit) if unit.kind() == kind => Ok(unit),
        Some(_) => Err(FigureError::WrongUnit { text: clipped(rest), wanted: kind }),
        // What goes on with figures is no unit but a number that ends in the middle: `1e5`, `430 5`.
        None if rest.contains(is_of_number) => Err(FigureError::NotANumber(clipped(text))),
        None => Err(FigureError::UnknownUnit(clipped(rest))),
    }
}

fn named(error: ScanError, text: &str) -> FigureError {
    match error {
        ScanError::NoNumber => FigureError::NotANumber(clipped(text)),
        ScanError::TwoDecimalMarks => FigureError::TwoDecimalMarks(clipped(text)),
        ScanError::ZeroDenominator => FigureError::ZeroDenominator,
    }
}

/// At most the first 24 characters, so that an error stays a sentence whatever was pasted.
fn clipped(text: &str) -> String {
    let mut clip: String = text.chars().take(24).collect();
    if text.chars().nth(24).is_some() {
        clip.push('…');
    }
    clip
}
