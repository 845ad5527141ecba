//! Counts and figures in as few bytes as they need.
//!
//! Format 3 and the equipment are written so: nothing here may change what is written.

use super::number::{digits, from_digits};

/// What stands for a figure with more decimals than a hand enters; all its bits follow. Below it stand the decimals of a
/// shorter one.
const EXACT: u64 = 7;

/// Puts a count at the end: three bits to a nibble, the lowest first, the fourth bit where more follow.
pub(super) fn push_count(nibbles: &mut Vec<u8>, mut count: u32) {
    while count > 7 {
        nibbles.push((count & 7) as u8 | 8);
        count >>= 3;
    }
    nibbles.push(count as u8);
}

/// The next count; `None` where there is none that small.
pub(super) fn take_count(nibbles: &mut impl Iterator<Item = u8>) -> Option<u32> {
    let mut count = 0;
    for place in 0..11 {
        let nibble = nibbles.next()?;
        count |= u64::from(nibble & 7) << (3 * place);
        if nibble & 8 == 0 {
            return u32::try_from(count).ok();
        }
    }
    None
}

/// Two nibbles to a byte, the lower first; an odd one out is followed by 0.
pub(super) fn joined(nibbles: &[u8]) -> Vec<u8> {
    let byte = |pair: &[u8]| pair.iter().rev().fold(0, |byte, nibble| byte << 4 | nibble);
    nibbles.chunks(2).map(byte).collect()
}

/// The nibbles of bytes.
pub(super) fn parted(bytes: &[u8]) -> Vec<u8> {
    bytes.iter().flat_map(|byte| [byte & 15, byte >> 4]).collect()
}

/// Puts a figure at the end: its last decimals counted, sign in the lowest bit, above how many decimals they are.
pub(super) fn push_number(places: &mut Vec<u64>, value: f64) {
    match digits(value) {
        Some((decimals, units)) => {
            let signed = (units << 1) ^ (units >> 63);
            places.push((signed as u64) << 3 | u64::from(decimals));
        }
        None => places.extend([EXACT, value.to_bits()]),
    }
}

/// The next figure; `None` where there is none that is finite.
pub(super) fn take_number(places: &mut impl Iterator<Item = u64>) -> Option<f64> {
    let place = places.next()?;
    let signed = place >> 3;
    let value = match (place & EXACT, signed) {
        (EXACT, 0) => f64::from_bits(places.next()?),
        (EXACT, _) => return None,
        (decimals, _) => from_digits(decimals as u8, (signed >> 1) as i64 ^ -((signed & 1) as i64)),
    };
    value.is_finite().then_some(value)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn every_count_comes_back(counts: Vec<u32>) {
            let mut nibbles = Vec::new();
            counts.iter().for_each(|count| push_count(&mut nibbles, *count));
            let mut back = parted(&joined(&nibbles)).into_iter();
            for count in counts {
                prop_assert_eq!(take_count(&mut back), Some(count));
            }
            prop_assert!(back.all(|nibble| nibble == 0));
        }

        #[test]
        fn every_finite_figure_comes_back_to_the_last_bit(bits: u64, thousandths in -5_000_000i64..5_000_000) {
            for value in [f64::from_bits(bits), thousandths as f64 / 1000.0, -0.0] {
                let mut places = Vec::new();
                push_number(&mut places, value);
                let back = take_number(&mut places.into_iter()).map(f64::to_bits);
                prop_assert_eq!(back, value.is_finite().then_some(value.to_bits()));
            }
        }

        #[test]
        fn anything_is_a_figure_or_none(places: [u64; 2], bytes: Vec<u8>) {
            let value = take_number(&mut places.into_iter());
            prop_assert!(value.is_none_or(f64::is_finite));
            let _ = take_count(&mut parted(&bytes).into_iter());
        }
    }

    /// By hand: 38 is 38 units, doubled and moved by the three bits of 0 decimals; 25.4 is 254 tenths, −0.5 is −5 tenths.
    #[test]
    fn a_short_figure_is_one_small_number() {
        let packed = |value| {
            let mut places = Vec::new();
            push_number(&mut places, value);
            places
        };
        assert_eq!(packed(38.0), [38 << 4]);
        assert_eq!(packed(25.4), [254 << 4 | 1]);
        assert_eq!(packed(-0.5), [9 << 3 | 1]);
        assert_eq!(packed(1.0 / 3.0), [7, (1.0f64 / 3.0).to_bits()]);
    }
}
