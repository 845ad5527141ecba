//! What several tests need: random jobs, and a look into plans.

#![allow(dead_code, reason = "each test file uses its own part")]

pub mod beside;
pub mod full;
pub mod pressed;
pub mod skin;

use proptest::prelude::*;
use serde_json::Value;
use staywright::model::{Boss, Cope, End, Group, Job, Member, PairName, Side, Slot, TouchSide};
use staywright::plan::{Plan, faults};
use staywright::units::Length;

/// What a random job is made of.
#[derive(Clone, Debug)]
pub struct Shape {
    front: [u8; 4],
    rear: [u8; 4],
    left: [bool; 2],
    posts: Vec<f64>,
    touch_rear: bool,
    /// How far figures stray from their starting values, as a share of their range.
    spread: f64,
    picks: Vec<f64>,
    whole: bool,
}

fn shape() -> impl Strategy<Value = Shape> {
    let ends = (any::<[u8; 4]>(), any::<[u8; 4]>(), any::<[bool; 2]>());
    let posts = proptest::collection::vec(-200.0..1500.0, 0..=8);
    let picks = proptest::collection::vec(0.0..1.0, 120);
    let spread = prop_oneof![Just(0.0), Just(0.02), Just(0.1), Just(1.0)];
    (ends, posts, any::<bool>(), spread, picks, any::<bool>()).prop_map(
        |((front, rear, left), posts, touch_rear, spread, picks, whole)| Shape {
            front,
            rear,
            left,
            posts,
            touch_rear,
            spread,
            picks,
            whole,
        },
    )
}

fn front_end(pick: u8) -> End {
    let cutter = (pick & 8 != 0).then_some(Length::from_mm(41.0));
    match pick % 5 {
        0 | 1 => End::Cope(Cope { onto: Member::Shell, cutter }),
        2 | 3 => End::Cope(Cope { onto: Member::SeatTube, cutter }),
        _ => End::Square,
    }
}

fn rear_end(pick: u8) -> End {
    match pick % 5 {
        0 | 1 => End::Slot(Slot::default()),
        2 | 3 => End::Boss(Boss::default()),
        _ => End::Square,
    }
}

fn mended(mut side: Side) -> Side {
    if side.tube.taper_end < side.tube.taper_start {
        std::mem::swap(&mut side.tube.taper_start, &mut side.tube.taper_end);
    }
    side
}

fn job_of(shape: &Shape) -> Job {
    let mut job = Job { name: "Fen Row".into(), notes: "brass, 1.6 rod".into(), ..Job::default() };
    for (i, name) in PairName::ALL.into_iter().enumerate() {
        let pair = job.pair_mut(name);
        pair.right.front_end = front_end(shape.front[2 * i]);
        pair.right.rear_end = rear_end(shape.rear[2 * i]);
        let mut left = pair.right;
        left.front_end = front_end(shape.front[2 * i + 1]);
        left.rear_end = rear_end(shape.rear[2 * i + 1]);
        pair.left = shape.left[i].then_some(left);
    }
    job.fixture.posts = shape.posts.iter().map(|u| Length::from_mm(*u)).collect();
    job.fixture.touch_from = if shape.touch_rear { TouchSide::Rear } else { TouchSide::Front };
    let mut picks = shape.picks.iter().cycle();
    let mut job = job.map("", &mut |path, spec, value| {
        let (min, max) = (spec.bounds.min, spec.bounds.max);
        let stray = (picks.next().unwrap() - 0.5) * 2.0 * shape.spread * (max - min);
        let value = if path.contains("posts") { value } else { (value + stray).clamp(min, max) };
        if shape.whole { (value * 10.0).round() / 10.0 } else { value }
    });
    // Rounded, two posts may fall on one place, which no file may hold.
    let mut stand: Vec<Length> = Vec::new();
    job.fixture.posts.retain(|post| {
        !stand.contains(post) && {
            stand.push(*post);
            true
        }
    });
    for name in PairName::ALL {
        let pair = job.pair_mut(name);
        pair.right = mended(pair.right);
        pair.left = pair.left.map(mended);
    }
    job
}

/// Any job, with faults or without.
pub fn any_job() -> impl Strategy<Value = Job> {
    shape().prop_map(|shape| job_of(&shape))
}

/// Jobs that can be planned, plain and odd ones.
pub fn good_job() -> impl Strategy<Value = Job> {
    any_job().prop_filter("can be planned", |job| faults(job).is_empty())
}

/// A plan's JSON.
pub fn json(plan: &Plan) -> Value {
    serde_json::from_str(&staywright::files::plan_text(plan).unwrap()).unwrap()
}

/// Every number of a JSON value with its path.
pub fn numbers(value: &Value) -> Vec<(String, f64)> {
    let mut found = Vec::new();
    walk("", value, &mut found);
    found
}

fn walk(at: &str, value: &Value, found: &mut Vec<(String, f64)>) {
    match value {
        Value::Number(number) => found.push((at.to_owned(), number.as_f64().unwrap())),
        Value::Array(items) => {
            items.iter().enumerate().for_each(|(i, item)| walk(&format!("{at}[{i}]"), item, found))
        }
        Value::Object(map) => map.iter().for_each(|(key, item)| walk(&format!("{at}.{key}"), item, found)),
        _ => {}
    }
}
