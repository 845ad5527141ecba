//! The grammar of a typed number: a sign, then a decimal, a fraction, or a whole number and a fraction.

/// Why a text does not begin with a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum ScanError {
    /// No number, or one that ends in the middle.
    NoNumber,
    /// More than one comma or point.
    TwoDecimalMarks,
    /// A fraction with a zero below the line.
    ZeroDenominator,
}

/// The number that `text` begins with, and what follows it.
///
/// Understood: `430`, `28,6`, `.5`, `1 1/8`, `1-1/8`, `7/8`, `1⅝`, `⅟8`, `1¹⁄₈`; each with `-`, `−` or `+` in front. The parts of
/// a fraction are whole numbers: `1.1/8` is more likely a slip for `1 1/8` than eleven eightieths.
pub(super) fn signed_number(text: &str) -> Result<(f64, &str), ScanError> {
    let mut scan = Scan { rest: text.trim_start() };
    let sign = if scan.take(is_minus) { -1.0 } else { 1.0 };
    if sign > 0.0 {
        scan.take(|c| matches!(c, '+' | '＋'));
    }
    scan.spaces();
    let value = scan.magnitude()?;
    if value.is_finite() { Ok((sign * value, scan.rest)) } else { Err(ScanError::NoNumber) }
}

/// A hyphen or any of the dashes that stand for a minus.
const fn is_minus(c: char) -> bool {
    matches!(c, '-' | '\u{2010}'..='\u{2013}' | '−' | '\u{fe63}' | '－')
}

/// The bar of a fraction.
const fn is_slash(c: char) -> bool {
    matches!(c, '/' | '\u{2044}' | '\u{2215}' | '／')
}

const fn is_superscript(c: char) -> bool {
    matches!(c, '⁰' | '¹' | '²' | '³' | '⁴'..='⁹')
}

const fn is_digit_below(c: char) -> bool {
    matches!(c, '0'..='9' | '₀'..='₉')
}

/// Whether `c` is part of a number in any of the ways that are read.
pub(super) fn is_of_number(c: char) -> bool {
    digit(c).is_some() || printed_fraction(c).is_some() || c == '⅟'
}

/// The digit that `c` is, on the line or above or below it.
fn digit(c: char) -> Option<u8> {
    let value = match c {
        '0'..='9' => u32::from(c) - u32::from('0'),
        '₀'..='₉' => u32::from(c) - u32::from('₀'),
        '⁴'..='⁹' => 4 + u32::from(c) - u32::from('⁴'),
        '⁰' => 0,
        '¹' => 1,
        '²' => 2,
        '³' => 3,
        _ => return None,
    };
    u8::try_from(value).ok()
}

/// Every fraction that Unicode holds as one character (Number Forms and Latin-1), as its two numbers.
const fn printed_fraction(c: char) -> Option<(f64, f64)> {
    Some(match c {
        '¼' => (1.0, 4.0),
        '½' => (1.0, 2.0),
        '¾' => (3.0, 4.0),
        '⅐' => (1.0, 7.0),
        '⅑' => (1.0, 9.0),
        '⅒' => (1.0, 10.0),
        '⅓' => (1.0, 3.0),
        '⅔' => (2.0, 3.0),
        '⅕' => (1.0, 5.0),
        '⅖' => (2.0, 5.0),
        '⅗' => (3.0, 5.0),
        '⅘' => (4.0, 5.0),
        '⅙' => (1.0, 6.0),
        '⅚' => (5.0, 6.0),
        '⅛' => (1.0, 8.0),
        '⅜' => (3.0, 8.0),
        '⅝' => (5.0, 8.0),
        '⅞' => (7.0, 8.0),
        '↉' => (0.0, 3.0),
        _ => return None,
    })
}

/// What is left of a text.
#[derive(Clone, Copy)]
struct Scan<'a> {
    rest: &'a str,
}

impl<'a> Scan<'a> {
    fn peek(self) -> Option<char> {
        self.rest.chars().next()
    }

    /// Goes past the next character, if it is `such`.
    fn take(&mut self, such: impl Fn(char) -> bool) -> bool {
        let found = self.rest.strip_prefix(such);
        self.rest = found.unwrap_or(self.rest);
        found.is_some()
    }

    /// Goes past all characters that are `such`.
    fn run(&mut self, such: impl Fn(char) -> bool) -> &'a str {
        let after = self.rest.trim_start_matches(such);
        let (taken, rest) = self.rest.split_at(self.rest.len() - after.len());
        self.rest = rest;
        taken
    }

    fn spaces(&mut self) -> bool {
        !self.run(char::is_whitespace).is_empty()
    }

    /// A slash, with or without spaces round it.
    fn slash(&mut self) -> bool {
        let before = *self;
        self.spaces();
        if self.take(is_slash) {
            self.spaces();
            return true;
        }
        *self = before;
        false
    }

    fn magnitude(&mut self) -> Result<f64, ScanError> {
        let first = self.run(|c| c.is_ascii_digit() || matches!(c, '.' | ','));
        if first.contains(['.', ',']) {
            return decimal(first);
        }
        if !first.is_empty() && self.slash() {
            return self.over(first);
        }
        let part = self.fraction_behind(first)?;
        match part {
            Some(part) => Ok(whole(first) + part),
            None if first.is_empty() => Err(ScanError::NoNumber),
            None => Ok(whole(first)),
        }
    }

    /// The fraction behind the whole number `first`, which may be empty; nothing is gone past where there is none.
    fn fraction_behind(&mut self, first: &str) -> Result<Option<f64>, ScanError> {
        let before = *self;
        let apart = !first.is_empty() && (self.spaces() | self.take(is_minus));
        self.spaces();
        if let Some((top, bottom)) = self.peek().and_then(printed_fraction) {
            self.take(|_| true);
            return Ok(Some(top / bottom));
        }
        if self.take(|c| c == '⅟') {
            return self.over("1").map(Some);
        }
        let raised = self.run(is_superscript);
        let top = if raised.is_empty() && apart { self.run(|c| c.is_ascii_digit()) } else { raised };
        if !top.is_empty() && self.slash() {
            return self.over(top).map(Some);
        }
        *self = before;
        Ok(None)
    }

    /// The fraction of `top` and the number that comes next.
    fn over(&mut self, top: &str) -> Result<f64, ScanError> {
        let bottom = self.run(is_digit_below);
        if bottom.is_empty() {
            return Err(ScanError::NoNumber);
        }
        match whole(bottom) {
            0.0 => Err(ScanError::ZeroDenominator),
            bottom if bottom.is_finite() => Ok(whole(top) / bottom),
            _ => Err(ScanError::NoNumber),
        }
    }
}

/// The number of some digits; 0 where there are none.
fn whole(digits: &str) -> f64 {
    from_digits(digits, "")
}

/// An unsigned decimal with one point or comma. Exponents are refused: nobody types them at a mill,
/// and `1e5` is more likely a slip than a length.
fn decimal(text: &str) -> Result<f64, ScanError> {
    let (before, behind) = text.split_once(['.', ',']).unwrap_or((text, ""));
    if behind.contains(['.', ',']) {
        return Err(ScanError::TwoDecimalMarks);
    }
    if before.is_empty() && behind.is_empty() {
        return Err(ScanError::NoNumber);
    }
    Ok(from_digits(before, behind))
}

/// Most digits that are read of a figure: far beyond a millionth of a millimetre.
const MOST_DIGITS: u64 = 1_000_000_000_000_000;

/// The number with those digits before and behind its point.
///
/// Fifteen digits and the powers of ten up to 22 are exact, so the one division rounds as it should (Clinger, How to read
/// floating point numbers accurately, 1990). Further digits are left out.
fn from_digits(whole: &str, part: &str) -> f64 {
    let (mut digits, mut point) = (0u64, 0i32);
    let places = whole.chars().map(|c| (c, 0)).chain(part.chars().map(|c| (c, 1)));
    for (c, behind) in places {
        if digits < MOST_DIGITS / 10 {
            digits = digits * 10 + u64::from(digit(c).unwrap_or(0));
            point += behind;
        } else {
            point -= 1 - behind;
        }
    }
    let power = 10f64.powi(point.abs());
    if point >= 0 { digits as f64 / power } else { digits as f64 * power }
}

#[cfg(test)]
mod tests {
    use super::*;

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
}
