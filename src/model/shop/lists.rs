//! Cutters to start from, in the sizes that are sold.

use super::cutter::{HoleSaw, HoleSawSize, SlittingSaw};
use crate::units::{Count, Length};

/// Nominal diameters of hole saws in sixteenths of an inch: the rows of a published speed table (read), 9/16 to 2 9/16 in.
const SIXTEENTHS: [u32; 29] = [
    9, 10, 11, 12, 13, 14, 16, 17, 18, 19, 20, 21, 22, 23, 24, 25, 26, 27, 28, 29, 30, 32, 33, 34, 36, 37,
    38, 40, 41,
];

/// The same sizes in whole millimetres, as the table writes them.
const MILLIMETRES: [u32; 29] = [
    14, 16, 17, 19, 21, 22, 25, 27, 29, 30, 32, 33, 35, 37, 38, 40, 41, 43, 44, 46, 48, 51, 52, 54, 57, 59,
    60, 64, 65,
];

/// Slitting saws by width in hundredths of a millimetre (from memory: the widths of DIN 1837 and 1838).
const SLITTING: [u32; 16] = [20, 25, 30, 40, 50, 60, 80, 100, 120, 160, 200, 250, 300, 400, 500, 600];

/// Teeth of a starting saw to a millimetre of its rim; from memory, about six to the inch.
const TEETH_PER_MM: f64 = 6.0 / 25.4;

/// Hole saws by the inch, none of them measured.
pub fn inch_hole_saws() -> Vec<HoleSaw> {
    SIXTEENTHS.iter().map(|size| saw(Length::from_inches(f64::from(*size) / 16.0))).collect()
}

/// Hole saws by the millimetre, none of them measured.
pub fn metric_hole_saws() -> Vec<HoleSaw> {
    MILLIMETRES.iter().map(|size| saw(Length::from_mm(f64::from(*size)))).collect()
}

/// Slitting saws in the usual widths.
pub fn slitting_saws() -> Vec<SlittingSaw> {
    let width = |hundredths: &u32| Length::from_mm(f64::from(*hundredths) / 100.0);
    SLITTING.iter().map(|size| SlittingSaw { width: width(size), ..SlittingSaw::default() }).collect()
}

fn saw(nominal: Length) -> HoleSaw {
    let teeth = (nominal.mm() * std::f64::consts::PI * TEETH_PER_MM).round();
    let size = HoleSawSize { nominal, teeth: Count::of(teeth), ..HoleSawSize::default() };
    HoleSaw { size, ..HoleSaw::default() }
}
