//! Plain data as a text that a store keeps.

use data_encoding::BASE64URL_NOPAD;
use serde::Serialize;
use serde::de::DeserializeOwned;

/// As it is kept.
pub fn to_text(data: &impl Serialize) -> String {
    // Writing to memory cannot fail.
    BASE64URL_NOPAD.encode(&postcard::to_allocvec(data).unwrap_or_default())
}

/// What [`to_text`] wrote; `None` for any other text.
pub fn from_text<T: DeserializeOwned>(text: &str) -> Option<T> {
    let bytes = BASE64URL_NOPAD.decode(text.as_bytes()).ok()?;
    let (data, rest) = postcard::take_from_bytes(&bytes).ok()?;
    rest.is_empty().then_some(data)
}
