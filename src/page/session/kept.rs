//! Plain data as a text that a store keeps.

use base64ct::{Base64UrlUnpadded, Encoding};
use nanoserde::{DeBin, SerBin};

/// As it is kept.
pub fn to_text(data: &impl SerBin) -> String {
    Base64UrlUnpadded::encode_string(&data.serialize_bin())
}

/// What [`to_text`] wrote; `None` for any other text.
pub fn from_text<T: DeBin>(text: &str) -> Option<T> {
    let bytes = Base64UrlUnpadded::decode_vec(text).ok()?;
    let mut read = 0;
    let data = T::de_bin(&mut read, &bytes).ok()?;
    (read == bytes.len()).then_some(data)
}
