//! The builder's equipment as bytes, and back. Bytes that were given out are read for ever.

mod cutters;
mod fixture;
mod joining;
mod list;
mod mill;
mod shop1;

use super::LinkError;
use super::pen::{Sheet, read, written};
use crate::trade::shop::Shop;

/// The shop as bytes, short: what stands as a shop starts is left out.
pub fn write_shop(shop: &Shop) -> Vec<u8> {
    let sheet = written(|pen| shop1::shop(pen, shop));
    // Writing to memory cannot fail; bytes with nothing but their form would be refused on the way back.
    [vec![shop1::FORM], postcard::to_allocvec(&sheet).unwrap_or_default()].concat()
}

/// The shop that bytes stand for. Its figures are finite but may lie outside their ranges.
///
/// # Errors
/// Says whether the bytes are no shop or come from a later Staywright. They carry no checksum of their own: a link has one.
pub fn read_shop(bytes: &[u8]) -> Result<Shop, LinkError> {
    match bytes.split_first() {
        None => Err(LinkError::Damaged),
        Some((&shop1::FORM, body)) => read_first(body).ok_or(LinkError::Damaged),
        Some((later, _)) => Err(LinkError::Later(*later)),
    }
}

fn read_first(body: &[u8]) -> Option<Shop> {
    let (sheet, rest) = postcard::take_from_bytes::<Sheet>(body).ok()?;
    let shop = read(sheet, |pen| shop1::shop(pen, &Shop::default()))?;
    rest.is_empty().then_some(shop)
}
