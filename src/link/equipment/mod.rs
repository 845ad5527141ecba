//! The builder's equipment as bytes, and back. Bytes that were given out are read for ever.

mod cutters;
mod fixture;
mod joining;
mod list;
mod mill;
mod shop1;
mod shop2;

use super::LinkError;
use super::pen::{Pen, Sheet, read, written};
use crate::model::shop::Shop;

/// The shop as bytes, short: what stands as a shop starts is left out.
pub fn write_shop(shop: &Shop) -> Vec<u8> {
    // A shop that the first form holds keeps the bytes it always had.
    let (form, walk): (u8, Walk) =
        if shop1::holds(shop) { (shop1::FORM, shop1::shop) } else { (shop2::FORM, shop2::shop) };
    let sheet = written(|pen| walk(pen, shop));
    // Writing to memory cannot fail; bytes with nothing but their form would be refused on the way back.
    [vec![form], postcard::to_allocvec(&sheet).unwrap_or_default()].concat()
}

/// A walk over all of a shop that writes it or reads it.
type Walk = fn(&mut dyn Pen, &Shop) -> Option<Shop>;

/// The shop that bytes stand for. Its figures are finite but may lie outside their ranges.
///
/// # Errors
/// Says whether the bytes are no shop or come from a later Staywright. They carry no checksum of their own: a link has one.
pub fn read_shop(bytes: &[u8]) -> Result<Shop, LinkError> {
    match bytes.split_first() {
        None => Err(LinkError::Damaged),
        Some((&shop1::FORM, body)) => read_by(shop1::shop, body).ok_or(LinkError::Damaged),
        Some((&shop2::FORM, body)) => read_by(shop2::shop, body).ok_or(LinkError::Damaged),
        Some((later, _)) => Err(LinkError::Later(*later)),
    }
}

fn read_by(walk: Walk, body: &[u8]) -> Option<Shop> {
    let (sheet, rest) = postcard::take_from_bytes::<Sheet>(body).ok()?;
    let shop = read(sheet, |pen| walk(pen, &Shop::default()))?;
    rest.is_empty().then_some(shop)
}
