//! A shop's first form. Nothing in this file, nor in the files of its parts beside it, may change: bytes made with it are in
//! people's messages.

use super::{cutters, fixture, joining, mill};
use crate::link::pass::{choice, length, numbered};
use crate::link::pen::Pen;
use crate::model::Touch;
use crate::model::shop::{Metal, Shop};
use crate::units::{CuttingSpeed, Length};

pub(super) const FORM: u8 = 1;

/// The edge finder of every shop in this form, mm: it has no place for another.
const EDGE_FINDER: f64 = 10.0;

numbered! {
    Metal {
        ChromeMoly = 0, MildSteel = 1, Stainless = 2, Titanium = 3, Aluminium = 4, Brass = 5, CastIron = 6
    }
}

/// Whether this form holds all of the shop.
pub(super) const fn holds(shop: &Shop) -> bool {
    shop.touch.edge_finder.mm().to_bits() == EDGE_FINDER.to_bits()
}

/// All of a shop, in the order in which it is written.
pub(super) fn shop(pen: &mut dyn Pen, shop: &Shop) -> Option<Shop> {
    Some(Shop {
        name: pen.text(&shop.name)?,
        hole_saws: cutters::hole_saws(pen, &shop.hole_saws)?,
        slitting_saws: cutters::slitting_saws(pen, &shop.slitting_saws)?,
        end_mills: cutters::end_mills(pen, &shop.end_mills)?,
        fixture: fixture::fixture(pen, &shop.fixture)?,
        touch: Touch { edge_finder: Length::from_mm(EDGE_FINDER) },
        mill: mill::mill(pen, &shop.mill)?,
        metal: choice(pen, shop.metal)?,
        processes: joining::processes(pen, &shop.processes)?,
        joined_by: length(pen, shop.joined_by)?,
        own_speeds: own_speeds(pen, &shop.own_speeds)?,
    })
}

fn own_speeds(pen: &mut dyn Pen, speeds: &[(Metal, CuttingSpeed)]) -> Option<Vec<(Metal, CuttingSpeed)>> {
    let none = (Metal::ChromeMoly, CuttingSpeed::from_m_per_min(0.0));
    let places = 0..length(pen, speeds.len())?;
    let mut passed = |place| {
        let (metal, speed) = speeds.get(place).copied().unwrap_or(none);
        let metal = choice(pen, metal)?;
        Some((metal, CuttingSpeed::from_m_per_min(pen.number(speed.m_per_min())?)))
    };
    places.map(&mut passed).collect()
}
