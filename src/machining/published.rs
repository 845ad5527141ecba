//! Cutting speeds and feeds as published, with where they come from.

use super::speed::Tool;
use crate::model::shop::{Metal, Origin, Sure};
use crate::units::{CuttingSpeed, Length};

/// A published cutting speed: a careful figure to start with inside a range.
#[derive(Clone, Debug, PartialEq)]
pub struct PublishedSpeed {
    /// The slowest figure given.
    pub low: CuttingSpeed,
    /// The figure to start with.
    pub start: CuttingSpeed,
    /// The fastest figure given.
    pub high: CuttingSpeed,
    /// Where it comes from.
    pub origin: Origin,
}

const SAW_TABLE: &str = "a hole-saw maker's speed table for bi-metal saws, 29 sizes: one surface speed to a metal gives \
                         back each of its rows within 7 %";
const SAW_BETWEEN: &str = "the same table has tool and stainless steel, and mild steel; chrome-moly lies between, and the \
                           slower column is taken";
const NO_SAW_ROW: &str = "no hole-saw table has it: a cutter maker's milling table for high-speed steel, its columns matched \
                          by their order";
const MILLING: &str =
    "a cutter maker's milling table for high-speed steel, its columns matched by their order";
const MANUAL: &str = "a milling machine's manual, general speeds for high-speed steel";

/// The published speed in surface feet per minute, for high-speed steel: slowest, start, fastest.
fn feet(metal: Metal, tool: Tool) -> ([f64; 3], Sure, &'static str) {
    match (tool, metal) {
        (Tool::HoleSaw, Metal::MildSteel) => ([85.0, 90.0, 92.0], Sure::WorkedOut, SAW_TABLE),
        (Tool::HoleSaw, Metal::ChromeMoly) => ([43.0, 45.0, 90.0], Sure::WorkedOut, SAW_BETWEEN),
        (Tool::HoleSaw, Metal::Stainless) => ([43.0, 45.0, 46.0], Sure::WorkedOut, SAW_TABLE),
        (Tool::HoleSaw, Metal::CastIron) => ([56.0, 59.5, 62.0], Sure::WorkedOut, SAW_TABLE),
        (Tool::HoleSaw, Metal::Brass) => ([117.0, 118.5, 123.0], Sure::WorkedOut, SAW_TABLE),
        (Tool::HoleSaw, Metal::Aluminium) => ([134.0, 135.0, 138.0], Sure::WorkedOut, SAW_TABLE),
        (Tool::HoleSaw, Metal::Titanium) => ([25.0, 25.0, 40.0], Sure::Quoted, NO_SAW_ROW),
        (_, Metal::MildSteel) => ([75.0, 75.0, 90.0], Sure::Quoted, MILLING),
        (_, Metal::ChromeMoly) => ([50.0, 50.0, 70.0], Sure::Quoted, MILLING),
        (_, Metal::Stainless) => ([55.0, 55.0, 75.0], Sure::Quoted, MILLING),
        (_, Metal::Titanium) => ([25.0, 25.0, 40.0], Sure::Quoted, MILLING),
        (_, Metal::Aluminium) => ([300.0, 300.0, 800.0], Sure::Read, MANUAL),
        (_, Metal::Brass) => ([150.0, 150.0, 150.0], Sure::Read, MANUAL),
        (_, Metal::CastIron) => ([50.0, 50.0, 80.0], Sure::Read, MANUAL),
    }
}

/// Slots are cut a fifth slower than faces (the same milling table, read).
const SLOTTING: f64 = 0.8;

/// The published cutting speed of a high-speed-steel tool.
pub fn published_speed(metal: Metal, tool: Tool) -> PublishedSpeed {
    let ([low, start, high], sure, source) = feet(metal, tool);
    let share = if tool == Tool::SlittingSaw { SLOTTING } else { 1.0 };
    let speed = |feet: f64| CuttingSpeed::from_feet_per_min(feet * share);
    PublishedSpeed {
        low: speed(low),
        start: speed(start),
        high: speed(high),
        origin: Origin::new(sure, source),
    }
}

/// Carbide goes twice as fast as high-speed steel (a milling machine's manual and a shop sheet, both read).
pub const CARBIDE: f64 = 2.0;

/// Feed per tooth of a high-speed-steel end mill in thousandths of an inch, at 1/4 in and at 1 in diameter.
const fn thousandths(metal: Metal) -> [f64; 2] {
    match metal {
        Metal::Aluminium | Metal::Brass => [3.0, 9.0],
        Metal::MildSteel | Metal::Stainless | Metal::CastIron => [1.0, 4.0],
        Metal::ChromeMoly => [0.5, 3.0],
        Metal::Titanium => [2.0, 4.0],
    }
}

/// A saw's teeth are fed a quarter to an eighth as fast as a mill's; from memory, the quarter is taken for a hole saw's
/// sturdy teeth and the eighth for a slitting saw's.
const fn share(tool: Tool) -> f64 {
    match tool {
        Tool::EndMill => 1.0,
        Tool::HoleSaw => 0.25,
        Tool::SlittingSaw => 0.125,
    }
}

/// A feed per tooth to start with, and where it comes from.
pub fn feed_per_tooth(metal: Metal, tool: Tool, diameter: Length) -> (Length, Origin) {
    let [slim, stout] = thousandths(metal);
    let inches = diameter.inches();
    let thousandths = if inches < 0.25 {
        slim * inches.max(0.0) / 0.25
    } else {
        slim + (stout - slim) * ((inches - 0.25) / 0.75).min(1.0)
    };
    let origin = match tool {
        Tool::EndMill => Origin::new(Sure::Quoted, MILLING),
        _ => Origin::new(Sure::Remembered, "an eighth to a quarter of a mill's feed per tooth"),
    };
    (Length::from_inches(thousandths * share(tool) / 1000.0), origin)
}
