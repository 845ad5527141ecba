//! Reading plain numbers.

use lexical_parse_float::FromLexical;

/// The finite number nearest to a decimal text, exponent and all; `None` where it is none.
///
/// Rounds as the standard library does, which however carries ten kilobytes of tables for speed that no typed figure
/// needs.
pub fn parsed(text: &str) -> Option<f64> {
    f64::from_lexical(text.as_bytes()).ok().filter(|number| number.is_finite())
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn numbers_only() {
        for (text, number) in
            [("28.6", 28.6), ("-.5", -0.5), ("5.", 5.0), ("1e3", 1000.0), ("0.1", 0.1), ("-0", -0.0)]
        {
            assert_eq!(parsed(text), Some(number), "{text}");
        }
        for text in ["", "abc", "NaN", "inf", "-infinity", "1e999", "1,5", " 1", "1 ", "0x10", "1_000"] {
            assert_eq!(parsed(text), None, "{text}");
        }
    }

    proptest! {
        #[test]
        fn agrees_with_the_standard_library_to_the_last_bit(bits: u64, digits in 0usize..25) {
            let number = f64::from_bits(bits);
            prop_assume!(number.is_finite());
            for text in [format!("{number:e}"), format!("{number}"), format!("{number:.digits$e}")] {
                let known: f64 = text.parse().unwrap_or(f64::NAN);
                prop_assert_eq!(parsed(&text).map(f64::to_bits), Some(known.to_bits()), "{}", text);
            }
        }
    }
}
