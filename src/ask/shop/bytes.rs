//! The shop as the page keeps it: bytes that the page does not look into.

use crate::ask::file::refused;
use crate::link::{read_shop, write_shop};
use crate::model::shop::Shop;

/// The shop of kept bytes; the one to start from where there are none, or none that can be read.
pub(in crate::ask) fn read(bytes: &[u8]) -> Shop {
    opened(bytes).unwrap_or_default()
}

/// Whether anything was ever entered in a shop but what new jobs start with.
pub(in crate::ask) fn entered(bytes: &[u8]) -> bool {
    !bytes.is_empty() && !opened(bytes).is_ok_and(|shop| shop.is_fixture_alone())
}

pub(super) fn write(shop: &Shop) -> Vec<u8> {
    write_shop(shop)
}

/// The shop of bytes that came from elsewhere, or what is wrong with them; no bytes stand for one that was never entered.
pub(super) fn opened(bytes: &[u8]) -> Result<Shop, String> {
    if bytes.is_empty() {
        return Ok(Shop::default());
    }
    let what = "The shop cannot be read";
    let shop = read_shop(bytes).map_err(|why| format!("{what}: {why}. Nothing was changed."))?;
    match shop.faults().as_slice() {
        [] => Ok(shop),
        faults => Err(refused(what, "a shop", faults)),
    }
}

/// The shop of a file's text, or what is wrong with it.
pub(super) fn of_file(text: &str) -> Result<Shop, String> {
    Shop::from_json(text).map_err(|faults| refused("The shop file was not opened", "a shop file", &faults))
}
