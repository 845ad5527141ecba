//! Plain data as a text that a store keeps.

use base64ct::{Base64UrlUnpadded, Encoding};
use serde::Serialize;
use serde::de::DeserializeOwned;

/// As it is kept.
pub fn to_text(data: &impl Serialize) -> String {
    // Writing to memory cannot fail.
    Base64UrlUnpadded::encode_string(&postcard::to_allocvec(data).unwrap_or_default())
}

/// What [`to_text`] wrote; `None` for any other text.
pub fn from_text<T: DeserializeOwned>(text: &str) -> Option<T> {
    let bytes = Base64UrlUnpadded::decode_vec(text).ok()?;
    let (data, rest) = postcard::take_from_bytes(&bytes).ok()?;
    rest.is_empty().then_some(data)
}
