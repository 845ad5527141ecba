//! Probabilities of the normal and chi-square distributions.

use std::f64::consts::{FRAC_1_SQRT_2, PI};

/// The probability that a standard normal figure is at most `z`.
pub fn normal_below(z: f64) -> f64 {
    0.5 * libm::erfc(-z * FRAC_1_SQRT_2)
}

/// The probability that a normal figure of mean `value` lies from `low` to `high`; without spread it is 0 or 1.
pub fn normal_between(value: f64, standard: f64, low: f64, high: f64) -> f64 {
    if standard <= 0.0 {
        return if low <= value && value <= high { 1.0 } else { 0.0 };
    }
    normal_below((high - value) / standard) - normal_below((low - value) / standard)
}

/// The probability that chi-square of that many degrees of freedom is `square` or more
/// (Abramowitz and Stegun, 26.4.4 and 26.4.5: finite sums).
pub fn chi_square_above(square: f64, freedom: usize) -> f64 {
    if freedom == 0 || square <= 0.0 {
        return 1.0;
    }
    let odd = freedom % 2 == 1;
    let half = 0.5 * square;
    // The first term of the sum that each kind builds on, and the divisor that its next term brings.
    let (mut sum, mut term, mut next) = if odd {
        (libm::erfc(half.sqrt()), (-half).exp() * (2.0 * square / PI).sqrt(), 1.0)
    } else {
        ((-half).exp(), (-half).exp(), 0.0)
    };
    for step in 0..(freedom - 1) / 2 {
        if odd {
            sum += term;
            next += 2.0;
            term *= square / next;
        } else {
            term *= half / (step + 1) as f64;
            sum += term;
        }
    }
    sum.min(1.0)
}
