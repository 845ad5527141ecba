//! Dual numbers run through the whole solver: exact derivatives, and the plain figures unchanged beside them.

use crate::support;

use num_dual::Dual64;
use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};
use staywright::model::{Group, Hand, Job, PairName, starters};
use staywright::placement::solve;
use staywright::plan::{Pair, Plan, RoundCut, Stay, faults};
use staywright::units::Real;
use std::collections::BTreeMap;

/// The figures that matter, with their names; those that do not exist are left out.
fn figures<T: Real>(plan: &Plan<T>) -> Vec<(String, T)> {
    let mut found = Vec::new();
    for name in PairName::ALL {
        pair_figures(name.key(), plan.pair(name), &mut found);
    }
    found
}

fn pair_figures<T: Real>(at: &str, pair: &Pair<T>, found: &mut Vec<(String, T)>) {
    found.push((format!("{at}.slide"), pair.slide.mm()));
    found.push((format!("{at}.axle_height"), pair.axle_height.mm()));
    found.push((format!("{at}.room"), pair.room_between.mm()));
    for (i, post) in pair.posts.iter().enumerate() {
        let readings = [post.right, post.left, post.inside, post.outside];
        let named = ["right", "left", "inside", "outside"].into_iter().zip(readings);
        found.extend(named.filter_map(|(key, reading)| Some((format!("{at}.post{i}.{key}"), reading?.mm()))));
    }
    for hand in Hand::ALL {
        stay_figures(&format!("{at}.{}", hand.key()), pair.stay(hand), found);
    }
}

fn stay_figures<T: Real>(at: &str, stay: &Stay<T>, found: &mut Vec<(String, T)>) {
    found.push((format!("{at}.length"), stay.length.mm()));
    found.push((format!("{at}.splay"), stay.splay.degrees()));
    found.extend(stay.tip_to_tip.map(|tip| (format!("{at}.tip"), tip.mm())));
    for (end, cut) in [("front", &stay.front), ("rear", &stay.rear)] {
        if let Some(round) = cut.round() {
            round_figures(&format!("{at}.{end}"), round, found);
        }
    }
}

fn round_figures<T: Real>(at: &str, cut: &RoundCut<T>, found: &mut Vec<(String, T)>) {
    found.push((format!("{at}.angle"), cut.angle.degrees()));
    found.push((format!("{at}.offset"), cut.offset.mm()));
    found.push((format!("{at}.tilt"), cut.setting.tilt.degrees()));
    found.push((format!("{at}.along"), cut.setting.dro_along.mm()));
    found.push((format!("{at}.across"), cut.setting.dro_across.mm()));
    let maybe = [("station", cut.axis_station), ("long", cut.long_point), ("short", cut.short_point)];
    let more = [("depth", cut.saw_depth), ("gap", cut.gap), ("push", cut.push)];
    for (key, value) in maybe.into_iter().chain(more) {
        found.extend(value.map(|value| (format!("{at}.{key}"), value.mm())));
    }
    for (key, profile) in [("outer", &cut.outer), ("bore", &cut.bore)] {
        let every = profile.iter().step_by(30);
        found
            .extend(every.map(|point| (format!("{at}.{key}.{}", point.phi.degrees().value()), point.s.mm())));
    }
}

fn paths(job: &Job) -> Vec<String> {
    let mut paths = Vec::new();
    job.each("", &mut |path, _, _| paths.push(path.to_owned()));
    paths
}

/// The job over dual numbers, differentiated by the figure at `path`.
fn dual(job: &Job, path: &str) -> Job<Dual64> {
    job.map("", &mut |at, _, value| Dual64::new(value, if at == path { 1.0 } else { 0.0 }))
}

#[test]
fn the_value_beside_the_derivative_is_the_plain_plan() {
    for starter in starters() {
        let plain = figures(&solve(&starter.job));
        let carried = figures(&solve(&dual(&starter.job, "frame.bb_drop_mm")));
        assert_eq!(plain.len(), carried.len());
        for ((name, plain), (_, carried)) in plain.iter().zip(&carried) {
            // The same branches and the same arithmetic; only the order of a few roundings may differ.
            assert!(
                (plain - carried.re).abs() <= 1e-11 * plain.abs().max(1.0),
                "{name}: {plain} {}",
                carried.re
            );
        }
    }
}

#[test]
fn derivatives_are_those_of_small_steps() {
    for starter in starters() {
        for path in paths(&starter.job) {
            compare(&starter.job, &path);
        }
    }
}

#[test]
fn derivatives_of_random_jobs_are_finite() {
    let mut runner = TestRunner::new(Config::with_cases(40));
    let case = (support::good_job(), any::<prop::sample::Index>());
    runner
        .run(&case, |(job, pick)| {
            let paths = paths(&job);
            for (name, value) in figures(&solve(&dual(&job, &paths[pick.index(paths.len())]))) {
                prop_assert!(value.re.is_finite(), "{name}");
            }
            Ok(())
        })
        .unwrap();
}

/// Central differences of fourth order (Abramowitz & Stegun 25.3.6): error about h⁴, here 1e-10 and rounding.
fn compare(job: &Job, path: &str) {
    let h = 2e-3;
    let value = job.figure(path).unwrap();
    let shifted = |count: f64| -> Option<BTreeMap<String, f64>> {
        let job = job.with_figure(path, value + count * h);
        faults(&job).is_empty().then(|| figures(&solve(&job)).into_iter().collect())
    };
    let [Some(a), Some(b), Some(now), Some(c), Some(d)] = [-2.0, -1.0, 0.0, 1.0, 2.0].map(shifted) else {
        return;
    };
    let carried = figures(&solve(&dual(job, path)));
    let mut compared = 0;
    for (name, carried) in &carried {
        // One side's rise alone takes the pair out of its plane, and its caliper readings with it.
        let steps = [&a, &b, &now, &c, &d].map(|figures| figures.get(name).copied());
        let [Some(a), Some(b), Some(now), Some(c), Some(d)] = steps else { continue };
        let slope = (a - 8.0 * b + 8.0 * c - d) / (12.0 * h);
        // A figure with a corner just here (equal sides, a square splay) has two slopes; either is right.
        let one_sided = [(c - now) / h, (now - b) / h];
        let near = |expected: f64| (carried.eps - expected).abs() < 1e-6 * (1.0 + expected.abs());
        let corner = (one_sided[0] - one_sided[1]).abs() > 1e-3;
        let rough = |expected: f64| (carried.eps - expected).abs() < 0.02 * (1.0 + expected.abs());
        assert!(
            near(slope) || (corner && one_sided.into_iter().any(rough)),
            "{path} -> {name}: carried {}, stepped {slope}, one-sided {one_sided:?}",
            carried.eps
        );
        compared += 1;
    }
    assert!(compared + 4 >= carried.len(), "{path}: only {compared} of {} compared", carried.len());
}

/// By hand: A = √(L² − d²), so dA/dd = −d/A along x and 1 along z; a chainstay's slide is L itself, so it does not move
/// with the drop and moves by 1 with the length.
#[test]
fn closed_forms() {
    let job = Job::default();
    let slide = |path: &str| solve(&dual(&job, path)).pairs.chainstays.slide.mm().eps;
    assert!((slide("frame.chainstay_length_mm") - 1.0).abs() < 1e-12);
    assert!(slide("frame.bb_drop_mm").abs() < 1e-12);
    // splay = atan((rear − front) / (L − reach)): 53 over 398.
    let splay = solve(&dual(&job, "chainstays.right.rear.half_spacing_mm"))
        .pairs
        .chainstays
        .right
        .splay
        .radians()
        .eps;
    assert!((splay - 398.0 / (398.0 * 398.0 + 53.0 * 53.0)).abs() < 1e-12);
}
