//! Which saw, and where its axis belongs: against closed forms and against the cut itself.

use crate::support;

use proptest::prelude::*;
use staywright::machining::{Verdict, candidates, cutter_axis, ways};
use staywright::model::shop::{HoleSaw, HoleSawSize, Shop};
use staywright::model::{Hand, Job, PairName, starters};
use staywright::placement::plan;
use staywright::plan::{CutAt, Plan, try_cutter};
use staywright::units::Length;

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

fn saw(cutting: f64, depth: f64) -> HoleSaw {
    HoleSaw {
        size: HoleSawSize { nominal: mm(cutting), depth: mm(depth), ..HoleSawSize::default() },
        cutting: Some(mm(cutting)),
        ..HoleSaw::default()
    }
}

/// A shop with these saws, where gaps up to `most` will do.
fn shop(saws: &[(f64, f64)], most: f64) -> Shop {
    let mut shop = Shop {
        hole_saws: saws.iter().map(|(cutting, depth)| saw(*cutting, *depth)).collect(),
        ..Shop::default()
    };
    shop.processes.truncate(1);
    shop.processes[0].gap.best = mm(0.0);
    shop.processes[0].gap.most = mm(most);
    shop
}

/// A plain tube square to the shell, its axis through the shell's.
fn square_job() -> Job {
    let mut job = Job::default();
    let side = &mut job.chainstays.right;
    side.rear.half_spacing = side.front.half_spacing;
    side.tube.od_rear = side.tube.od_front;
    job
}

const FRONT: CutAt = CutAt { pair: PairName::Chainstays, hand: Hand::Right, at_front: true };

/// A tube of radius r coped with radius C and pushed home onto radius R. Its edge at y across is at √(C²−y²) from the
/// saw's axis. With C > R it touches at y = 0 after C − R, and is furthest at y = r, at the distance
/// hypot(√(C²−r²) − (C−R), r) − R. With C < R it touches at y = r after √(C²−r²) − √(R²−r²), and is furthest at y = 0:
/// the saw's floor is C − push from the axis.
#[test]
fn gap_and_push_have_a_closed_form_for_a_square_cope() {
    let plan = plan(&square_job()).unwrap();
    let (r, member) = (11.1_f64, 20.0_f64);
    for cutter in [19.0_f64, 19.5, 20.0, 20.05, 20.5, 21.0, 25.0] {
        let trial = try_cutter(&plan, FRONT, mm(2.0 * cutter), &nalgebra::Vector3::zeros()).unwrap();
        let (edge, seat) = ((cutter * cutter - r * r).sqrt(), (member * member - r * r).sqrt());
        let (push, gap) = if cutter >= member {
            let push = cutter - member;
            (push, (edge - push).hypot(r) - member)
        } else {
            let push = edge - seat;
            (push, cutter - push - member)
        };
        assert!((trial.push.unwrap().mm() - push).abs() < 1e-6, "{cutter}: {:?}", trial.push);
        assert!((trial.gap.unwrap().mm() - gap).abs() < 1e-6, "{cutter}: {:?}", trial.gap);
    }
}

#[test]
fn the_saws_on_hand_are_ranked_with_the_reason() {
    let plan = plan(&square_job()).unwrap();
    let saws =
        [(60.0, 45.0), (40.2, 45.0), (38.0, 45.0), (39.95, 45.0), (40.1, 12.0), (20.0, 45.0), (41.8, 45.0)];
    let found = candidates(&plan, &shop(&saws, 0.1), FRONT);
    let order: Vec<usize> = found.iter().map(|candidate| candidate.saw).collect();
    assert_eq!(order, [3, 1, 6, 0, 2, 4, 5]);
    assert_eq!(found[0].verdict, Verdict::Fits);
    assert_eq!(found[1].verdict, Verdict::Fits);
    assert!(matches!(found[2].verdict, Verdict::TooLarge(by) if by.mm() > 0.0 && by.mm() < 0.1));
    assert!(matches!(found[3].verdict, Verdict::TooLarge(_)));
    assert!(matches!(found[4].verdict, Verdict::CannotSeat(_)));
    // Square to a plain tube the saw must be as deep as the tube is thick: 22.2 mm.
    assert!(matches!(found[5].verdict, Verdict::TooShort(by) if (by.mm() - 10.2).abs() < 1e-9));
    assert_eq!(found[6].verdict, Verdict::NotAllRound);
}

#[test]
fn an_end_that_is_not_round_has_no_saws() {
    let plan = plan(&Job::default()).unwrap();
    assert!(candidates(&plan, &Shop::default(), CutAt { at_front: false, ..FRONT }).is_empty());
}

/// The end cut anew with its axis moved as `candidates` says: what is left of the push.
fn left_after_shift(plan: &Plan, at: CutAt, cutter: f64) -> Option<f64> {
    let shop = shop(&[(cutter, 90.0)], 0.1);
    let candidate = *candidates(plan, &shop, at).first()?;
    let shift = candidate.shift?;
    let axis = cutter_axis(plan, at, at.cut(plan).round()?, Hand::Right);
    let ways = ways(&axis);
    let moved = ways.along * shift.along.mm() + ways.across * shift.across.mm();
    let clamp = at.stay(plan).clamp;
    let moved = clamp.u * moved.x + clamp.v * moved.y + clamp.w * moved.z;
    let after = try_cutter(plan, at, mm(cutter), &moved)?;
    // The gap is that of the same saw about the member's own axis.
    assert!((after.gap?.mm() - candidate.gap?.mm()).abs() < 1e-6, "{}", at.key());
    Some(after.push?.mm())
}

#[test]
fn moving_the_axis_by_the_shift_makes_the_length_right() {
    let mut seen = 0;
    for starter in starters() {
        let mut job = starter.job;
        for name in PairName::ALL {
            let pair = job.pair_mut(name);
            for side in std::iter::once(&mut pair.right).chain(pair.left.as_mut()) {
                // A plain tube: on a taper the cut's own shape changes along it.
                side.tube.od_rear = side.tube.od_front;
                side.front.rise = mm(3.0);
            }
        }
        let plan = plan(&job).unwrap();
        for at in CutAt::all() {
            let Some(cut) = at.cut(&plan).round() else { continue };
            for over in [-0.5, 0.3, 1.5, 4.0] {
                let left = left_after_shift(&plan, at, cut.member.mm() + over).unwrap();
                assert!(left.abs() < 1e-6, "{} {over}: {left}", at.key());
                seen += 1;
            }
        }
    }
    assert!(seen >= 48, "{seen}");
}

/// With the table moved along only, the stay's length is right where its axis comes nearest to the cutter's.
#[test]
fn moving_along_alone_brings_the_station_right() {
    let plan = plan(&Job::default()).unwrap();
    let at = CutAt { pair: PairName::Seatstays, ..FRONT };
    let axis = cutter_axis(&plan, at, at.cut(&plan).round().unwrap(), Hand::Right);
    let placed = staywright::machining::Placed::new(&plan, at);
    let shop = shop(&[(30.0, 90.0)], 1.0);
    let candidate = candidates(&plan, &shop, at)[0];
    let mut moved = axis;
    moved.point += ways(&axis).along * candidate.shift.unwrap().along_alone.unwrap().mm();
    let station = |axis| match placed.axis.nearest(axis) {
        staywright::geometry::Nearest::Skew { station, .. } => station,
        other => panic!("{other:?}"),
    };
    assert!((station(&axis) - station(&moved) - candidate.push.unwrap().mm()).abs() < 1e-9);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]
    /// Whatever the job, every saw gets a verdict and figures that are numbers, and the ranking is in order.
    #[test]
    fn any_job_gets_its_saws_judged(job in support::good_job()) {
        let plan = plan(&job).unwrap();
        let shop = shop(&[(30.0, 40.0), (40.0, 40.0), (60.0, 20.0)], 0.2);
        for at in CutAt::all() {
            let found = candidates(&plan, &shop, at);
            prop_assert_eq!(found.len(), if at.cut(&plan).round().is_some() { 3 } else { 0 });
            for candidate in found {
                for figure in [candidate.gap, candidate.push].into_iter().flatten() {
                    prop_assert!(figure.mm().is_finite());
                }
                if let Some(shift) = candidate.shift {
                    prop_assert!(shift.along.mm().is_finite() && shift.across.mm().is_finite());
                }
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]
    /// Whatever the job, the order of work is a list of steps whose every figure is a number.
    #[test]
    fn any_job_has_its_steps(job in support::good_job()) {
        let plan = plan(&job).unwrap();
        let shop = staywright::model::shop::demo_shop();
        let tools = staywright::procedure::choose(&plan, &shop);
        for step in staywright::procedure::steps(&plan, &shop, &tools) {
            let beside = step.also.iter().map(|beside| beside.reading);
            for number in step.set_points().map(|point| point.reading).chain(beside).filter_map(staywright::procedure::Reading::number) {
                prop_assert!(number.is_finite(), "{:?}", step.key);
            }
            for rounding in step.set_points().filter_map(|point| point.rounding) {
                let effect = rounding.effect;
                for number in [effect.along.mm(), effect.offset.mm(), effect.angle.degrees()] {
                    prop_assert!(number.is_finite(), "{:?}", step.key);
                }
            }
            let style = staywright::text::Style::default();
            for problem in &step.problems {
                prop_assert!(!staywright::text::procedure::problem(problem, style).contains("NaN"));
            }
        }
    }
}
