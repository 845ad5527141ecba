//! A figure in as few bytes as it has digits.

use serde::{Deserialize, Serialize};

/// Most decimals that a short number keeps.
const MOST_DECIMALS: u8 = 6;

/// Largest count of last decimals that a short number holds, so that every one is exact in a float.
const MOST_UNITS: f64 = 9.0e15;

/// How many decimals give back `value` to the last bit, and how many of the last of them it is; `None` where it has more
/// than a hand enters.
pub(super) fn digits(value: f64) -> Option<(u8, i64)> {
    (0..=MOST_DECIMALS).find_map(|decimals| {
        let units = (value * 10f64.powi(i32::from(decimals))).round();
        let same =
            units.abs() < MOST_UNITS && from_digits(decimals, units as i64).to_bits() == value.to_bits();
        same.then_some((decimals, units as i64))
    })
}

/// The number that is `units` of its last decimal.
pub(super) fn from_digits(decimals: u8, units: i64) -> f64 {
    units as f64 / 10f64.powi(i32::from(decimals))
}

/// A finite number: a whole count of its last decimal, or, where it has more decimals than a hand enters, the float itself.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub(super) enum Number {
    /// Whole.
    Units(i64),
    /// Tenths.
    Tenths(i64),
    /// Hundredths.
    Hundredths(i64),
    /// Thousandths.
    Thousandths(i64),
    /// Any count of decimals up to the most.
    Decimals(u8, i64),
    /// All bits of it.
    Exact(f64),
}

impl Number {
    /// The shortest form that gives back `value` to the last bit.
    pub(super) fn of(value: f64) -> Self {
        match digits(value) {
            Some((0, units)) => Self::Units(units),
            Some((1, units)) => Self::Tenths(units),
            Some((2, units)) => Self::Hundredths(units),
            Some((3, units)) => Self::Thousandths(units),
            Some((decimals, units)) => Self::Decimals(decimals, units),
            None => Self::Exact(value),
        }
    }

    /// The number; `None` where it is not finite.
    pub(super) fn value(self) -> Option<f64> {
        let value = match self {
            Self::Units(units) => from_digits(0, units),
            Self::Tenths(units) => from_digits(1, units),
            Self::Hundredths(units) => from_digits(2, units),
            Self::Thousandths(units) => from_digits(3, units),
            Self::Decimals(decimals, units) => from_digits(decimals, units),
            Self::Exact(value) => value,
        };
        value.is_finite().then_some(value)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_float_comes_back_to_the_last_bit() {
        let numbers = [0.0, -0.0, 415.0, 28.6, -0.1, 22.225, 1.0 / 3.0, 1e-300, 1e300, 0.1 + 0.2, 12.345_678];
        for value in numbers {
            let back = Number::of(value).value();
            assert_eq!(back.map(f64::to_bits), Some(value.to_bits()), "{value}");
        }
        assert_eq!(Number::of(28.6), Number::Tenths(286));
        assert_eq!(Number::of(1.0 / 3.0), Number::Exact(1.0 / 3.0));
    }

    #[test]
    fn nothing_infinite_comes_out() {
        assert_eq!(Number::Exact(f64::INFINITY).value(), None);
        assert_eq!(Number::Exact(f64::NAN).value(), None);
    }
}
