//! The outside of a link, and of all that is kept on a device: format, body, checksum.

use super::LinkError;
use crc::{CRC_32_ISO_HDLC, Crc};

const CHECK: Crc<u32> = Crc::<u32>::new(&CRC_32_ISO_HDLC);

/// One byte of format, the body, then four bytes of checksum over both, smallest first.
pub fn seal(format: u8, body: &[u8]) -> Vec<u8> {
    let mut bytes = Vec::with_capacity(body.len() + 5);
    bytes.push(format);
    bytes.extend_from_slice(body);
    let check = CHECK.checksum(&bytes);
    bytes.extend_from_slice(&check.to_le_bytes());
    bytes
}

/// Format and body of bytes that [`seal`] made.
///
/// # Errors
/// [`LinkError::Damaged`] for any other bytes.
pub fn unseal(bytes: &[u8]) -> Result<(u8, &[u8]), LinkError> {
    let (whole, check) = bytes.split_last_chunk::<4>().ok_or(LinkError::Damaged)?;
    let (format, body) = whole.split_first().ok_or(LinkError::Damaged)?;
    if CHECK.checksum(whole) == u32::from_le_bytes(*check) {
        Ok((*format, body))
    } else {
        Err(LinkError::Damaged)
    }
}

/// A digest by which one content is told from another (FNV-1a, 64 bits). Equal bytes have equal digests; it guards against
/// mistakes and not against malice.
pub fn digest(bytes: &[u8]) -> u64 {
    bytes.iter().fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| {
        (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The check value that the CRC catalogue gives for CRC-32/ISO-HDLC over the nine digits.
    #[test]
    fn the_checksum_is_the_published_one() {
        assert_eq!(CHECK.checksum(b"123456789"), 0xcbf4_3926);
    }

    #[test]
    fn the_digest_is_the_published_hash() {
        // Fowler, Noll, Vo: test vectors of FNV-1a, 64 bits, in draft-eastlake-fnv (from memory).
        let wanted =
            [("", 0xcbf2_9ce4_8422_2325), ("a", 0xaf63_dc4c_8601_ec8c), ("foobar", 0x8594_4171_f739_67e8)];
        for (text, hash) in wanted {
            assert_eq!(digest(text.as_bytes()), hash, "{text}");
        }
    }

    #[test]
    fn any_changed_bit_is_noticed() {
        let sealed = seal(1, b"stays");
        assert_eq!(unseal(&sealed), Ok((1, b"stays".as_slice())));
        for bit in 0..sealed.len() * 8 {
            let mut changed = sealed.clone();
            changed[bit / 8] ^= 1 << (bit % 8);
            assert_eq!(unseal(&changed), Err(LinkError::Damaged), "bit {bit}");
        }
    }
}
