//! Plain data as a text that the device's store keeps: an envelope with a version and a checksum.
//!
//! A text of this page begins with a dot; after it stand, in base64, the version, the data (postcard) and a CRC-32. Texts
//! without the dot are version 0, which had neither. Each version of each kind has a line in `tests/golden/kept.tsv` and is
//! read for ever.

mod fixed;
mod version0;

use base64ct::{Base64UrlUnpadded, Encoding};
use serde::Serialize;
use serde::de::DeserializeOwned;
use staywright::link::{seal, unseal};

pub use version0::Typed;

/// Data that is kept, under one key and with a version of its own.
pub trait Kept: Serialize + DeserializeOwned {
    /// The version that is written. It grows by one whenever the data change, and what it was stays readable.
    const VERSION: u8 = 1;

    /// Reads the data of an earlier version; `None` where they are not of that version.
    fn earlier(version: u8, body: &[u8]) -> Option<Self>;
}

const MARK: char = '.';

/// As it is kept.
pub fn to_text<T: Kept>(data: &T) -> String {
    // Nothing that is kept has a part that postcard cannot write.
    let body = postcard::to_allocvec(data).unwrap_or_default();
    format!("{MARK}{}", Base64UrlUnpadded::encode_string(&seal(T::VERSION, &body)))
}

/// What [`to_text`] of this or an earlier version wrote; `None` for a text that is damaged or of a later version.
pub fn from_text<T: Kept>(text: &str) -> Option<T> {
    let Some(sealed) = text.strip_prefix(MARK) else {
        return T::earlier(0, &fixed::body(&Base64UrlUnpadded::decode_vec(text).ok()?)?);
    };
    let bytes = Base64UrlUnpadded::decode_vec(sealed).ok()?;
    let (version, body) = unseal(&bytes).ok()?;
    if version != T::VERSION {
        return T::earlier(version, body);
    }
    whole(body)
}

/// Data that all of `body` stands for.
fn whole<T: DeserializeOwned>(body: &[u8]) -> Option<T> {
    let (data, rest) = postcard::take_from_bytes(body).ok()?;
    rest.is_empty().then_some(data)
}

#[cfg(test)]
mod tests;
