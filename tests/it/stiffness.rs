//! How far an arbor bends and what pushes it: against textbook values, a numeric beam and published cutting forces.

use staywright::machining::{
    Segment, compliance, cutting_force, deflection, force, specific_force, stiffer_by,
};
use staywright::model::Tube;
use staywright::model::shop::{HoleSaw, Metal, demo_shop};
use staywright::units::{Count, Length, Stress};

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

fn segment(length: f64, diameter: f64) -> Segment {
    Segment { length: mm(length), diameter: mm(diameter) }
}

const GPA: f64 = 1000.0;

/// δ = F·L³/(3·E·I), I = π·d⁴/64 (textbook, from memory), worked with a pocket calculator at E = 205 GPa.
#[test]
fn textbook_cantilevers() {
    for (newtons, length, diameter, known) in [(200.0, 100.0, 19.05, 0.0503), (100.0, 80.0, 12.7, 0.0652)] {
        let give = compliance(&[segment(length, diameter)], mm(0.0), Stress::from_n_per_mm2(205.0 * GPA));
        assert!((newtons * give - known).abs() < 6e-5, "{}", newtons * give);
    }
}

/// 40 stepped cantilevers by finite elements (`tests/kernel/beam.py`), which are exact for end loads.
#[test]
fn agrees_with_a_numeric_beam() {
    let mut seen = 0;
    for line in include_str!("../golden/beam.tsv").lines() {
        let row: Vec<f64> = line.split('\t').map(|word| word.parse().unwrap()).collect();
        let segments: Vec<Segment> = row[3..].chunks(2).map(|two| segment(two[0], two[1])).collect();
        let give = compliance(&segments, mm(row[1]), Stress::from_n_per_mm2(row[0]));
        assert!((give / row[2] - 1.0).abs() < 1e-7, "{line}: {give}");
        seen += 1;
    }
    assert_eq!(seen, 40);
}

#[test]
fn nothing_to_bend_does_not_bend() {
    assert_eq!(compliance(&[], mm(30.0), Stress::from_n_per_mm2(1.0)), 0.0);
}

fn saw(reach: f64) -> HoleSaw {
    let mut saw = demo_shop().hole_saws[4];
    saw.arbor.reach = mm(reach);
    saw
}

/// One plain segment: the ratio is that of the cubes' differences, by hand.
#[test]
fn choking_up_makes_it_stiffer_by_the_cubes() {
    let mut plain = saw(120.0);
    plain.arbor.neck_length = mm(0.0);
    plain.size.depth = mm(40.0);
    let known = (160f64.powi(3) - 40f64.powi(3)) / (140f64.powi(3) - 40f64.powi(3));
    assert!((stiffer_by(&plain, mm(20.0)).unwrap() - known).abs() < 1e-12);
    assert_eq!(stiffer_by(&plain, mm(130.0)), None);
    assert_eq!(stiffer_by(&plain, mm(120.0)), None, "nothing would be left");
}

/// kc = kc1·h^−m at h = 0.05 mm for the published groups (worked out beside the table): 4130 3643, 304 3914, 6061 1692.
#[test]
fn specific_cutting_forces() {
    for (metal, known) in
        [(Metal::ChromeMoly, 3643.0), (Metal::Stainless, 3914.0), (Metal::Aluminium, 1692.0)]
    {
        let kc = specific_force(cutting_force(metal).high, mm(0.05)).n_per_mm2();
        assert!((kc - known).abs() < 1.0, "{metal:?}: {kc}");
    }
}

/// One tooth's force by hand: kc · kerf · bite; and no more teeth than stand in the wall.
#[test]
fn the_force_is_a_band_between_one_tooth_and_the_longest_wall() {
    let tube = Tube::default();
    let mut fine = saw(60.0);
    fine.size.kerf = mm(2.0);
    let bite = (0.0005 + 0.0025 * ((38.4 / 25.4 - 0.25) / 0.75_f64).min(1.0)) * 25.4 / 4.0;
    let one = 1675.0 * bite.powf(-0.24) * 2.0 * bite;
    let band = force(Metal::ChromeMoly, &fine, &tube);
    assert!((band.low.newtons() - one).abs() < 1e-9, "{} {one}", band.low.newtons());
    // A 22.2 × 0.8 tube: the chord that touches the bore is 2·√(11.1² − 10.3²) = 8.275 mm; two walls; pitch π·38.4/28.
    let teeth = 2.0 * 8.275 / (std::f64::consts::PI * 38.4 / 28.0);
    let most = 1775.0 * bite.powf(-0.24) * 2.0 * bite * teeth;
    assert!((band.high.newtons() / most - 1.0).abs() < 1e-4, "{} {most}", band.high.newtons());
    fine.size.teeth = Count::of(1.0);
    let single = force(Metal::ChromeMoly, &fine, &tube);
    assert!((single.high.newtons() / single.low.newtons() - 1775.0 / 1675.0).abs() < 1e-12);
}

#[test]
fn a_longer_arbor_bends_more_and_the_band_is_a_band() {
    let tube = Tube::default();
    let mut last = 0.0;
    for reach in [20.0, 60.0, 120.0, 200.0] {
        let band = deflection(Metal::Titanium, &saw(reach), &tube);
        assert!(band.low.mm() < band.high.mm() && band.low.mm() > last * 0.1);
        assert!(band.high.mm() > last);
        last = band.high.mm();
    }
}
