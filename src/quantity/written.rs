//! How figures are written.

/// `value` with a fixed count of decimals; never `-0.00`.
pub fn fixed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    match text.strip_prefix('-') {
        Some(rest) if rest.bytes().all(|b| matches!(b, b'0' | b'.')) => rest.to_owned(),
        _ => text,
    }
}

/// `value` with at most `decimals` decimals, closing zeros left off.
pub fn trimmed(value: f64, decimals: usize) -> String {
    let text = fixed(value, decimals);
    if !text.contains('.') {
        return text;
    }
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
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
    }
}
