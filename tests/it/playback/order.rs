//! In what order things are done, and what is found on the way.

use super::jobs::jobs;
use super::mill::Simulated;
use super::step_at;
use staywright::machining::{Verdict, candidates};
use staywright::model::shop::{HoleSaw, HoleSawSize, Metal, Shop, demo_shop};
use staywright::model::{Hand, Job, Level, PairName, starters, starting_job};
use staywright::placement::plan;
use staywright::plan::{Code, CutAt};
use staywright::procedure::{
    Caution, Phase, Problem, Quantity, Ranged, Reading, Step, StepKind, Task, Tools, Turned, choose,
    pair_steps, problems, steps,
};
use staywright::units::{Angle, Length};

fn of_job(job: &Job, shop: &Shop) -> Vec<Step> {
    let plan = plan(job).unwrap();
    steps(&plan, shop, &choose(&plan, shop))
}

fn found(steps: &[Step]) -> Vec<Problem> {
    problems(steps).map(|(_, problem)| *problem).collect()
}

/// The simulated mill refuses a step that finds the wrong thing in the spindle, a readout that is not at zero, a slug in the saw.
#[test]
fn a_whole_job_can_be_done_in_the_order_of_its_steps() {
    for job in jobs() {
        for shop in [demo_shop(), Shop::default()] {
            let mut simulated = Simulated::new(&job, &shop);
            for step in &of_job(&job, &shop) {
                simulated.follow(step);
            }
        }
    }
}

/// Each way that the fixture stands in a clamping is found once, by two touches; nothing is touched again.
#[test]
fn nothing_is_touched_again_while_its_zero_holds() {
    for job in jobs() {
        let shop = demo_shop();
        let steps = of_job(&job, &shop);
        let mut simulated = Simulated::new(&job, &shop);
        steps.iter().for_each(|step| simulated.follow(step));
        let stands = |step: &&Step| matches!(step.task, Task::StandOnSide { .. } | Task::Tilt { .. });
        assert_eq!(simulated.touches, 2 * steps.iter().filter(stands).count());
        for two in steps.windows(2) {
            assert!(!matches!(two, [a, b] if a.task == b.task && a.figures() == b.figures()), "{two:?}");
        }
    }
}

/// Every rear end that a person starts with, in the example shop and in one that nobody has entered, on its own fixture and the shop's.
/// In the example shop a saw does not hold the slugs of both stays: two more steps for such a cut.
#[test]
fn a_typical_rear_end_takes_few_steps() {
    let mut jobs: Vec<(&str, Job)> = starters().into_iter().map(|one| (one.key, one.job)).collect();
    jobs.push(("plain", starting_job()));
    for (name, job) in jobs {
        let shop = demo_shop();
        for job in [shop.starting(job.clone()), job] {
            let entered = of_job(&job, &shop).len();
            let nobodys = steps(&plan(&job).unwrap(), &Shop::default(), &Tools::default()).len();
            assert!(entered <= 36 && nobodys <= 36, "{name}: {entered} {nobodys}");
        }
    }
}

/// What is set at one step is set in one motion or on one part: the table to a point, the posts, the axle's bar, the passes into one stay.
/// No other step sets more than one figure.
#[test]
fn only_what_belongs_together_is_one_step() {
    let mut joined = 0;
    for step in jobs().iter().flat_map(|job| of_job(job, &demo_shop())) {
        let together = match step.task {
            Task::Move { .. } | Task::SetAxle(_) => 2..=2,
            Task::StopAtRoot { across, .. } => 1..=1 + usize::from(across.is_some()),
            Task::MountSlittingSaw { touches, .. } => 1..=1 + usize::from(touches.is_some()),
            Task::SetPosts { count, .. } => 0..=usize::from(count),
            Task::Slot { passes, .. } => usize::from(passes)..=usize::from(passes),
            _ => 0..=1,
        };
        let points = step.set_points().count();
        assert!(together.contains(&points), "{step:?}");
        joined += usize::from(points > 1);
    }
    assert!(joined > 50, "{joined}");
}

/// Every word of every step in inches: no millimetre is left in it.
#[test]
fn the_steps_are_written_in_one_unit() {
    use staywright::text::{English, Style, procedure as words};
    use staywright::units::LengthUnit;
    let mut poor = demo_shop();
    poor.hole_saws.iter_mut().for_each(|saw| saw.arbor.reach = Length::from_mm(12.0));
    poor.slitting_saws.clear();
    poor.mill.axes.iter_mut().for_each(|axis| axis.travel = Length::from_mm(40.0));
    for (job, shop) in jobs().into_iter().flat_map(|job| [(job.clone(), demo_shop()), (job, poor.clone())]) {
        for step in of_job(&job, &shop) {
            let all = |style: Style| {
                let problems = step.problems.iter().map(|problem| words::problem(problem, style));
                let names = step.also.iter().map(|beside| words::quantity(beside.what, style));
                let own = [words::task(&step), words::set_on(&step, style)];
                own.into_iter().chain(problems).chain(names).collect::<Vec<_>>().join("\n")
            };
            for english in English::ALL {
                let inches = all(Style { unit: LengthUnit::Inch, english });
                assert!(!inches.contains(" mm"), "{inches}");
                let millimetres = all(Style { unit: LengthUnit::Millimetre, english });
                assert!(!millimetres.contains(" in,"), "{millimetres}");
            }
            let british = all(Style { unit: LengthUnit::Inch, english: English::British });
            let american = all(Style { unit: LengthUnit::Inch, english: English::American });
            assert!(
                !british.to_lowercase().contains("center") && !american.to_lowercase().contains("centre")
            );
        }
    }
}

/// What must not be missed is a step of its own, at its place.
#[test]
fn what_must_not_be_missed_is_a_step_of_its_own() {
    for job in jobs() {
        let steps = of_job(&job, &demo_shop());
        let place = |wanted: &dyn Fn(&Task) -> bool| steps.iter().position(|step| wanted(&step.task));
        assert_eq!(place(&|task| *task == Task::MarkHands), Some(0));
        assert_eq!(place(&|task| *task == Task::Deburr), Some(steps.len() - 1));
        for two in steps.windows(2) {
            if let [cut, next] = two {
                let is_cut = matches!(cut.task, Task::Cut { .. });
                assert_eq!(is_cut, matches!(next.task, Task::ClearSlug { .. }), "{two:?}");
            }
        }
        for (i, step) in steps.iter().enumerate().filter(|(_, step)| step.task == Task::TakeAxleOut) {
            // The spindle is empty, and a saw is mounted next.
            let next = &steps[i + 1].task;
            assert!(matches!(next, Task::MountHoleSaw { .. } | Task::MountSlittingSaw { .. }), "{step:?}");
        }
    }
}

/// A saw of 38 mm on a shell of 40: the gap alone would do, but the stay touches at its edges. Plan, choice and steps agree.
#[test]
fn a_saw_slimmer_than_the_member_is_never_said_to_fit() {
    let mut shop = demo_shop();
    shop.processes[0].gap.most = Length::from_mm(5.0);
    let size = HoleSawSize {
        nominal: Length::from_mm(38.0),
        depth: Length::from_mm(90.0),
        ..HoleSawSize::default()
    };
    shop.hole_saws = vec![HoleSaw { size, ..HoleSaw::default() }];
    let at = CutAt { pair: PairName::Chainstays, hand: Hand::Right, at_front: true };
    let mut job = Job::default();
    let plan_of = |job: &Job| plan(job).unwrap();
    let judged = candidates(&plan_of(&job), &shop, at);
    assert_eq!(judged[0].verdict, Verdict::CannotSeat(Length::from_mm(2.0)));
    let steps = of_job(&job, &shop);
    let planned = Length::from_mm(40.0);
    let missing = |problem: &Problem| match problem {
        Problem::NoHoleSaw { planned: own, nearest } => {
            *own == planned && nearest.is_some_and(|near| near.diameter == Length::from_mm(38.0))
        }
        _ => false,
    };
    let stop = found(&steps).into_iter().find(missing).unwrap();
    assert_eq!(stop.level(), Level::Stop);
    let mount = step_at(&steps, Phase::Front, StepKind::HoleSaw);
    assert_eq!(mount.reading, Some(Reading::Diameter(planned)));
    if let staywright::model::End::Cope(cope) = &mut job.chainstays.right.front_end {
        cope.cutter = Some(Length::from_mm(38.0));
    }
    let warned = plan_of(&job).warnings;
    assert!(warned.iter().any(|warning| warning.code() == Code::CutterSmallerThanMember));
}

/// Without any saw each cutter that is named is a stop; where nobody has said what saws there are it is a note.
#[test]
fn a_saw_that_nobody_has_is_a_stop() {
    let mut shop = demo_shop();
    (shop.hole_saws, shop.slitting_saws) = (Vec::new(), Vec::new());
    for job in jobs() {
        let steps = of_job(&job, &shop);
        for step in steps {
            let levels: Vec<Level> = step.problems.iter().map(Problem::level).collect();
            if matches!(step.task, Task::MountHoleSaw { .. } | Task::MountSlittingSaw { .. }) {
                assert_eq!(levels, [Level::Stop], "{step:?}");
            }
        }
    }
    let plan = plan(&Job::default()).unwrap();
    let unknown = steps(&plan, &Shop::default(), &Tools::default());
    let mounts = unknown
        .iter()
        .filter(|step| matches!(step.task, Task::MountHoleSaw { .. } | Task::MountSlittingSaw { .. }));
    assert!(
        mounts.clone().count() == 4
            && mounts.flat_map(|step| &step.problems).all(|p| *p == Problem::SawsUnknown)
    );
}

/// Why a readout is not the planned one: a larger saw lets the stay in further, a slimmer one makes it stand off.
#[test]
fn the_reason_for_a_moved_reading_goes_the_right_way() {
    let shop = demo_shop();
    let plan = plan(&shop.starting(Job::default())).unwrap();
    let at = CutAt { pair: PairName::Chainstays, hand: Hand::Right, at_front: true };
    let (mut in_further, mut off) = (0, 0);
    for candidate in candidates(&plan, &shop, at) {
        let Some(push) = candidate.push.filter(|push| push.mm().abs() > 0.005) else { continue };
        let mut tools = Tools::default();
        tools.take(at, candidate);
        let steps = pair_steps(&plan, &shop, &tools, PairName::Chainstays);
        let along = step_at(&steps, Phase::Front, StepKind::Move);
        let planned = along.also.iter().find_map(|beside| match beside.what {
            Quantity::Planned { goes_in, .. } => Some(goes_in),
            _ => None,
        });
        assert_eq!(planned, Some(push));
        let mount = step_at(&steps, Phase::Front, StepKind::HoleSaw);
        // A larger cylinder meets the stay further back, so that the stay goes in; by hand, at the sides of the tube.
        let is_larger = candidate.diameter > Length::from_mm(40.0);
        assert_eq!(push.mm() > 0.0, is_larger, "{candidate:?}");
        assert_eq!(mount.beside_of(Quantity::GoesIn).is_some(), is_larger);
        assert_eq!(mount.beside_of(Quantity::StandsOff), (!is_larger).then_some(Reading::Length(-push)));
        if is_larger { in_further += 1 } else { off += 1 }
    }
    assert!(in_further > 0 && off > 0, "{in_further} {off}");
}

#[test]
fn what_cannot_be_set_says_by_how_much() {
    let mut shop = demo_shop();
    shop.fixture.limits.tilt_max = Angle::from_degrees(10.0);
    shop.fixture.limits.half_spacing_max = Length::from_mm(25.0);
    let mut job = shop.starting(Job::default());
    job.fixture.bench.slide_max = Length::from_mm(400.0);
    let steps = of_job(&job, &shop);
    let mm = Length::from_mm;
    let slide = &step_at(&steps, Phase::Clamping, StepKind::Slide).problems;
    let [Problem::OutOfRange { what: Ranged::Slide, wanted, from, to }] = slide.as_slice() else {
        panic!("{slide:?}")
    };
    assert!((wanted.mm() - 430.0).abs() < 1e-9);
    assert_eq!((*from, *to), (mm(380.0), mm(400.0)));
    let post = &step_at(&steps, Phase::Clamping, StepKind::Posts).problems;
    assert!(
        post.iter().all(|one| matches!(one, Problem::OutOfRange { what: Ranged::Clamp, .. }))
            && !post.is_empty(),
        "{post:?}"
    );
    let tilt = &step_at(&steps, Phase::Front, StepKind::Tilt).problems;
    let [Problem::TurnOutOfRange { what: Turned::Tilt, to, .. }] = tilt.as_slice() else {
        panic!("{tilt:?}")
    };
    assert_eq!(*to, Angle::from_degrees(10.0));
    assert!(found(&steps).iter().filter(|one| one.level() == Level::Stop).count() >= 3);
}

/// What the way in would meet is known at the step at which the saw goes in.
#[test]
fn the_cut_says_what_stands_in_its_way() {
    use staywright::machining::{Standing, Turning};
    let mut shop = demo_shop();
    shop.processes[0].gap.most = Length::from_mm(2.0);
    let job = shop.starting(Job::default());
    let cut = |shop: &Shop| {
        let steps = of_job(&job, shop);
        let front = steps
            .iter()
            .find(|step| matches!(step.task, Task::Cut { .. }) && step.key.setting.phase == Phase::Front);
        front.unwrap().clone()
    };
    let good = cut(&shop);
    assert_eq!(good.problems, []);
    assert!(good.beside_of(Quantity::SmallestGap(Turning::Saw, Standing::Bed)).is_some(), "{:?}", good.also);
    assert!(matches!(good.beside_of(Quantity::Spindle), Some(Reading::Speed(_))));
    let mut poor = shop.clone();
    poor.hole_saws.iter_mut().for_each(|saw| saw.arbor.reach = Length::from_mm(12.0));
    poor.mill.axes.iter_mut().for_each(|axis| axis.travel = Length::from_mm(40.0));
    poor.fixture.bed.thickness = Length::from_mm(25.0);
    let codes: Vec<&str> = cut(&poor).problems.iter().map(Problem::code).collect();
    for code in ["arbor_short", "spindle_travel_short", "table_travel_short", "collision"] {
        assert!(codes.contains(&code), "{code}: {codes:?}");
    }
}

/// A saw that does not hold both slugs stops between the stays, and the first slug is cleared there.
#[test]
fn a_shallow_saw_is_cleared_between_the_stays() {
    let mut shop = demo_shop();
    shop.processes[0].gap.most = Length::from_mm(2.0);
    let kinds = |shop: &Shop| -> Vec<StepKind> {
        let steps = of_job(&shop.starting(Job::default()), shop);
        let front = |step: &&Step| step.key.setting.phase == Phase::Front;
        steps.iter().filter(front).map(|step| step.key.kind).collect()
    };
    let wanted = [StepKind::FirstCut, StepKind::FirstSlug, StepKind::Cut, StepKind::Slug];
    let of_cuts = |kinds: Vec<StepKind>| -> Vec<StepKind> {
        kinds.into_iter().filter(|kind| wanted.contains(kind)).take(4).collect()
    };
    assert_eq!(of_cuts(kinds(&shop)), wanted);
    shop.hole_saws.iter_mut().for_each(|saw| saw.size.depth = Length::from_mm(140.0));
    assert_eq!(of_cuts(kinds(&shop))[..2], [StepKind::Cut, StepKind::Slug]);
}

/// Whoever turns a cutter has been told what can hurt, with where it was read, once a pair.
#[test]
fn cautions_stand_where_they_belong() {
    for metal in [Metal::ChromeMoly, Metal::Titanium] {
        let shop = Shop { metal, ..demo_shop() };
        for job in jobs() {
            let plan = plan(&job).unwrap();
            for name in PairName::ALL {
                let steps = pair_steps(&plan, &shop, &Tools::default(), name);
                let first = |caution: Caution| {
                    let of = |step: &Step| step.cautions.iter().filter(|one| **one == caution).count();
                    assert!(steps.iter().map(of).sum::<usize>() <= 1, "{caution:?} is said twice");
                    steps.iter().position(|step| of(step) > 0)
                };
                let is_slot = |step: &Step| matches!(step.task, Task::Slot { .. });
                let is_cut = |step: &Step| is_slot(step) || matches!(step.task, Task::Cut { .. });
                let cut = steps.iter().position(is_cut).unwrap();
                assert_eq!(first(Caution::TurningCutter), Some(cut));
                assert_eq!(first(Caution::BurningChips), (metal == Metal::Titanium).then_some(cut));
                assert!(first(Caution::SlippingTube).is_some_and(|clamp| clamp < cut));
                assert_eq!(first(Caution::BreakingSaw), steps.iter().position(is_slot));
            }
        }
    }
}

/// Ticks are kept under these names: they must not change, and no two steps may share one.
#[test]
fn keys_are_stable_and_unlike() {
    for job in jobs() {
        let steps = of_job(&job, &Shop::default());
        let mut keys: Vec<String> = steps.iter().map(|step| step.key.written()).collect();
        keys.sort_unstable();
        assert!(keys.windows(2).all(|two| two[0] != two[1]), "{keys:?}");
    }
    let steps = steps(&plan(&Job::default()).unwrap(), &Shop::default(), &Tools::default());
    let keys: Vec<String> = steps.iter().map(|step| step.key.written()).collect();
    for key in [
        "chainstays.both.before.mark-hands",
        "chainstays.both.slide",
        "chainstays.both.posts",
        "chainstays.both.clamp",
        "chainstays.both.front.cutter",
        "chainstays.both.front.side",
        "chainstays.both.front.touch-edge",
        "chainstays.both.front.move",
        "chainstays.both.front.cut",
        "chainstays.both.front.slug",
        "chainstays.both.rear.axle-out",
        "chainstays.both.rear.saw",
        "chainstays.both.rear.along",
        "chainstays.both.rear.slot-right",
        "seatstays.both.front.tilt",
        "seatstays.both.after.deburr",
    ] {
        assert!(keys.iter().any(|known| known == key), "{key}: {keys:#?}");
    }
}
