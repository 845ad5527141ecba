//! The one list of what is wrong: each thing once, the gravest first, in sentences of one unit.

use staywright::ask::{Answer, Question, Responder, Response, ToStep};
use staywright::clearance::{Obstacle, clearances};
use staywright::findings::{
    Finding, What, gather, of_clearances, of_faults, of_limits, of_plan, of_saws, of_steps,
};
use staywright::link;
use staywright::machining::{Advice, Turning, Verdict, candidates};
use staywright::model::shop::{Metal, Shop, demo_shop};
use staywright::model::{Basis, Hand, Job, Level, Location, PairName, Stays, starting_job};
use staywright::placement::plan;
use staywright::plan::{self, Code, CutAt, Plan};
use staywright::procedure::{self, StepKind, Tools, choose, steps};
use staywright::text::{Style, finding, finding_message};
use staywright::units::{Length, LengthUnit};

/// The whole list of a job in a shop.
fn all(job: &Job, shop: &Shop) -> Vec<Finding> {
    let plan = plan(job).unwrap();
    let tools = choose(&plan, shop);
    list(&plan, shop, &tools)
}

pub fn list(plan: &Plan, shop: &Shop, tools: &Tools) -> Vec<Finding> {
    let rooms = clearances(plan);
    let steps = steps(plan, shop, tools);
    gather(
        of_plan(plan)
            .chain(of_clearances(plan, &rooms))
            .chain(of_steps(&steps))
            .chain(of_saws(plan, shop, tools))
            .chain(of_limits(&rooms)),
    )
}

/// The example shop with a wide spindle nose close behind the saws.
fn wide_nose() -> Shop {
    let mut shop = demo_shop();
    shop.mill.body.nose = Length::from_mm(600.0);
    shop.mill.body.holder_length = Length::from_mm(1.0);
    shop.hole_saws.iter_mut().for_each(|saw| saw.arbor.reach = Length::from_mm(40.0));
    shop
}

fn wide_tyre(mm: f64) -> Job {
    let mut job = starting_job();
    job.wheel.tyre_width = Length::from_mm(mm);
    job
}

#[test]
fn a_tyre_that_is_hit_is_a_stop_of_both_stays_said_once_and_first() {
    let job = wide_tyre(75.0);
    let found = all(&job, &demo_shop());
    let plan = plan(&job).unwrap();
    let depth = |pair: PairName| {
        let rooms = clearances(&plan);
        let stay = rooms.iter().find(|room| room.pair == pair && room.hand == Hand::Left).unwrap();
        stay.clearances.iter().find(|one| one.to == Obstacle::Tyre).unwrap().distance.mm()
    };
    assert!(depth(PairName::Chainstays) < 0.0);
    let tyre = |found: &&Finding| match &found.what {
        What::Clearance(one) => {
            one.to == Obstacle::Tyre && found.location.pair() == Some(PairName::Chainstays)
        }
        _ => false,
    };
    let hits: Vec<&Finding> = found.iter().filter(tyre).collect();
    let [hit] = hits[..] else { panic!("{hits:?}") };
    assert_eq!((hit.level, hit.location), (Level::Stop, Location::Stay(PairName::Chainstays, Stays::Both)));
    let What::Clearance(one) = &hit.what else { panic!() };
    assert!((one.distance.mm() - depth(PairName::Chainstays)).abs() < 1e-9);
    // The limit that the job starts with is nobody's published figure.
    assert_eq!(one.basis, Basis::Habit);
    assert_eq!(found[0].level, Level::Stop);
}

#[test]
fn a_clearance_is_a_stop_below_zero_a_check_below_its_limit_and_a_note_where_it_is_tight() {
    let levels = |mm: f64| -> Vec<(Level, f64)> {
        let found = all(&wide_tyre(mm), &demo_shop());
        let tyre = |found: &Finding| match &found.what {
            What::Clearance(one) if one.to == Obstacle::Tyre => Some((found.level, one.distance.mm())),
            _ => None,
        };
        found.iter().filter_map(tyre).collect()
    };
    let mut seen = Vec::new();
    for tenths in 200..750 {
        for (level, distance) in levels(f64::from(tenths) / 10.0) {
            let expected = match distance {
                hit if hit < 0.0 => Level::Stop,
                short if short < 6.0 => Level::Check,
                _ => Level::Note,
            };
            assert_eq!(level, expected, "{distance}");
            assert!(distance < 6.5);
            seen.extend((!seen.contains(&level)).then_some(level));
        }
    }
    assert_eq!(seen.len(), 3);
}

#[test]
fn a_job_that_can_be_built_has_notes_alone() {
    let found = all(&starting_job(), &demo_shop());
    assert!(found.iter().all(|one| one.level == Level::Note), "{found:?}");
    // The advice that holds of every cut is said once.
    let of = |advice| found.iter().filter(|one| one.what == What::Advice(advice)).count();
    assert_eq!((of(Advice::PilotOut), of(Advice::OfMetal(demo_shop().metal))), (1, 1));
    let limits = found.iter().filter(|one| matches!(one.what, What::LimitsUnsourced(_))).count();
    assert_eq!(limits, 1);
}

#[test]
fn what_two_rooms_found_is_said_once_and_belongs_to_the_step() {
    let mut job = starting_job();
    job.fixture.bench.slide_max = Length::from_mm(job.fixture.bench.slide_min.mm() + 1.0);
    let found = all(&job, &demo_shop());
    let slide = |one: &&Finding| match &one.what {
        What::Plan(problem) => problem.code() == Code::SlideOutOfRange,
        What::Procedure(problem) => problem.code() == "slide_out_of_range",
        _ => false,
    };
    let of_pair =
        |pair| found.iter().filter(slide).filter(|one| one.location.pair() == Some(pair)).collect::<Vec<_>>();
    for pair in PairName::ALL {
        let said = of_pair(pair);
        let [one] = said[..] else { panic!("{said:?}") };
        assert_eq!(one.level, Level::Stop);
        assert!(matches!(one.what, What::Plan(_)));
        assert!(one.steps.iter().any(|step| step.kind == StepKind::Slide && step.setting.pair == pair));
    }
}

#[test]
fn stays_that_run_into_each_other_are_said_by_the_plan_alone() {
    let mut job = starting_job();
    job = job.with_figure("chainstays.right.front.half_spacing_mm", 4.0);
    let found = all(&job, &demo_shop());
    let collide = |one: &&Finding| match &one.what {
        What::Plan(problem) => problem.code() == Code::StaysCollide,
        What::Clearance(one) => one.to == Obstacle::Other && one.distance.mm() < 0.0,
        _ => false,
    };
    let said: Vec<&Finding> = found.iter().filter(collide).collect();
    assert!(matches!(said[..], [Finding { what: What::Plan(_), .. }]), "{said:?}");
}

#[test]
fn a_spindle_nose_that_meets_the_fixture_is_a_stop_at_its_cut() {
    let shop = wide_nose();
    let found = all(&starting_job(), &shop);
    let meets = |one: &&Finding| {
        matches!(one.what, What::Procedure(procedure::Problem::Meets { part: Turning::Nose, .. }))
    };
    let one = found.iter().find(meets).unwrap_or_else(|| panic!("{found:?}"));
    assert_eq!(one.level, Level::Stop);
    assert!(
        one.steps
            .iter()
            .all(|step| matches!(step.kind, StepKind::FirstCut | StepKind::Cut | StepKind::Slot(_)))
    );
    assert!(one.matters_at(one.steps[0]) && one.location.at_front().is_some());
    // At the cut of another setting it is of no matter.
    let elsewhere = |step: &procedure::StepKey| !one.steps.contains(step);
    let plan = plan(&starting_job()).unwrap();
    let others = steps(&plan, &shop, &choose(&plan, &shop)).into_iter().map(|step| step.key);
    assert!(others.filter(elsewhere).all(|step| !one.matters_at(step)));
}

#[test]
fn a_saw_that_nobody_has_is_a_stop_and_saws_that_nobody_entered_are_one_note() {
    let shop = Shop { hole_saws: Vec::new(), ..demo_shop() };
    let found = all(&starting_job(), &shop);
    let missing = |one: &&Finding| matches!(one.what, What::Procedure(procedure::Problem::NoHoleSaw { .. }));
    assert!(found.iter().filter(missing).count() > 0);
    assert!(found.iter().filter(missing).all(|one| one.level == Level::Stop && !one.steps.is_empty()));
    let plan = plan(&starting_job()).unwrap();
    let unknown = list(&plan, &demo_shop(), &Tools::default());
    let said = |one: &&Finding| one.what == What::Procedure(procedure::Problem::SawsUnknown);
    let said: Vec<&Finding> = unknown.iter().filter(said).collect();
    let [one] = said[..] else { panic!("{said:?}") };
    assert!(one.level == Level::Note && one.location == Location::Whole && one.steps.len() > 1);
}

#[test]
fn a_saw_that_was_picked_and_cannot_seat_the_stay_is_a_stop() {
    let (plan, mut shop) = (plan(&starting_job()).unwrap(), demo_shop());
    let at = CutAt { pair: PairName::Chainstays, hand: Hand::Right, at_front: true };
    let member = at.cut(&plan).round().unwrap().member;
    let fitting = candidates(&plan, &shop, at)[0].saw;
    shop.hole_saws[fitting].cutting = Some(Length::from_mm(member.mm() - 2.0));
    let mut tools = choose(&plan, &shop);
    let small = candidates(&plan, &shop, at).into_iter().find(|one| one.saw == fitting).unwrap();
    assert!(matches!(small.verdict, Verdict::CannotSeat(_)), "{small:?}");
    tools.take(at, small);
    let found = list(&plan, &shop, &tools);
    let unfit = found.iter().find(|one| matches!(one.what, What::SawUnfit { .. })).unwrap();
    assert_eq!(unfit.level, Level::Stop);
    assert!(unfit.location.covers(at.pair, at.hand, at.at_front));
    let said = finding_message(unfit, Style::FILE);
    assert!(said.contains("cannot seat") && said.contains("2 mm"), "{said}");
}

#[test]
fn the_gravest_comes_first_and_then_the_order_of_the_places() {
    let shop = wide_nose();
    let found = all(&wide_tyre(75.0), &shop);
    assert!(found.windows(2).all(|two| two[0].level >= two[1].level));
    let of_level = |level| found.iter().filter(move |one| one.level == level);
    for level in Level::ALL {
        let pairs: Vec<usize> =
            of_level(level).filter_map(|one| one.location.pair()).map(|pair| pair as usize).collect();
        assert!(pairs.is_sorted(), "{pairs:?}");
    }
}

#[test]
fn right_and_left_are_said_once_where_they_are_alike_and_each_where_they_are_not() {
    use Location::{End, Stay};
    let at = |location, problem| Finding::new(location, What::Plan(problem));
    let front = |hand| End(PairName::Chainstays, Stays::One(hand), true);
    let stay = |hand| Stay(PairName::Seatstays, Stays::One(hand));
    let (right, left) = (Hand::Right, Hand::Left);
    let grazing = plan::Problem::GrazingCut;
    let two = |other| gather([at(front(right), grazing.clone()), at(front(left), other)]);
    let said = two(grazing.clone());
    assert_eq!(said.iter().map(|one| one.location.key()).collect::<Vec<_>>(), ["chainstays.both.front"]);
    assert_eq!(two(plan::Problem::PartlyMissesSaw).len(), 2);
    // One side alone stays one side; a front end and a whole stay are not alike.
    assert_eq!(gather([at(stay(left), grazing.clone())])[0].location.key(), "seatstays.left");
    assert_eq!(gather([at(front(right), grazing.clone()), at(stay(left), grazing.clone())]).len(), 2);
    assert_eq!(gather([at(front(right), grazing.clone()), at(front(right), grazing)]).len(), 1);
}

#[test]
fn faults_are_stops_at_their_place() {
    let job = starting_job().with_figure("chainstays.right.rear.reach_mm", -5000.0);
    let faults = plan::faults(&job);
    let found = gather(of_faults(&faults));
    assert_eq!(found.len(), faults.len());
    assert!(found.iter().all(|one| one.level == Level::Stop));
    let place = Location::End(PairName::Chainstays, Stays::One(Hand::Right), false);
    let one = found.iter().find(|one| one.location == place).unwrap();
    assert!(finding(one, Style::FILE).starts_with("chainstays.right.rear.reach_mm: "));
}

#[test]
fn the_list_is_answered_with_its_types() {
    let job = wide_tyre(75.0);
    let asked = ToStep { job: link::encode(&job), ..ToStep::default() };
    let answer = Responder::default().respond(&Question::Findings(asked).to_bytes());
    let Answer::Findings(found) = Response::from_bytes(&answer).unwrap().answer else { panic!() };
    let is_hit = |one: &Finding| matches!(&one.what, What::Clearance(one) if one.to == Obstacle::Tyre);
    assert!(is_hit(&found[0]) && found[0].level == Level::Stop, "{found:?}");
    // Of a machine that nobody has entered nothing is in the way.
    let machine = |one: &&Finding| matches!(one.what, What::Procedure(_) | What::Advice(_));
    let unknown = What::Procedure(procedure::Problem::SawsUnknown);
    assert!(found.iter().filter(machine).all(|one| one.what == unknown), "{found:?}");
}

#[test]
fn sentences_of_findings() {
    let tight = |distance: f64, limit: f64, to, is_one_of_several| {
        let mut job = starting_job();
        job.wheel.tyre_width = Length::from_mm(75.0);
        let plan = plan(&job).unwrap();
        let rooms = clearances(&plan);
        let mut found = of_clearances(&plan, &rooms).find(|one| one.level == Level::Stop).unwrap();
        if let What::Clearance(one) = &mut found.what {
            (one.distance, one.limit) = (Length::from_mm(distance), Length::from_mm(limit));
            (one.to, one.is_one_of_several) = (to, is_one_of_several);
            one.station = Length::from_mm(127.0);
            one.basis = if limit == 6.0 { Basis::Habit } else { Basis::Own };
        }
        found
    };
    let [mm, inch] = [Style::FILE, Style::ALL[3]];
    let hit = tight(-3.03, 6.0, Obstacle::Tyre, false);
    assert_eq!(
        finding(&hit, mm),
        "right chainstay: hits the tyre by 3.03 mm (need 6 mm, a shop habit, unsourced), 127 mm behind the front \
         reference point"
    );
    assert_eq!(
        finding_message(&hit, inch),
        "hits the tire by 0.119 in (need 0.236 in, a shop habit, unsourced), 5 in behind the front reference point"
    );
    assert_eq!(
        finding_message(&tight(2.5, 3.0, Obstacle::Chainring(0), false), mm),
        "clears the chainring by 2.5 mm only (need 3 mm), 127 mm behind the front reference point"
    );
    assert_eq!(
        finding_message(&tight(3.25, 3.0, Obstacle::Chainring(1), true), mm),
        "clears chainring 2 by 3.25 mm, which is tight (need 3 mm), 127 mm behind the front reference point"
    );
    let advice = Finding::new(Location::Whole, What::Advice(Advice::PilotOut));
    assert_eq!(
        finding(&advice, inch),
        "Take the pilot drill out – it stands about 0.063 in before the teeth and would meet the round tube off its middle"
    );
    let limits = Finding::new(Location::Whole, What::LimitsUnsourced(vec![Obstacle::Tyre, Obstacle::Heel]));
    assert_eq!(
        finding(&limits, mm),
        "the clearance wanted to the tyre and the heel is a shop habit, unsourced"
    );
}

/// Jobs and shops with much wrong.
fn bad() -> Vec<(Job, Shop)> {
    let start = starting_job;
    let jobs = [
        wide_tyre(75.0),
        start().with_figure("chainstays.right.front.half_spacing_mm", 4.0),
        start().with_figure("chainstays.right.front.half_spacing_mm", 52.0),
        start().with_figure("frame.axle_spacing_mm", 200.0),
        start().with_figure("fixture.slide_max_mm", 381.0),
        start().with_figure("chainstays.right.front_trim_mm", 900.0),
        start().with_figure("chainstays.right.front.end.cutter_mm", 20.0),
    ];
    let nose = wide_nose();
    let mut short = demo_shop();
    short.hole_saws.iter_mut().for_each(|saw| {
        saw.arbor.reach = Length::from_mm(5.0);
        saw.size.depth = Length::from_mm(1.0);
    });
    short.mill.axes.iter_mut().for_each(|axis| axis.travel = Length::from_mm(10.0));
    let none = Shop { hole_saws: Vec::new(), slitting_saws: Vec::new(), ..demo_shop() };
    let shops = [demo_shop(), nose, short, none];
    jobs.into_iter().flat_map(|job| shops.clone().map(|shop| (job.clone(), shop))).collect()
}

#[test]
fn every_finding_is_said_in_the_unit_and_the_english_of_the_reader() {
    let mut said = 0;
    for (job, shop) in bad() {
        for metal in Metal::ALL {
            let shop = Shop { metal, ..shop.clone() };
            for found in all(&job, &shop) {
                for style in Style::ALL {
                    super::sentences::check_style(&finding(&found, style), style);
                    said += 1;
                }
            }
        }
    }
    assert!(said > 1000);
    let mixed = std::panic::catch_unwind(|| {
        super::sentences::check_style("3 mm is missing", Style { unit: LengthUnit::Inch, ..Style::FILE })
    });
    assert!(mixed.is_err());
}
