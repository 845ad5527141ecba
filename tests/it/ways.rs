//! Ways to more clearance: every one that is offered can be built, and what it changes is what the changed job's own plan says.

use staywright::clearance::{Effect, Obstacle, Way, clearances, figure_for_room, ways, widest_tyre};
use staywright::model::{Bend, Bends, Hand, Job, PairName, Press, SolveFor, Surroundings};
use staywright::placement::plan;
use staywright::plan::Plan;
use staywright::units::{Angle, Length};

const STAY: (PairName, Hand) = (PairName::Chainstays, Hand::Right);
const FRONT: &str = "chainstays.right.front.half_spacing_mm";
const REAR: &str = "chainstays.right.rear.half_spacing_mm";

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

/// A job whose right chainstay has less than the clearance wanted to a tyre as wide as this.
fn wide(tyre: f64) -> Job {
    let mut job = Job { surroundings: Some(Surroundings::starting()), ..Job::default() };
    job.frame.axle_spacing = mm(2.0 * job.chainstays.right.rear.half_spacing.mm() - 6.0);
    (job.wheel.tyre_width, job.wheel.tyre_height) = (mm(tyre), mm(tyre));
    job
}

fn spare(plan: &Plan, to: Obstacle) -> f64 {
    let rooms = clearances(plan);
    let room = rooms.iter().find(|room| (room.pair, room.hand) == STAY).unwrap();
    room.clearances.iter().find(|gap| gap.to == to).unwrap().margin().mm()
}

fn way<'a>(all: &'a [Way], path: &str) -> Option<&'a Way> {
    all.iter().find(|way| way.path == path)
}

/// By hand: the rear half spacing that gives a wide tyre its clearance exists, but the hub is where it is.
#[test]
fn a_dropout_is_not_moved_off_its_hub() {
    let job = wide(38.0);
    let plan = plan(&job).unwrap();
    assert!(spare(&plan, Obstacle::Tyre) < 0.0);
    let value = figure_for_room(&plan, STAY, Obstacle::Tyre, REAR, 40.0).unwrap();
    assert!(value > job.chainstays.right.rear.half_spacing.mm() + 1.0, "{value}");
    assert_eq!(way(&ways(&plan, STAY, Obstacle::Tyre), REAR), None);
}

/// By hand: on a shell no wider than its stays there is no way outwards at the front.
#[test]
fn a_stay_is_not_moved_past_the_end_of_its_shell() {
    let mut job = wide(38.0);
    job.surroundings = Some(Surroundings::default());
    let offered = |job: &Job| way(&ways(&plan(job).unwrap(), STAY, Obstacle::Tyre), FRONT).cloned();
    let wanted = figure_for_room(&plan(&job).unwrap(), STAY, Obstacle::Tyre, FRONT, 40.0).unwrap();
    assert!(wanted > job.chainstays.right.front.half_spacing.mm(), "{wanted}");
    // Half a shell and what the plan says lies past its end: how far out the stay reaches, with its splay.
    let wide = plan(&job.with_figure(FRONT, wanted)).unwrap();
    let past = wide.pairs.chainstays.right.front.round().unwrap().past_end.unwrap();
    let outside = 0.5 * job.frame.shell_width.mm() + past.mm();
    job.frame.shell_width = mm(2.0 * outside + 0.1);
    let way = offered(&job).unwrap();
    assert!((way.to - wanted).abs() <= 0.01 && way.to >= wanted, "{way:?} {wanted}");
    job.frame.shell_width = mm(2.0 * outside - 0.1);
    assert_eq!(offered(&job), None);
}

/// Of what is offered, everything is entered and planned again: nothing falls below its limit, and the figures told are those.
#[test]
fn what_is_offered_can_be_built_and_changes_what_it_says() {
    let mut offered = 0;
    for tyre in [30.0, 34.0, 38.0, 42.0, 46.0] {
        for bent in [false, true] {
            let mut job = wide(tyre);
            job.surroundings = Some(Surroundings::default());
            if bent {
                let bend = |before: f64, rotation: f64| Bend {
                    before: mm(before),
                    rotation: Angle::from_degrees(rotation),
                    angle: Angle::from_degrees(8.0),
                    radius: mm(200.0),
                };
                let tube = &mut job.chainstays.right.tube;
                tube.bends = Bends::of([bend(120.0, 0.0), bend(60.0, 180.0)]);
                tube.length = mm(480.0);
            }
            let before = plan(&job).unwrap();
            let all_before = clearances(&before);
            for gap in &all_before.iter().find(|room| (room.pair, room.hand) == STAY).unwrap().clearances {
                for way in ways(&before, STAY, gap.to) {
                    offered += 1;
                    let after = plan(&job.with_figure(&way.path, way.to)).unwrap();
                    if gap.margin().mm() < 0.0 {
                        assert!(spare(&after, gap.to) >= -1e-6, "{way:?}");
                    }
                    for (old, new) in all_before.iter().zip(clearances(&after)) {
                        for (old, new) in old.clearances.iter().zip(&new.clearances) {
                            let least = old.margin().mm().min(0.0) - 1e-5;
                            assert!(new.margin().mm() >= least, "{way:?}: {old:?} {new:?}");
                        }
                    }
                    assert!(after.warnings.len() <= before.warnings.len(), "{way:?}: {:?}", after.warnings);
                    let [old, new] = [&before, &after].map(|plan| &plan.pairs.chainstays.right);
                    for (hand, effect) in &way.effects {
                        assert_eq!(*hand, Hand::Right, "a mirrored pair is told once");
                        if let Effect::Length(from, to) = effect {
                            assert!((from.mm() - old.length.mm()).abs() < 1e-9);
                            assert!((to.mm() - new.length.mm()).abs() < 1e-9);
                        }
                        if let Effect::Splay(from, to) = effect {
                            assert!((from.degrees() - old.splay.degrees()).abs() < 1e-9);
                            assert!((to.degrees() - new.splay.degrees()).abs() < 1e-9);
                        }
                    }
                    assert!(way.effects.iter().any(|(_, it)| matches!(it, Effect::Clearance(..))), "{way:?}");
                }
            }
        }
    }
    assert!(offered > 5, "{offered}");
}

/// Whatever the job, answers are numbers within what can be entered.
#[test]
fn every_answer_is_a_number_that_can_be_entered() {
    let mut drawn = 0_u32;
    let mut part = |low: f64, high: f64| {
        drawn += 1;
        low + (high - low) * (f64::from(drawn) * 0.754_877_666_246_692_7).fract()
    };
    for i in 0..30 {
        let mut job = wide(part(20.0, 120.0));
        job.frame.axle_spacing = mm(part(80.0, 220.0));
        job.chainstays.right.front.half_spacing = mm(part(0.0, 120.0));
        job.chainstays.right.rear.half_spacing = mm(part(0.0, 200.0));
        let tube = &mut job.chainstays.right.tube;
        let bend = Bend {
            before: mm(part(5.0, 200.0)),
            angle: Angle::from_degrees(part(1.0, 60.0)),
            ..Bend::default()
        };
        if i % 3 > 0 {
            tube.bends = Bends::of([bend]);
            tube.bends.find = SolveFor::Nothing;
        }
        if i % 3 == 2 {
            let from = part(50.0, 200.0);
            let press = Press { from: mm(from), to: mm(from + part(40.0, 150.0)), ..Press::default() };
            tube.ovals.list = [press].into_iter().collect();
        }
        let Ok(plan) = plan(&job) else { continue };
        if let Some(tyre) = widest_tyre(&plan) {
            assert!(job.spec("wheel.tyre_width_mm").unwrap().bounds.contain(tyre.tyre_width.mm()));
        }
        for gap in clearances(&plan).into_iter().take(2).flat_map(|room| room.clearances) {
            for way in ways(&plan, STAY, gap.to) {
                let bounds = job.spec(&way.path).unwrap().bounds;
                assert!(bounds.contain(way.to) && way.from.is_finite(), "{way:?}");
            }
        }
    }
}
