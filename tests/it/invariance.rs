//! What must not change when the job is mirrored, scaled, swapped, or the world is turned.

use crate::support;

use nalgebra::{Point3, Rotation3, Vector3};
use proptest::prelude::*;
use serde_json::Value;
use staywright::geometry::{Cylinder, Edge, Generators, Keep, Line, Outline};
use staywright::model::{Group, Job, PairName};
use staywright::placement::plan;
use staywright::plan::faults;
use staywright::units::Kind;
use support::{good_job, json, numbers};

fn near(a: f64, b: f64, scale: f64) -> bool {
    (a - b).abs() <= 1e-7 * scale.max(1.0)
}

/// Left and right changed over.
fn mirrored(job: &Job) -> Job {
    let mut job = job.clone();
    for name in PairName::ALL {
        let pair = job.pair_mut(name);
        if let Some(left) = pair.left.as_mut() {
            std::mem::swap(left, &mut pair.right);
        }
    }
    job
}

/// Figures that do not depend on which way round a stay is counted.
fn handless(stay: &Value) -> Vec<(String, f64)> {
    let is_hand = |path: &str| {
        // Stations along a shell count from its right face: landings have a test of their own.
        ["phi_deg", "misses", "outer", "bore", "_point_mm", "direction", "faces", "landing"]
            .iter()
            .any(|key| path.contains(key))
            && !path.ends_with("long_point_mm")
            && !path.ends_with("short_point_mm")
    };
    numbers(stay).into_iter().filter(|(path, _)| !is_hand(path)).collect()
}

/// A profile by direction.
fn profile(cut: &Value, key: &str) -> std::collections::BTreeMap<i64, f64> {
    let points = cut[key].as_array().cloned().unwrap_or_default();
    points.iter().map(|p| (p["phi_deg"].as_f64().unwrap() as i64, p["s_mm"].as_f64().unwrap())).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn a_mirrored_job_has_a_mirrored_plan(job in good_job()) {
        let (there, back) = (json(&plan(&job).unwrap()), json(&plan(&mirrored(&job)).unwrap()));
        for name in ["chainstays", "seatstays"] {
            for (side, other) in [("right", "left"), ("left", "right")] {
                let (a, b) = (&there["pairs"][name][side], &back["pairs"][name][other]);
                let (these, those) = (handless(a), handless(b));
                prop_assert_eq!(these.len(), those.len());
                for ((path, x), (_, y)) in these.iter().zip(&those) {
                    let y = &if path.ends_with("swivel_deg") { -y } else { *y };
                    prop_assert!(near(*x, *y, x.abs()), "{} {} {} {}", name, path, x, y);
                }
                for end in ["front", "rear"] {
                    for key in ["outer", "bore"] {
                        let (p, q) = (profile(&a[end], key), profile(&b[end], key));
                        for (phi, s) in &p {
                            // A generator that only just touches may fall on either side.
                            if let Some(other) = q.get(&((360 - phi) % 360)) {
                                prop_assert!(near(*s, *other, s.abs()), "{} {} {} {} {}", end, key, phi, s, other);
                            }
                        }
                    }
                }
            }
        }
    }

    #[test]
    fn lengths_grow_with_the_job_and_angles_stay(job in good_job(), k in 0.6..1.6) {
        let scaled = job.map("", &mut |_, spec, value| if spec.kind == Kind::Length { value * k } else { value });
        prop_assume!(faults(&scaled).is_empty());
        let (one, other) = (json(&plan(&job).unwrap()), json(&plan(&scaled).unwrap()));
        let (these, those) = (numbers(&one["pairs"]), numbers(&other["pairs"]));
        // Within a hair of a touch the tolerance, which does not scale, may decide.
        prop_assume!(these.len() == those.len());
        for ((path, x), (_, y)) in these.iter().zip(&those) {
            // An even cut has two long points, and either may be named; the metal round a vent hole is 2 mm in any frame.
            if path.ends_with("_point_phi_deg") || path.ends_with("vent_max_mm") {
                continue;
            }
            // Near a grazing place a direction is known to the square root of what a length is.
            let (factor, slack) = if path.ends_with("_mm") || path.contains("_mm[") { (k, 1.0) } else { (1.0, 1e4) };
            prop_assert!((x * factor - y).abs() <= 1e-7 * slack * x.abs().max(1.0), "{} {} {}", path, x, y);
        }
    }

    #[test]
    fn no_figure_of_any_plan_is_infinite(job in good_job()) {
        let plan = json(&plan(&job).unwrap());
        for (path, number) in numbers(&plan) {
            prop_assert!(number.is_finite(), "{}", path);
        }
        // JSON writes what is not a number as null; only figures that may be missing may be null.
        for key in ["slide_mm", "axle_height_mm", "room_between_mm"] {
            prop_assert!(plan["pairs"]["chainstays"][key].is_number(), "{}", key);
        }
    }

    #[test]
    fn a_turned_world_changes_nothing(
        turn in (0.0..6.0, 0.0..6.0, 0.0..6.0),
        shift in (-500.0..500.0, -500.0..500.0, -500.0..500.0),
        (angle, offset, radius, start) in (0.2..1.57, -20.0..20.0, 8.0..30.0, -60.0..60.0),
    ) {
        let outline = Outline::through(&[(start, 11.0), (start + 90.0, 7.0)]);
        let here = stations(&outline, angle, offset, radius, |p| p, |v| v);
        let rotation = Rotation3::from_euler_angles(turn.0, turn.1, turn.2);
        let shift = Vector3::new(shift.0, shift.1, shift.2);
        let there = stations(&outline, angle, offset, radius, |p| rotation * p + shift, |v| rotation * v);
        for ((phi, a), (_, b)) in here.iter().zip(&there) {
            // Rounding of 1e-13 in a distance is 1e-6 of its root where a generator grazes.
            prop_assert!(match (a, b) {
                (Some(a), Some(b)) => (a - b).abs() < 1e-5,
                (None, None) => true,
                _ => false,
            }, "{} {:?} {:?}", phi, a, b);
        }
    }
}

fn stations(
    outline: &Outline,
    angle: f64,
    offset: f64,
    radius: f64,
    point: impl Fn(Point3<f64>) -> Point3<f64>,
    direction: impl Fn(Vector3<f64>) -> Vector3<f64>,
) -> Vec<(f64, Option<f64>)> {
    let along = direction(Vector3::new(angle.cos(), 0.0, angle.sin()));
    let first = direction(Vector3::new(-angle.sin(), 0.0, angle.cos()));
    let axis = Line { point: point(Point3::new(0.0, offset, 0.0)), direction: along };
    let body = Generators { axis, first, second: along.cross(&first), outline };
    let axis = Line { point: point(Point3::origin()), direction: direction(Vector3::x()) };
    let edge = Edge::new(body, &Cylinder { axis, radius }, Keep::Largest);
    edge.degrees().map(|(node, station)| (node.phi, station)).collect()
}

#[test]
fn a_left_stay_that_is_written_out_as_the_right_is_its_mirror() {
    for name in PairName::ALL {
        let mut job = Job::default();
        let right = job.pair(name).right;
        job.pair_mut(name).left = Some(right);
        assert_eq!(json(&plan(&job).unwrap()), json(&plan(&Job::default()).unwrap()));
    }
}
