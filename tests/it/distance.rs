//! The distance of convex bodies: against a CAD kernel, against closed forms, against dense sampling.

use nalgebra::{Point3, Vector3};
use proptest::prelude::*;
use staywright::geometry::{Convex, ConvexBlock, ConvexRod, Line};

fn rod(p: [f64; 3], z: [f64; 3], length: f64, a: f64, b: f64) -> Convex {
    let axis = Line { point: p.into(), direction: Vector3::from(z).normalize() };
    Convex::Rod(ConvexRod { axis, from: 0.0, to: length, from_radius: a, to_radius: b })
}

fn boxed(p: [f64; 3], z: [f64; 3], x: [f64; 3], sizes: [f64; 3]) -> Convex {
    let (z, x) = (Vector3::from(z), Vector3::from(x));
    let halves = [x * (sizes[0] / 2.0), z.cross(&x) * (sizes[1] / 2.0), z * (sizes[2] / 2.0)];
    Convex::Block(ConvexBlock { middle: Point3::from(p) + halves[0] + halves[1] + halves[2], halves })
}

fn three(words: &mut dyn Iterator<Item = f64>) -> [f64; 3] {
    [words.next().unwrap(), words.next().unwrap(), words.next().unwrap()]
}

fn read(kind: &str, words: &mut dyn Iterator<Item = f64>) -> Convex {
    match kind {
        "r" => {
            let (p, z, rest) = (three(words), three(words), three(words));
            rod(p, z, rest[0], rest[1], rest[2])
        }
        _ => {
            let (p, z, x, sizes) = (three(words), three(words), three(words), three(words));
            boxed(p, z, x, sizes)
        }
    }
}

/// 240 pairs of random rods, stumps and boxes, some with faces along the axes; `tests/kernel/distances.py` made the
/// table with an independent kernel. Where the kernel itself is not quite at the nearest point it can only be too far.
#[test]
fn agrees_with_the_cad_kernel() {
    let mut apart = 0;
    for line in include_str!("../golden/distances.tsv").lines() {
        let words: Vec<&str> = line.split('\t').collect();
        let mut at = 0;
        let mut next = || {
            let kind = words[at];
            let count = if kind == "r" { 9 } else { 12 };
            let mut numbers = words[at + 1..=at + count].iter().map(|word| word.parse::<f64>().unwrap());
            at += count + 1;
            read(kind, &mut numbers)
        };
        let (one, other) = (next(), next());
        let known: f64 = words[at].parse().unwrap();
        let ours = one.distance(&other);
        assert!((ours - known).abs() < 1e-5, "{line}\n{ours} {known}");
        assert!((other.distance(&one) - ours).abs() < 5e-6, "{line}");
        apart += usize::from(known > 0.0);
    }
    assert!(apart > 150, "{apart}");
}

fn check(one: &Convex, other: &Convex, known: f64) {
    let ours = one.distance(other);
    assert!((ours - known).abs() < 2e-6, "{ours} {known}\n{one:?}\n{other:?}");
}

const X: [f64; 3] = [1.0, 0.0, 0.0];
const Y: [f64; 3] = [0.0, 1.0, 0.0];
const Z: [f64; 3] = [0.0, 0.0, 1.0];

#[test]
fn closed_forms() {
    let upright = rod([0.0; 3], Z, 50.0, 10.0, 10.0);
    // Side to side, end to end, end to end with a step aside: rim to rim.
    check(&upright, &rod([25.0, 0.0, 10.0], Z, 20.0, 4.0, 4.0), 11.0);
    check(&upright, &rod([0.0, 0.0, 57.0], Z, 20.0, 30.0, 30.0), 7.0);
    check(&upright, &rod([18.0, 0.0, 54.0], Z, 20.0, 5.0, 5.0), 3f64.hypot(4.0));
    // Crossed: the axes' distance less the radii.
    check(&upright, &rod([-40.0, 22.0, 25.0], X, 80.0, 6.0, 6.0), 6.0);
    // A face, an edge and a corner of a box.
    check(&upright, &boxed([12.5, -30.0, -5.0], Z, X, [10.0, 60.0, 60.0]), 2.5);
    check(&upright, &boxed([-30.0, -30.0, 58.0], Z, X, [60.0, 60.0, 5.0]), 8.0);
    let corner = boxed([9.0, 12.0, 54.0], Z, X, [5.0, 5.0, 5.0]);
    check(&upright, &corner, 5f64.hypot(4.0));
    // A cone of slope 3/4 and a thin rod beside its side, worked by hand: 100 · 4/5.
    let cone = rod([0.0; 3], X, 400.0, 0.0, 300.0);
    check(&cone, &rod([200.0, 250.0, -1.0], Z, 2.0, 0.0, 0.0), 80.0);
    // Touching and overlapping.
    check(&upright, &rod([20.0, 0.0, 0.0], Z, 50.0, 10.0, 10.0), 0.0);
    check(&upright, &rod([3.0, 0.0, 0.0], Y, 50.0, 10.0, 10.0), 0.0);
    check(&upright, &upright, 0.0);
}

/// A rod whose axis only rounding keeps from standing square on a face: what is left of the direction round the axis must
/// not be taken for one.
#[test]
fn a_rod_that_stands_on_a_face_but_for_rounding() {
    for i in 0..200 {
        let turn = 0.0157 * f64::from(i);
        let z = [turn.cos(), turn.sin(), 0.37];
        let upright = Vector3::from(z).normalize();
        let x = upright.cross(&Vector3::z()).normalize();
        let face = boxed([5.0, -3.0, 8.0], upright.into(), x.into(), [400.0, 300.0, 20.0]);
        let Convex::Block(block) = &face else { panic!("a box") };
        let foot = block.middle + block.halves[2] + upright * 17.5;
        check(&face, &rod(foot.into(), z, 90.0, 42.0, 42.0), 17.5);
        check(&face, &rod((foot + upright * 90.0).into(), (-upright).into(), 90.0, 42.0, 30.0), 17.5);
    }
}

#[test]
fn bodies_without_thickness_are_bodies_still() {
    let point = boxed([3.0, 4.0, 0.0], Z, X, [0.0; 3]);
    check(&point, &boxed([0.0; 3], Z, X, [0.0; 3]), 5.0);
    check(&point, &rod([0.0, 0.0, -9.0], Z, 18.0, 0.0, 0.0), 5.0);
    check(&point, &point, 0.0);
}

/// Points all over a body's surface and inside its ends.
fn sampled(solid: &Convex, count: usize) -> Vec<Point3<f64>> {
    match solid {
        Convex::Rod(rod) => {
            let first = rod.axis.direction.cross(&Vector3::new(0.31, -0.77, 0.55)).normalize();
            let second = rod.axis.direction.cross(&first);
            let mut points = Vec::new();
            for i in 0..=count {
                let share = i as f64 / count as f64;
                for k in 0..4 * count {
                    let turn = std::f64::consts::TAU * k as f64 / (4 * count) as f64;
                    let out = first * turn.cos() + second * turn.sin();
                    let radius = rod.from_radius + share * (rod.to_radius - rod.from_radius);
                    points.push(rod.axis.at(rod.from + share * (rod.to - rod.from)) + out * radius);
                    points.push(rod.axis.at(rod.from) + out * (rod.from_radius * share));
                    points.push(rod.axis.at(rod.to) + out * (rod.to_radius * share));
                }
            }
            points
        }
        Convex::Swept(rod, run) => {
            let here = sampled(&Convex::Rod(*rod), count / 2);
            (0..=12).flat_map(|i| here.iter().map(move |point| point + run * (f64::from(i) / 12.0))).collect()
        }
        Convex::Block(block) => {
            let mut points = Vec::new();
            let [a, b, c] = block.halves;
            for (a, b, c) in [(a, b, c), (b, c, a), (c, a, b)] {
                for i in 0..=2 * count {
                    for k in 0..=2 * count {
                        let (s, t) = (i as f64 / count as f64 - 1.0, k as f64 / count as f64 - 1.0);
                        points.extend([1.0, -1.0].map(|side| block.middle + a * s + b * t + c * side));
                    }
                }
            }
            points
        }
    }
}

fn any_solid() -> impl Strategy<Value = Convex> {
    let numbers = proptest::collection::vec(-1.0..1.0_f64, 12);
    (0..3_u8, numbers).prop_map(|(kind, n)| {
        let p = [n[0] * 80.0, n[1] * 80.0, n[2] * 80.0];
        let z = Vector3::new(n[3], n[4], n[5] + 1.5).normalize();
        let round = rod(p, z.into(), 20.0 + 15.0 * n[6], 9.0 + 8.0 * n[7], 9.0 + 8.0 * n[8]);
        match round {
            Convex::Rod(rod) if kind == 1 => {
                return Convex::Swept(rod, Vector3::new(n[9], n[10], n[11]) * 25.0);
            }
            _ if kind == 0 => return round,
            _ => {}
        }
        let x = z.cross(&Vector3::new(n[9], 1.2, n[10])).normalize();
        boxed(p, z.into(), x.into(), [20.0 + 15.0 * n[6], 20.0 + 15.0 * n[7], 20.0 + 15.0 * n[8]])
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]
    /// No two sampled points are nearer than the distance, and some are nearly as near.
    #[test]
    fn agrees_with_dense_sampling(one in any_solid(), other in any_solid()) {
        let distance = one.distance(&other);
        let (a, b) = (sampled(&one, 10), sampled(&other, 10));
        let nearest = a.iter().flat_map(|p| b.iter().map(move |q| (p - q).norm())).fold(f64::INFINITY, f64::min);
        prop_assert!(distance <= nearest + 1e-6, "{distance} {nearest}");
        // Samples lie at most a few millimetres apart on bodies of this size.
        prop_assert!(distance == 0.0 || nearest - distance < 4.0, "{distance} {nearest}");
    }
}
