//! How figures are written.

/// `value` with a fixed count of decimals, the last one rounded half away from zero; never `-0.00`.
pub fn fixed(value: f64, decimals: u32) -> String {
    let mut text = String::new();
    write_fixed(&mut text, value, decimals);
    text
}

/// Appends what [`fixed`] gives. Drawings are made of thousands of figures, so these are written as whole numbers of
/// their last decimal, not by the formatter that can write any number.
///
/// Magnitudes from 2⁶⁴ of the last decimal on are written `1.5e20`; nothing that is drawn or cut comes near.
pub fn write_fixed(text: &mut String, value: f64, decimals: u32) {
    let one = 10_u64.pow(decimals);
    if value.is_finite() && value.abs() * one as f64 >= MOST_STEPS {
        return write_power(text, value);
    }
    let steps = (value.abs() * one as f64).round() as u64;
    if value < 0.0 && steps > 0 {
        text.push('-');
    }
    write_whole(text, steps / one, 1);
    if decimals > 0 {
        text.push('.');
        write_whole(text, steps % one, decimals as usize);
    }
}

/// 2⁶⁴.
const MOST_STEPS: f64 = 18_446_744_073_709_551_616.0;

/// Appends `value`, which is huge, as a figure below 10 with at most three decimals and a power of ten.
fn write_power(text: &mut String, value: f64) {
    let (mut figure, mut power) = (value, 0);
    while figure.abs() >= 9.9995 {
        figure /= 10.0;
        power += 1;
    }
    text.push_str(&trimmed(figure, 3));
    text.push('e');
    write_whole(text, power, 1);
}

/// Appends `number` with leading zeros up to `places`.
fn write_whole(text: &mut String, mut number: u64, places: usize) {
    let start = text.len();
    while number > 0 || text.len() - start < places {
        text.insert(start, char::from(b'0' + (number % 10) as u8));
        number /= 10;
    }
}

/// `value` with at most `decimals` decimals, closing zeros left off.
pub fn trimmed(value: f64, decimals: u32) -> String {
    let text = fixed(value, decimals);
    if !text.contains('.') || text.contains('e') {
        return text;
    }
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// What [`trimmed`] gives as a sentence writes it: a negative figure has a minus sign and no hyphen. For people alone: nothing
/// reads it back.
pub fn said(value: f64, decimals: u32) -> String {
    trimmed(value, decimals).replacen('-', "−", 1)
}

/// Inches as a mixed fraction to the nearest 1/`denominator`, reduced: `1 1/8`, `7/8`, `2`.
///
/// `denominator` is a power of two; rounding is to the nearest, so the error is at most half a step.
pub fn inch_fraction(inches: f64, denominator: u32) -> String {
    let sign = if inches < 0.0 { "-" } else { "" };
    let steps = (inches.abs() * f64::from(denominator)).round() as u64;
    let (whole, mut top, mut bottom) =
        (steps / u64::from(denominator), steps % u64::from(denominator), u64::from(denominator));
    while top > 0 && top.is_multiple_of(2) {
        top /= 2;
        bottom /= 2;
    }
    match (whole, top) {
        (0, 0) => "0".to_owned(),
        (_, 0) => format!("{sign}{whole}"),
        (0, _) => format!("{sign}{top}/{bottom}"),
        _ => format!("{sign}{whole} {top}/{bottom}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn writes_what_a_rule_shows() {
        assert_eq!(inch_fraction(1.125, 64), "1 1/8");
        assert_eq!(inch_fraction(0.875, 64), "7/8");
        assert_eq!(inch_fraction(-2.0, 64), "-2");
        assert_eq!(inch_fraction(0.001, 64), "0");
    }

    #[test]
    fn no_negative_zero_and_no_idle_decimals() {
        assert_eq!(fixed(-0.001, 2), "0.00");
        assert_eq!(trimmed(430.0, 3), "430");
        assert_eq!(trimmed(22.225, 3), "22.225");
        assert_eq!(trimmed(100.0, 0), "100");
        assert_eq!(
            (said(-2.5, 3).as_str(), said(-0.001, 2).as_str(), said(7.0, 1).as_str()),
            ("−2.5", "0", "7")
        );
    }

    #[test]
    fn huge_figures_are_told_as_what_they_are() {
        assert_eq!(trimmed(1e20, 3), "1e20");
        assert_eq!(trimmed(99_999_999_999_999_999_999.0, 3), "1e20");
        assert_eq!(said(-1.5e20, 2), "−1.5e20");
        assert_eq!(trimmed(f64::MAX, 3), "1.798e308");
        assert_eq!(fixed(18_446_744_073_709_551_616.0, 0), "1.845e19");
        assert_eq!(trimmed(1e16, 3), "10000000000000000");
    }

    proptest! {
        /// Against the standard library's own writing, which may differ only where the next decimals are a tie.
        #[test]
        fn writes_as_the_standard_library_does(value in -1e6f64..1e6, decimals in 0u32..6) {
            let known = format!("{value:.*}", decimals as usize);
            let tie = (value.abs() * f64::from(10_u32.pow(decimals))).fract() - 0.5;
            prop_assume!(tie.abs() > 1e-6);
            let known = if known.trim_matches(['-', '0', '.']).is_empty() { known.trim_start_matches('-') } else { &known };
            prop_assert_eq!(fixed(value, decimals), known);
        }
    }
}
