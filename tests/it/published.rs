//! Published figures for cylinders that cross, each with its source.
//!
//! The pipe trade's tables give the cutback of a branch: how far each generator ends behind the branch's longest point,
//! for a header of outer radius `R` and a branch of inner radius `r`, axes crossing at an angle. Here the branch runs
//! away from the header as a stay runs away from its shell, and its generators are cut by the same geometry.

use nalgebra::{Point3, Vector3};
use staywright::geometry::{Cylinder, Edge, Generators, Keep, Line, Outline};
use staywright::units::{Length, LengthUnit, read_length};

/// Stations of the cut at `degrees` round the branch, 0 on the side of the obtuse angle.
fn stations(header: f64, branch: f64, angle: f64, degrees: &[f64]) -> Vec<f64> {
    let outline = Outline::level(branch / 2.0);
    let (sin, cos) = angle.to_radians().sin_cos();
    let axis = Line { point: Point3::origin(), direction: Vector3::new(cos, 0.0, sin) };
    let first = Vector3::new(-sin, 0.0, cos);
    let body = Generators { axis, first, second: axis.direction.cross(&first), outline: &outline };
    let header =
        Cylinder { axis: Line { point: Point3::origin(), direction: Vector3::x() }, radius: header / 2.0 };
    let edge = Edge::new(body, &header, Keep::Largest);
    degrees
        .iter()
        .map(|phi| edge.station(phi.to_radians()).expect("the branch is slimmer than the header"))
        .collect()
}

/// The table's cutback: from the longest reach the layout allows for, `R/sin θ + r/tan θ`.
fn cutbacks(header: f64, branch: f64, angle: f64, degrees: &[f64]) -> Vec<f64> {
    let radians = angle.to_radians();
    let longest = header / 2.0 / radians.sin() + branch / 2.0 / radians.tan();
    // The tables count from the side of the acute angle.
    let turned: Vec<f64> = degrees.iter().map(|phi| 180.0 - phi).collect();
    stations(header, branch, angle, &turned).iter().map(|z| longest - z).collect()
}

/// `printed` is cut off after two decimals, not rounded, as the recomputation beside the table in the source shows.
fn check(name: &str, got: &[f64], printed: &[f64], tolerance: &[f64]) {
    assert_eq!(got.len(), printed.len());
    for ((got, printed), tolerance) in got.iter().zip(printed).zip(tolerance) {
        assert!((got - printed).abs() < *tolerance, "{name}: printed {printed}, got {got}");
    }
}

const ROW: [f64; 8] = [22.5, 45.0, 67.5, 90.0, 112.5, 135.0, 157.5, 180.0];

/// fitterkipurijankari.com, 2023-09-24, 45° lateral, header OD 114, branch ID 88. Its second figure prints 22.95; the
/// mirror row of the same table prints 25.95.
#[test]
fn lateral_114_by_88() {
    let printed = [6.94, 25.95, 51.26, 73.36, 84.94, 88.18, 88.24, 88.0];
    check("114 × 88", &cutbacks(114.0, 88.0, 45.0, &ROW), &printed, &[0.01; 8]);
}

/// fitterkipurijankari.com, 2023-09-23, 45° lateral, header OD 114, branch ID 113; the third figure is printed to a tenth.
#[test]
fn lateral_114_by_113() {
    let printed = [10.32, 39.66, 83.1, 126.45, 126.35, 119.56, 114.72, 113.0];
    let tolerance = [0.01, 0.01, 0.05, 0.01, 0.01, 0.01, 0.01, 0.01];
    check("114 × 113", &cutbacks(114.0, 113.0, 45.0, &ROW), &printed, &tolerance);
}

/// fitterkipurijankari.com, 2023-09-16, 90° tee, header OD 273, branch ID 263.
#[test]
fn tee_273_by_263() {
    check("273 × 263", &cutbacks(273.0, 263.0, 90.0, &[45.0, 90.0]), &[36.56, 99.89], &[0.01; 2]);
}

/// fabricatorguide.com, 2019-04: equal pipes, long and short cut as factors of the outer diameter; at 45° 1.2071 and
/// 0.2071, at 60° 0.8660 and 0.2887, at 30° 1.8660 and 0.1340, at 90° 0.5 and 0.5.
#[test]
fn equal_pipes_long_and_short_factors() {
    for (angle, long, short) in
        [(90.0, 0.5, 0.5), (60.0, 0.8660, 0.2887), (45.0, 1.2071, 0.2071), (30.0, 1.866, 0.134)]
    {
        // From where the axes cross: the saddle's two lips, on the obtuse and on the acute side.
        let lips = stations(1.0, 1.0, angle, &[0.0, 180.0]);
        check("equal pipes", &lips, &[short, long], &[1e-4; 2]);
    }
}

/// Equal cylinders that cross at 45° meet in two planes of slope 1 + √2 and 1 − √2, 67.5° and −22.5°
/// (HP calculator forum, 2013). Exact.
#[test]
fn equal_cylinders_meet_in_two_planes() {
    let radius = 20.0;
    let degrees: Vec<f64> = (0..360).map(f64::from).collect();
    for (phi, z) in degrees.iter().zip(stations(40.0, 40.0, 45.0, &degrees)) {
        let across = radius * phi.to_radians().cos();
        let slope = if across >= 0.0 { 2f64.sqrt() - 1.0 } else { 1.0 + 2f64.sqrt() };
        assert!((z - slope * across.abs()).abs() < 1e-12 * radius, "{phi}: {z}");
    }
    assert!(((1.0 + 2f64.sqrt()).atan().to_degrees() - 67.5).abs() < 1e-12);
    assert!(((2f64.sqrt() - 1.0).atan().to_degrees() - 22.5).abs() < 1e-12);
}

/// fabricatorguide.com, 2019-06: the rule d²/(4D) for an unequal 90° tee, 114² / (4 · 168) = 19.33, is an approximation
/// for slim branches. A layout that agreed with it would be wrong.
#[test]
fn the_quarter_square_rule_is_not_what_is_cut() {
    let depth = cutbacks(168.0, 114.0, 90.0, &[90.0])[0];
    assert!((depth - 22.30).abs() < 0.01, "the exact depth, {depth}");
    assert!((depth - 114.0 * 114.0 / (4.0 * 168.0)).abs() > 2.0);
}

/// fabricatorguide.com, 2019-06: two fifths of the diameter for an equal 90° tee, 45.72 for 114.3. The exact depth is half
/// the diameter.
#[test]
fn the_two_fifths_rule_is_not_what_is_cut() {
    let depth = cutbacks(114.3, 114.3, 90.0, &[90.0])[0];
    assert!((depth - 57.15).abs() < 1e-9);
    assert!((depth - 2.0 * 114.3 / 5.0).abs() > 10.0);
}

/// A training layout with 16 lines needs five measures for a 90° saddle (jeopardylabs, pipefitter layout).
#[test]
fn sixteen_lines_have_five_measures() {
    let lines: Vec<f64> = (0..16).map(|line| f64::from(line) * 22.5).collect();
    let mut measures = stations(114.0, 88.0, 90.0, &lines);
    measures.sort_by(f64::total_cmp);
    measures.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
    assert_eq!(measures.len(), 5);
}

/// The closed form with an offset `e` between the axes, derived from the two equations of the cylinders:
/// `z = (√(R² − (v + e)²) − u cos θ) / sin θ`, `u` along, `v` across. No published table with an offset was found.
#[test]
fn offset_saddles_follow_their_closed_form() {
    let (big, small, angle, offset) = (28.6 / 2.0, 14.0 / 2.0, 52.0_f64.to_radians(), 5.5);
    let outline = Outline::level(small);
    let axis =
        Line { point: Point3::new(0.0, offset, 0.0), direction: Vector3::new(angle.cos(), 0.0, angle.sin()) };
    let first = Vector3::new(-angle.sin(), 0.0, angle.cos());
    let body = Generators { axis, first, second: axis.direction.cross(&first), outline: &outline };
    let header = Cylinder { axis: Line { point: Point3::origin(), direction: Vector3::x() }, radius: big };
    let edge = Edge::new(body, &header, Keep::Largest);
    for degree in 0..360 {
        let phi = f64::from(degree).to_radians();
        // The second direction of this branch points to −y.
        let (u, v) = (small * phi.cos(), -small * phi.sin());
        let z = ((big * big - (v + offset) * (v + offset)).sqrt() - u * angle.cos()) / angle.sin();
        let got = edge.station(phi).expect("cut all round");
        assert!((got - z).abs() < 1e-12 * 50.0, "{degree}: {got} {z}");
    }
}

/// The inch is 25.4 mm exactly (international yard and pound agreement, 1959); tube sizes by arithmetic.
#[test]
fn inch_sizes_of_tubes() {
    for (text, mm) in
        [("7/8 in", 22.225), ("3/4 in", 19.05), ("5/8 in", 15.875), ("1/2 in", 12.7), ("1 3/4 in", 44.45)]
    {
        let read = read_length(text, LengthUnit::Millimetre).expect("a length").value;
        assert!((read.mm() - mm).abs() < 1e-12, "{text}");
        assert!((Length::from_mm(mm).inches() * 25.4 - mm).abs() < 1e-12);
    }
}
