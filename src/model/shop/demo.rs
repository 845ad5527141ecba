//! A small shop of our own invention: a measured fixture, a few saws and a vertical mill with stepped pulleys.

use super::cutter::{Arbor, HoleSaw, HoleSawSize, SlittingSaw};
use super::mill::{Speeds, Toward};
use super::scale::{AngleScale, AngleScaleFigures, LengthScale, LengthScaleFigures, Sense};
use super::{Mill, Shop};
use crate::units::{Angle, Count, Length, SpindleSpeed};

/// The speeds of its mill, the two slowest through a back gear.
const STEPS: [f64; 12] =
    [24.0, 48.0, 80.0, 135.0, 210.0, 325.0, 490.0, 700.0, 1050.0, 1600.0, 2450.0, 3600.0];

/// Its hole saws: nominal and measured diameter, depth, teeth.
const SAWS: [[f64; 4]; 7] = [
    [25.0, 25.4, 41.0, 20.0],
    [29.0, 29.1, 45.0, 22.0],
    [32.0, 32.3, 41.0, 24.0],
    [35.0, 35.2, 41.0, 26.0],
    [38.0, 38.4, 45.0, 28.0],
    [40.0, 40.1, 45.0, 30.0],
    [51.0, 51.4, 45.0, 37.0],
];

/// Widths of its slitting saws.
const SLITTING: [f64; 3] = [1.6, 2.0, 4.0];

/// The demonstration shop.
pub fn demo_shop() -> Shop {
    let mut shop = Shop { name: "Weir Lane".into(), hole_saws: SAWS.map(saw).to_vec(), ..Shop::default() };
    shop.slitting_saws = SLITTING.map(slitting).to_vec();
    shop.fixture.slide = scale(30.0, 0.5, Sense::Rises);
    shop.fixture.axle_height = scale(50.0, 0.5, Sense::Falls);
    shop.fixture.half_spacing = scale(0.0, 0.25, Sense::Rises);
    shop.fixture.tilt = gauge(0.0, 0.05, Sense::Rises);
    shop.fixture.limits.tilt_max = Angle::from_degrees(75.0);
    shop.fixture.limits.swivel_max = Angle::from_degrees(0.0);
    shop.fixture.limits.half_spacing_max = mm(100.0);
    shop.fixture.post.front = mm(20.0);
    shop.fixture.post.rear = mm(430.0);
    shop.fixture.figures.bench.slide_max = mm(560.0);
    shop.mill = mill();
    shop
}

fn mill() -> Mill {
    let mut mill = Mill { rear_toward: Toward::Minus, ..Mill::default() };
    mill.senses = [Sense::Rises, Sense::Falls, Sense::Rises];
    let [x, y, z] = &mut mill.axes;
    for (axis, travel, division) in [(x, 600.0, 0.01), (y, 250.0, 0.01), (z, 180.0, 0.02)] {
        axis.travel = mm(travel);
        axis.division = mm(division);
    }
    mill.speeds = Speeds::Steps(STEPS.map(SpindleSpeed::from_rpm).to_vec());
    mill
}

const fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

fn saw([nominal, cutting, depth, teeth]: [f64; 4]) -> HoleSaw {
    HoleSaw {
        size: HoleSawSize { nominal: mm(nominal), depth: mm(depth), kerf: mm(1.9), teeth: Count::of(teeth) },
        cutting: Some(mm(cutting)),
        arbor: Arbor { reach: mm(170.0), ..Arbor::default() },
        ..HoleSaw::default()
    }
}

/// On an arbor so long that the spindle nose stays beyond the stay nearer to it.
fn slitting(width: f64) -> SlittingSaw {
    SlittingSaw { width: mm(width), reach: mm(165.0), ..SlittingSaw::default() }
}

fn scale(zero: f64, division: f64, sense: Sense) -> LengthScale {
    LengthScale { figures: LengthScaleFigures { zero: mm(zero), division: mm(division) }, sense }
}

fn gauge(zero: f64, division: f64, sense: Sense) -> AngleScale {
    let degrees = Angle::from_degrees;
    AngleScale { figures: AngleScaleFigures { zero: degrees(zero), division: degrees(division) }, sense }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_shops_to_start_from_are_without_fault() {
        assert_eq!(demo_shop().faults(), []);
        assert_eq!(Shop::default().faults(), []);
        let inches = Shop { hole_saws: super::super::inch_hole_saws(), ..Shop::default() };
        assert_eq!(inches.faults(), []);
    }
}
