//! Plain data as a text that a store keeps.

use base64ct::{Base64UrlUnpadded, Encoding};
use nanoserde::{DeBin, SerBin};

/// As it is kept: its bytes, then their sum.
pub fn to_text(data: &impl SerBin) -> String {
    let bytes = data.serialize_bin();
    let sum = sum(&bytes);
    Base64UrlUnpadded::encode_string(&[&bytes[..], &sum].concat())
}

/// What [`to_text`] wrote; `None` for any other text.
pub fn from_text<T: DeBin>(text: &str) -> Option<T> {
    let bytes = Base64UrlUnpadded::decode_vec(text).ok()?;
    // Other bytes could claim lists too long for any memory.
    let (bytes, kept) = bytes.split_last_chunk::<4>()?;
    if sum(bytes) != *kept {
        return None;
    }
    let mut read = 0;
    let data = T::de_bin(&mut read, bytes).ok()?;
    (read == bytes.len()).then_some(data)
}

/// FNV-1a, 32 bits.
fn sum(bytes: &[u8]) -> [u8; 4] {
    let sum =
        bytes.iter().fold(0x811c_9dc5_u32, |sum, byte| (sum ^ u32::from(*byte)).wrapping_mul(0x0100_0193));
    sum.to_le_bytes()
}
