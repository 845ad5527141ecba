//! A shop's second form: the first one, and the edge finder. Nothing in this file may change either.

use super::shop1;
use crate::link::pen::Pen;
use crate::model::Touch;
use crate::model::shop::Shop;
use crate::units::Length;

pub(super) const FORM: u8 = 2;

/// All of a shop, in the order in which it is written.
pub(super) fn shop(pen: &mut dyn Pen, shop: &Shop) -> Option<Shop> {
    let first = shop1::shop(pen, shop)?;
    let edge_finder = Length::from_mm(pen.number(shop.touch.edge_finder.mm())?);
    Some(Shop { touch: Touch { edge_finder }, ..first })
}
