//! The step list played back. A simulated fixture and mill, set from the listed tasks and readings alone, must put every
//! cutter's axis, saw, clamp and axle where the job's geometry wants them.
//!
//! The geometry here is written from the contract's formulas and the mill from how such machines move; neither looks at
//! how the steps are made.

mod jobs;
mod mill;
mod order;
mod pose;
mod stated;
mod truth;

use jobs::{jobs, shops};
use mill::{Done, Kerf, Simulated};
use staywright::model::shop::{Shop, demo_shop};
use staywright::model::{Hand, Job, PairName, Stays};
use staywright::placement::plan;
use staywright::plan::CutAt;
use staywright::procedure::{SettingKey, Step, StepKey, StepKind, Task, Tools, pair_steps};
use staywright::units::{Angle, Length};
use truth::{Truth, angle_between, nearest};

/// What was cut when the steps of a pair had been followed.
fn played(job: &Job, shop: &Shop, tools: &Tools, name: PairName) -> (Vec<Step>, Vec<Done>) {
    let plan = plan(job).unwrap();
    let steps = pair_steps(&plan, shop, tools, name);
    let mut simulated = Simulated::new(job, shop);
    for step in &steps {
        simulated.follow(step);
    }
    (steps, simulated.done)
}

/// Which cuts a setting makes.
fn cuts_of(setting: SettingKey) -> Vec<CutAt> {
    let at_front = setting.at_front().unwrap();
    let hands = Hand::ALL.into_iter().filter(|hand| setting.serves(*hand));
    hands.map(|hand| CutAt { pair: setting.pair, hand, at_front }).collect()
}

/// The step that does something for a setting.
fn step_of(steps: &[Step], setting: SettingKey, kind: StepKind) -> Option<&Step> {
    steps.iter().find(|step| step.key == StepKey { setting, kind })
}

/// A step of the setting of both stays of a pair.
fn step_at(steps: &[Step], phase: staywright::procedure::Phase, kind: StepKind) -> &Step {
    let found = steps.iter().find(|step| {
        let SettingKey { stays, phase: own, .. } = step.key.setting;
        (stays, own, step.key.kind) == (Stays::Both, phase, kind)
    });
    found.unwrap_or_else(|| panic!("{phase:?} {kind:?}"))
}

/// How far a round cut lies from where the job wants it, for one stay: at the stay's own nearest point, and in direction.
fn off(job: &Job, at: CutAt, axis: &truth::Axis) -> Option<(f64, f64)> {
    let truth = Truth::new(job, at.pair, at.hand);
    let wanted = truth.member(job, at.at_front)?;
    let (station, _) = nearest(&truth.stay(), &wanted)?;
    let seat = truth.stay().at(station);
    Some((axis.distance(&seat) - wanted.distance(&seat), angle_between(&axis.along, &wanted.along)))
}

fn check_pair(job: &Job, shop: &Shop, name: PairName, slack: f64) -> usize {
    let (steps, done) = played(job, shop, &Tools::default(), name);
    let mut seen = 0;
    for done in &done {
        match done {
            Done::Round { key, axis } => {
                for at in cuts_of(key.setting) {
                    let truth = Truth::new(job, at.pair, at.hand);
                    let wanted = truth.member(job, at.at_front).unwrap();
                    for along in [-50.0, 0.0, 50.0] {
                        let off = axis.distance(&wanted.at(along));
                        assert!(off < slack, "{key:?} {}: {off}\n{steps:#?}", at.key());
                    }
                    assert!(angle_between(&axis.along, &wanted.along) < slack, "{key:?}");
                    seen += 1;
                }
            }
            Done::Slots { setting, kerfs, front_edge, rearwards } => {
                for at in cuts_of(*setting) {
                    check_slot(job, at, kerfs, slack);
                    let off = root_off(job, at, front_edge, rearwards);
                    assert!(off.abs() < slack + merged(job, *setting), "{setting:?}: {off}");
                    // The stays' axes lie in the clamp plane, and so must the saw's centre.
                    assert!(front_edge.z.abs() < slack, "{setting:?}: {}", front_edge.z);
                    seen += 1;
                }
            }
            Done::Axle { setting, along, above } => {
                let hand = if setting.stays == Stays::One(Hand::Left) { Hand::Left } else { Hand::Right };
                let wanted = Truth::new(job, name, hand).axle_local();
                assert!((along - wanted.x).abs() < slack && (above - wanted.z).abs() < slack, "{setting:?}");
                seen += 1;
            }
            Done::Post { key, hand, station, spacing } => {
                let wanted = Truth::new(job, name, *hand).spacing_at(*station);
                let slack = slack + merged(job, key.setting);
                assert!((spacing - wanted).abs() < slack, "{key:?}: {spacing} {wanted}");
                seen += 1;
            }
        }
    }
    seen
}

/// What a figure may be off where two stays that differ share a setting: half of the hundredth to which it is written.
fn merged(job: &Job, setting: SettingKey) -> f64 {
    let differ = job.pair(setting.pair).left.is_some() && setting.stays == Stays::Both;
    if differ { 0.005 } else { 0.0 }
}

/// How far behind the slot's root the saw's front edge stops, as the table reads it.
fn root_off(
    job: &Job,
    at: CutAt,
    front_edge: &nalgebra::Vector3<f64>,
    rearwards: &nalgebra::Vector3<f64>,
) -> f64 {
    let root = Truth::new(job, at.pair, at.hand).slot().root;
    (front_edge - root).dot(rearwards)
}

/// The passes leave the plate's room and no more, along the plate, without a wall between them.
fn check_slot(job: &Job, at: CutAt, kerfs: &[Kerf], slack: f64) {
    let slot = Truth::new(job, at.pair, at.hand).slot();
    let mut own: Vec<Kerf> = kerfs.iter().filter(|kerf| kerf.hand == at.hand).copied().collect();
    own.sort_by(|a, b| a.low.total_cmp(&b.low));
    assert!(!own.is_empty(), "{}", at.key());
    for kerf in &own {
        assert!((kerf.across - slot.across).norm() < slack, "{}: {kerf:?}", at.key());
    }
    assert!((own[0].low - (slot.middle - slot.plate / 2.0)).abs() < slack, "{}: {own:?}", at.key());
    let high = own.last().unwrap().high;
    assert!((high - (slot.middle + slot.plate / 2.0)).abs() < slack, "{}: {own:?}", at.key());
    for two in own.windows(2) {
        assert!(two[1].low <= two[0].high + slack, "{}: a wall is left: {own:?}", at.key());
    }
}

/// Vertical and horizontal spindles, either table direction, either way round, either side to the spindle, each sense of
/// each readout and scale, each side touched; symmetrical and asymmetric pairs, both tilts; plates that splay, for which the
/// fixture is swivelled, either way.
#[test]
fn every_cutter_ends_where_the_job_wants_it() {
    let mut seen = 0;
    for job in jobs() {
        for shop in shops() {
            for name in PairName::ALL {
                seen += check_pair(&job, &shop, name, 1e-8);
            }
        }
    }
    assert!(seen > 20_000, "{seen}");
}

/// The jobs above tilt to the front, to the rear, not at all and upright, stand on their sides and are swivelled.
#[test]
fn every_way_of_standing_is_played() {
    use staywright::model::TouchSide;
    use staywright::plan::EndUp;
    use staywright::procedure::{Face, Turn};
    let shop = Shop::default();
    let mut tasks: Vec<Task> = Vec::new();
    for job in jobs() {
        let plan = plan(&job).unwrap();
        for name in PairName::ALL {
            tasks.extend(pair_steps(&plan, &shop, &Tools::default(), name).into_iter().map(|step| step.task));
        }
    }
    for up in [EndUp::Front, EndUp::Rear, EndUp::Level, EndUp::Either] {
        assert!(
            tasks.iter().any(|task| matches!(task, Task::Tilt { end_up, .. } if *end_up == up)),
            "{up:?}"
        );
    }
    for side in [TouchSide::Front, TouchSide::Rear] {
        let touched = |task: &Task| matches!(task, Task::TouchCorner { from, .. } if *from == side);
        assert!(tasks.iter().any(touched), "{side:?}");
    }
    for wanted in [Face::Base, Face::Block(Hand::Left)] {
        let touched = |task: &Task| matches!(task, Task::TouchCorner { face, .. } if *face == wanted);
        assert!(tasks.iter().any(touched), "{wanted:?}");
    }
    for way in [Turn::Clockwise, Turn::CounterClockwise] {
        assert!(
            tasks.iter().any(|task| matches!(task, Task::Swivel { turn, .. } if *turn == way)),
            "{way:?}"
        );
    }
    assert!(tasks.iter().any(|task| matches!(task, Task::StandOnSide { .. })));
}

/// With real divisions, each cut is off by no more than half of each of them, the gauge's at the length of its arm.
#[test]
fn rounded_readings_leave_no_more_than_their_divisions() {
    for job in jobs() {
        for (dro, gauge) in [(0.01, 0.05), (0.1, 0.5), (0.02, 0.0)] {
            let mut shop = demo_shop();
            shop.mill.axes.iter_mut().for_each(|axis| axis.division = Length::from_mm(dro));
            shop.fixture.tilt.figures.division = Angle::from_degrees(gauge);
            for name in PairName::ALL {
                let (_, done) = played(&job, &shop, &Tools::default(), name);
                for done in done {
                    let Done::Round { key, axis } = done else { continue };
                    for at in cuts_of(key.setting) {
                        let Some((off, turned)) = off(&job, at, &axis) else { continue };
                        let truth = Truth::new(&job, at.pair, at.hand);
                        let arm = truth.arm(&job, at.at_front);
                        let half_turn = (gauge / 2.0_f64).to_radians();
                        let most = dro / 2.0 * 2f64.sqrt() + half_turn * arm;
                        assert!(off.abs() <= most + 1e-9, "{key:?}: {off} > {most}");
                        assert!(turned <= half_turn + 1e-9, "{key:?}");
                    }
                }
            }
        }
    }
}

/// Two stays whose slots end at places that no scale tells apart are cut in one setting; the saw's stop is then off by less than
/// the readout's division, rounding and all. Two that it can tell apart have settings of their own.
#[test]
fn merged_settings_stay_below_what_the_scales_show() {
    let (mut one, mut two) = (0, 0);
    for half in [22.0, 23.0, 25.5, 28.0, 34.0, 40.0] {
        for division in [0.0, 0.01, 0.1, 0.25] {
            let mut job = Job::default();
            let mut left = job.chainstays.right;
            left.front.half_spacing = Length::from_mm(half);
            job.chainstays.left = Some(left);
            let mut shop = demo_shop();
            shop.mill.axes.iter_mut().for_each(|axis| axis.division = Length::from_mm(division));
            let (steps, done) = played(&job, &shop, &Tools::default(), PairName::Chainstays);
            let roots = Hand::ALL.map(|hand| Truth::new(&job, PairName::Chainstays, hand).slot().root.x);
            let shows = f64::max(division, 0.01);
            let stops = steps.iter().filter(|step| matches!(step.task, Task::StopAtRoot { .. })).count();
            assert_eq!(stops == 1, (roots[0] - roots[1]).abs() < shows, "{half} {division}: {roots:?}");
            if stops == 1 {
                one += 1
            } else {
                two += 1
            }
            // The zeros and the saw hold for the second setting.
            let mounts = |step: &&Step| matches!(step.task, Task::MountSlittingSaw { .. });
            assert_eq!(steps.iter().filter(mounts).count(), 1);
            for done in done {
                let Done::Slots { setting, front_edge, rearwards, .. } = done else { continue };
                for at in cuts_of(setting) {
                    let off = root_off(&job, at, &front_edge, &rearwards);
                    assert!(off.abs() <= shows + 1e-9, "{half} {division}: {off}");
                }
            }
        }
    }
    assert!(one > 3 && two > 3, "{one} {two}");
}
