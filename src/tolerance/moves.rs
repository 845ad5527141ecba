//! Touch a dimension, see what moves: the slope of every figure of the plan by one figure of the job, by dual numbers
//! through the whole solver.

use crate::model::{Group, Hand, Job, PairName};
use crate::placement::solve;
use crate::plan::{Pair, Plan, RoundCut, Stay};
use crate::units::Real;
use crate::units::ranked;
use num_dual::Dual64;

/// One figure of the plan and how it moves.
#[derive(Clone, Debug, PartialEq)]
pub struct Moved {
    /// The plan's keys, joined: `chainstays.right.front.dro_along_mm`.
    pub id: String,
    /// What it is.
    pub value: f64,
    /// How much it gains per unit of the touched figure.
    pub per_unit: f64,
}

/// A figure that moves by less than this per unit stands still.
const STILL: f64 = 1e-9;

/// What moves when the figure at `path` does, those that move most first. Empty for a job with faults, which has no plan,
/// and for a path that the job lacks.
pub fn moves(job: &Job, path: &str) -> Vec<Moved> {
    if job.figure(path).is_none() || !crate::plan::faults(job).is_empty() {
        return Vec::new();
    }
    let touched = job.map("", &mut |at, _, value| Dual64::new(value, if at == path { 1.0 } else { 0.0 }));
    let moved = |(id, figure): (String, Dual64)| Moved { id, value: figure.re, per_unit: figure.eps };
    let finite = |moved: &Moved| moved.per_unit.is_finite() && moved.per_unit.abs() > STILL;
    let all = figures(&solve(&touched)).into_iter().map(moved).filter(finite);
    ranked(all, |a, b| a.per_unit.abs() >= b.per_unit.abs())
}

/// The figures that a builder sets or reads; those that do not exist are left out.
fn figures<T: Real>(plan: &Plan<T>) -> Vec<(String, T)> {
    let mut found = Vec::new();
    for name in PairName::ALL {
        pair_figures(name.key(), plan.pair(name), &mut found);
    }
    found
}

fn pair_figures<T: Real>(at: &str, pair: &Pair<T>, found: &mut Vec<(String, T)>) {
    let mut add = |key: &str, value: T| found.push(([at, key].join("."), value));
    add("slide_mm", pair.slide.mm());
    add("axle_height_mm", pair.axle_height.mm());
    add("room_between_mm", pair.room_between.mm());
    for (i, post) in pair.posts.iter().enumerate() {
        let readings = [
            ("right_mm", post.right),
            ("left_mm", post.left),
            ("inside_mm", post.inside),
            ("outside_mm", post.outside),
        ];
        for (key, reading) in readings {
            if let Some(reading) = reading {
                add(&format!("posts[{i}].{key}"), reading.mm());
            }
        }
    }
    for hand in Hand::ALL {
        stay_figures(&[at, hand.key()].join("."), pair.stay(hand), found);
    }
}

fn stay_figures<T: Real>(at: &str, stay: &Stay<T>, found: &mut Vec<(String, T)>) {
    let mut add = |key: &str, value: T| found.push(([at, key].join("."), value));
    add("length_mm", stay.length.mm());
    add("splay_deg", stay.splay.degrees());
    if let Some(tips) = stay.tip_to_tip {
        add("tip_to_tip_mm", tips.mm());
    }
    for (end, cut) in [("front", &stay.front), ("rear", &stay.rear)] {
        if let Some(cut) = cut.round() {
            round_figures(&[at, end].join("."), cut, found);
        }
    }
}

fn round_figures<T: Real>(at: &str, cut: &RoundCut<T>, found: &mut Vec<(String, T)>) {
    let mut add = |key: &str, value: Option<T>| {
        found.extend(value.map(|value| ([at, key].join("."), value)));
    };
    add("angle_deg", Some(cut.angle.degrees()));
    add("offset_mm", Some(cut.offset.mm()));
    add("tilt_deg", Some(cut.setting.tilt.degrees()));
    add("dro_along_mm", Some(cut.setting.dro_along.mm()));
    add("dro_across_mm", Some(cut.setting.dro_across.mm()));
    let maybe = [
        ("axis_station_mm", cut.axis_station),
        ("long_point_mm", cut.long_point),
        ("short_point_mm", cut.short_point),
        ("gap_mm", cut.gap),
        ("push_mm", cut.push),
        ("saw_depth_mm", cut.saw_depth),
    ];
    for (key, value) in maybe {
        add(key, value.map(crate::units::Length::mm));
    }
}
