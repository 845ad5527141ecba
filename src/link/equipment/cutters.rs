//! The cutters of a shop's first form, with the lists that a shop can start with.

use super::list::list;
use crate::link::pass::{Table, choice, group, number_if_there, numbered, start};
use crate::link::pen::Pen;
use crate::model::shop::{EndMill, HoleSaw, HoleSawSize, SlittingSaw, ToothMaterial};
use crate::units::{Count, Length};

const SAW: &Table = &[("nominal_mm", 38.0), ("teeth", 30.0), ("depth_mm", 38.0), ("kerf_mm", 2.0)];

const ARBOR: &Table =
    &[("arbor_mm", 19.05), ("reach_mm", 60.0), ("neck_mm", 15.875), ("neck_length_mm", 12.0)];

const SLITTING: &Table = &[
    ("width_mm", 1.6),
    ("diameter_mm", 80.0),
    ("collar_mm", 35.0),
    ("teeth", 40.0),
    ("flange_mm", 8.0),
    ("arbor_mm", 22.0),
    ("reach_mm", 60.0),
];

const END_MILL: &Table = &[("diameter_mm", 12.0), ("flute_mm", 26.0), ("teeth", 4.0), ("reach_mm", 45.0)];

/// Nominal diameters in millimetres, and teeth.
const METRIC: [(f64, f64); 29] = [
    (14.0, 10.0),
    (16.0, 12.0),
    (17.0, 13.0),
    (19.0, 14.0),
    (21.0, 16.0),
    (22.0, 16.0),
    (25.0, 19.0),
    (27.0, 20.0),
    (29.0, 22.0),
    (30.0, 22.0),
    (32.0, 24.0),
    (33.0, 24.0),
    (35.0, 26.0),
    (37.0, 27.0),
    (38.0, 28.0),
    (40.0, 30.0),
    (41.0, 30.0),
    (43.0, 32.0),
    (44.0, 33.0),
    (46.0, 34.0),
    (48.0, 36.0),
    (51.0, 38.0),
    (52.0, 39.0),
    (54.0, 40.0),
    (57.0, 42.0),
    (59.0, 44.0),
    (60.0, 45.0),
    (64.0, 47.0),
    (65.0, 48.0),
];

/// Nominal diameters in sixteenths of an inch, and teeth.
const SIXTEENTHS: [(f64, f64); 29] = [
    (9.0, 11.0),
    (10.0, 12.0),
    (11.0, 13.0),
    (12.0, 14.0),
    (13.0, 15.0),
    (14.0, 16.0),
    (16.0, 19.0),
    (17.0, 20.0),
    (18.0, 21.0),
    (19.0, 22.0),
    (20.0, 24.0),
    (21.0, 25.0),
    (22.0, 26.0),
    (23.0, 27.0),
    (24.0, 28.0),
    (25.0, 29.0),
    (26.0, 31.0),
    (27.0, 32.0),
    (28.0, 33.0),
    (29.0, 34.0),
    (30.0, 35.0),
    (32.0, 38.0),
    (33.0, 39.0),
    (34.0, 40.0),
    (36.0, 42.0),
    (37.0, 44.0),
    (38.0, 45.0),
    (40.0, 47.0),
    (41.0, 48.0),
];

/// Widths of slitting saws in hundredths of a millimetre.
const WIDTHS: [f64; 16] =
    [20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 80.0, 100.0, 120.0, 160.0, 200.0, 250.0, 300.0, 400.0, 500.0, 600.0];

numbered! { ToothMaterial { HighSpeedSteel = 0, Carbide = 1 } }

fn saw() -> HoleSaw {
    HoleSaw { size: start(SAW), cutting: None, tooth: ToothMaterial::HighSpeedSteel, arbor: start(ARBOR) }
}

fn saws(sizes: &[(f64, f64)], unit_mm: f64) -> Vec<HoleSaw> {
    let saw = |(nominal, teeth): &(f64, f64)| {
        let start = saw();
        let nominal = Length::from_mm(nominal * unit_mm);
        HoleSaw { size: HoleSawSize { nominal, teeth: Count::of(*teeth), ..start.size }, ..start }
    };
    sizes.iter().map(saw).collect()
}

pub(super) fn hole_saws(pen: &mut dyn Pen, items: &[HoleSaw]) -> Option<Vec<HoleSaw>> {
    let known = [saws(&METRIC, 1.0), saws(&SIXTEENTHS, 25.4 / 16.0)];
    list(pen, items, &known, &saw(), |pen, saw, base| {
        Some(HoleSaw {
            size: group(pen, &saw.size, &base.size, SAW)?,
            cutting: number_if_there(pen, saw.cutting.map(Length::mm))?.map(Length::from_mm),
            tooth: choice(pen, saw.tooth)?,
            arbor: group(pen, &saw.arbor, &base.arbor, ARBOR)?,
        })
    })
}

pub(super) fn slitting_saws(pen: &mut dyn Pen, items: &[SlittingSaw]) -> Option<Vec<SlittingSaw>> {
    let start: SlittingSaw = start(SLITTING);
    let saw = |width: f64| SlittingSaw { width: Length::from_mm(width / 100.0), ..start };
    let known = [WIDTHS.map(saw).to_vec()];
    list(pen, items, &known, &start, |pen, saw, base| group(pen, saw, base, SLITTING))
}

pub(super) fn end_mills(pen: &mut dyn Pen, items: &[EndMill]) -> Option<Vec<EndMill>> {
    let start = start(END_MILL);
    list(pen, items, &[vec![start]], &start, |pen, mill, base| group(pen, mill, base, END_MILL))
}
