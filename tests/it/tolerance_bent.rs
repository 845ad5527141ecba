//! Errors of bent stays: the bench against the solver, by hand, and against small steps; what readings on them say.

use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::{Config, TestRunner};
use serde_json::Value;
use staywright::files::check_json;
use staywright::model::{Bend, Bends, Boss, End, Hand, Job, PairName};
use staywright::placement::plan;
use staywright::plan::{Plan, RoundCut};
use staywright::text::{self, Style};
use staywright::tolerance::{Finished, Measurand, Model, Place, Reading, RearEnd, SettingKind, What};
use staywright::units::{Angle, Length};

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

fn bend((before, rotation, angle, radius): (f64, f64, f64, f64)) -> Bend {
    let (rotation, angle) = (Angle::from_degrees(rotation), Angle::from_degrees(angle));
    Bend { before: mm(before), rotation, angle, radius: mm(radius) }
}

/// The starting job with bent, level chainstays; `roll` 0 keeps bends of rotation 0 or 180 in the stay plane.
fn bent(table: &[(f64, f64, f64, f64)], roll: f64) -> Job {
    let mut job = Job::default();
    let tube = &mut job.chainstays.right.tube;
    tube.bends = Bends::of(table.iter().copied().map(bend));
    tube.bends.roll = Some(Angle::from_degrees(roll));
    (tube.od_rear, tube.length) = (tube.od_front, mm(600.0));
    job
}

const FLAT: [(f64, f64, f64, f64); 2] = [(90.0, 0.0, 8.0, 180.0), (60.0, 180.0, 11.0, 200.0)];
const SKEW: [(f64, f64, f64, f64); 2] = [(90.0, 12.0, 8.0, 180.0), (60.0, 150.0, 11.0, 200.0)];

fn round(plan: &Plan, pair: PairName, hand: Hand, at_front: bool) -> Option<&RoundCut> {
    let stay = plan.pair(pair).stay(hand);
    if at_front { stay.front.round() } else { stay.rear.round() }
}

/// What a figure that the builder sets is on a plan; `None` for what the plan does not say.
fn told(plan: &Plan, place: &Place) -> Option<f64> {
    let (pair, hand) = (place.pair.unwrap_or(PairName::Chainstays), place.hand.unwrap_or(Hand::Right));
    let stay = plan.pair(pair).stay(hand);
    let side = plan.job.pair(pair).side(hand);
    let cut = place.at_front.and_then(|at_front| round(plan, pair, hand, at_front));
    let post = |last: bool| {
        let posts = &plan.pair(pair).posts;
        let post = if last { posts.last() } else { posts.first() };
        let held = post.and_then(|post| if hand == Hand::Right { post.right } else { post.left });
        let spacing = if last { side.rear.half_spacing } else { side.front.half_spacing };
        held.unwrap_or(spacing).mm()
    };
    match place.kind {
        SettingKind::Slide => Some(stay.slide.mm()),
        SettingKind::AxleHeight => Some(stay.axle_height.mm()),
        SettingKind::FrontPost => Some(post(false)),
        SettingKind::RearPost => Some(post(true)),
        SettingKind::Spacer => Some(side.rear.half_spacing.mm()),
        SettingKind::Along => Some(cut?.setting.dro_along.mm()),
        SettingKind::Across => Some(cut?.setting.dro_across.mm()),
        SettingKind::Tilt if !cut?.setting.on_side => Some(cut?.setting.tilt.degrees()),
        SettingKind::FrontTrim => stay.bent.as_ref().map(|bent| bent.trim.mm()),
        SettingKind::Roll => stay.bent.as_ref().map(|bent| bent.roll.degrees()),
        SettingKind::Bend(number) => {
            Some(side.tube.bends.list.iter().nth(usize::from(number) - 1)?.angle.degrees())
        }
        SettingKind::Placing => put(plan, pair, hand),
        _ => None,
    }
}

/// Where along the seat tube a stay lies nearest to it.
fn put(plan: &Plan, pair: PairName, hand: Hand) -> Option<f64> {
    let stay = plan.pair(pair).stay(hand);
    let cut = stay.front.round()?;
    if cut.axis_direction.y.abs() > 0.5 {
        return None;
    }
    let along = (stay.rear_point - stay.front_point).normalize();
    let nearest = stay.front_point + along * cut.axis_station?.mm();
    Some((nearest - plan.seat_tube_foot).dot(&plan.seat_tube_direction))
}

/// A bench told to make one rear end, but set as the plan of another says.
fn set_for_another(told_job: &Job, made: &Job) -> (RearEnd, Vec<f64>) {
    let (one, other) = (plan(told_job).unwrap(), plan(made).unwrap());
    let rear = RearEnd::new(&one);
    let error = |place: &Place| Some(told(&other, place)? - told(&one, place)?);
    let errors = rear.settings.iter().map(|setting| error(&setting.place).unwrap_or(0.0)).collect();
    (rear, errors)
}

/// What each result of the frame must be; the gaps must be closed.
fn makes(rear: &RearEnd, errors: &[f64], wanted: &[(&str, f64)], within: f64) {
    let results = rear.results(errors);
    for (outcome, result) in rear.outcomes.iter().zip(results) {
        let tyre = outcome.id().ends_with("tyre");
        let known = wanted.iter().find(|(id, _)| *id == outcome.id()).map_or(0.0, |(_, known)| *known);
        let found = result.unwrap();
        assert!(tyre || (found - known).abs() < within, "{}: {found}, wanted {known}", outcome.id());
    }
}

#[test]
fn set_as_told_nothing_strays() {
    for (table, roll, posts) in [(FLAT, 0.0, true), (SKEW, 130.0, true), (SKEW, -40.0, false)] {
        let mut job = bent(&table, roll);
        job.chainstays.right.rear_end = End::Boss(Boss::default());
        if !posts {
            job.fixture.posts.clear();
        }
        let rear = RearEnd::new(&plan(&job).unwrap());
        makes(&rear, &vec![0.0; rear.settings.len()], &[], 1e-9);
    }
}

/// A bend so near the front end that the reference point lies on it or before it, so that another straight is cut there; the second
/// bend may do the same at the rear end.
fn cut_behind_a_bend() -> impl Strategy<Value = Job> {
    let first = (0.0..60.0, 0.0..360.0, 1.0..12.0, 120.0..260.0);
    let second = (20.0..380.0, 0.0..360.0, 1.0..12.0, 120.0..260.0);
    (first, second, -180.0..180.0, 0.0..30.0, any::<bool>()).prop_map(|(first, second, roll, trim, boss)| {
        let mut job = bent(&[first, second], roll);
        job.chainstays.right.tube.front_trim = mm(trim);
        if boss {
            job.chainstays.right.rear_end = End::Boss(Boss::default());
        }
        job
    })
}

/// How far back along its tangent the front end's straight passes the reference point by.
fn front_passes_by(plan: &Plan) -> f64 {
    let stay = plan.pair(PairName::Chainstays).stay(Hand::Right);
    let bent = stay.bent.as_ref().unwrap();
    bent.line.tangent(0.0).direction.cross(&bent.front_direction).norm()
}

#[test]
fn set_as_told_nothing_strays_where_another_straight_is_cut() {
    let (mut run, mut elsewhere) = (TestRunner::new(Config::with_cases(200)), 0);
    run.run(&cut_behind_a_bend(), |job| {
        let Ok(plan) = plan(&job) else { return Ok(()) };
        let rear = RearEnd::new(&plan);
        let results = rear.results(&vec![0.0; rear.settings.len()]);
        for (outcome, result) in rear.outcomes.iter().zip(results) {
            let off: f64 = result.filter(|_| !matches!(outcome.what, What::Tyre(..))).unwrap_or(0.0);
            prop_assert!(off.abs() < 1e-7, "{}: {off}", outcome.id());
        }
        Ok(())
    })
    .unwrap();
    let mut runner = TestRunner::deterministic();
    for _ in 0..100 {
        let job = cut_behind_a_bend().new_tree(&mut runner).unwrap().current();
        elsewhere += usize::from(plan(&job).is_ok_and(|plan| front_passes_by(&plan) > 0.01));
    }
    assert!(elsewhere > 10, "{elsewhere}");
}

#[test]
fn set_as_told_nothing_strays_where_the_placing_is_found() {
    let text = r#"{"format":1,"chainstays":{"right":{"tube":{"length_mm":460,"bends":[{"before_mm":5,"angle_deg":8}],"find":"both"}}}}"#;
    let plan = plan(&Job::from_json(text).unwrap()).unwrap();
    assert!(front_passes_by(&plan) > 0.05, "{}", front_passes_by(&plan));
    let rear = RearEnd::new(&plan);
    makes(&rear, &vec![0.0; rear.settings.len()], &[], 1e-7);
}

/// The solver as witness: another tube, bent otherwise and laid as the plan of that tube says, makes the same frame. Where no post
/// holds it, the reference points do, as in the plan.
#[test]
fn a_bench_set_for_another_tube_makes_the_same_frame() {
    for boss in [false, true] {
        let mut job = bent(&SKEW, 130.0);
        job.fixture.posts.clear();
        if boss {
            job.chainstays.right.rear_end = End::Boss(Boss::default());
        }
        let mut made = job.clone();
        let tube = &mut made.chainstays.right.tube;
        tube.bends = Bends::of([(90.0, 12.0, 9.1, 180.0), (60.0, 150.0, 10.2, 200.0)].map(bend));
        tube.bends.roll = Some(Angle::from_degrees(133.0));
        tube.front_trim = tube.front_trim + mm(1.4);
        let (rear, errors) = set_for_another(&job, &made);
        assert!(errors.iter().filter(|error| error.abs() > 0.1).count() >= 8);
        makes(&rear, &errors, &[], 1e-8);
        // Every one of these counts: without it the frame comes out otherwise.
        for (i, setting) in rear.settings.iter().enumerate() {
            let of_bent = setting.place.pair == Some(PairName::Chainstays);
            if of_bent
                && matches!(
                    setting.place.kind,
                    SettingKind::Bend(_) | SettingKind::Roll | SettingKind::FrontTrim
                )
            {
                let mut without = errors.clone();
                without[i] = 0.0;
                let moved = rear
                    .results(&errors)
                    .iter()
                    .zip(rear.results(&without))
                    .any(|(a, b)| (a.unwrap() - b.unwrap()).abs() > 1e-3);
                assert!(moved, "{}", setting.id());
            }
        }
    }
}

/// The same tube held at its posts for another frame: in the stay plane, where the posts' height says nothing.
#[test]
fn a_bench_set_for_another_frame_makes_that_frame() {
    let told = bent(&FLAT, 0.0);
    let mut made = told.clone();
    made.frame.chainstay_length = told.frame.chainstay_length + mm(1.7);
    made.frame.bb_drop = told.frame.bb_drop - mm(2.3);
    let (rear, errors) = set_for_another(&told, &made);
    makes(&rear, &errors, &[("length", 1.7), ("drop", -2.3)], 1e-8);
    // Out of the plane, where the stays stay what they are.
    let told = bent(&SKEW, 130.0);
    let mut made = told.clone();
    made.frame.chainstay_length = told.frame.chainstay_length + mm(1.7);
    made.chainstays.right.rear.reach = told.chainstays.right.rear.reach + mm(1.7);
    let (rear, errors) = set_for_another(&told, &made);
    makes(&rear, &errors, &[("length", 1.7)], 1e-8);
}

/// By hand: a tube bent once in the stay plane between its posts, whose bend is off by δ. Its front end then turns in the first post
/// by δ times what of the way between the posts lies behind the bend; its foot moves by that turn times the post's station, and
/// put back at its place on the shell the stay takes its dropout along, the axle halfway.
#[test]
fn a_bend_that_springs_back_moves_the_foot() {
    let mut job = bent(&[(180.0, 0.0, 6.0, 60.0)], 0.0);
    job.fixture.posts = vec![mm(60.0), mm(330.0)];
    let planned = plan(&job).unwrap();
    let rear = RearEnd::new(&planned);
    let off = |id: &str, by: f64| {
        let error = |setting: &staywright::tolerance::Setting| if setting.id() == id { by } else { 0.0 };
        let errors: Vec<f64> = rear.settings.iter().map(error).collect();
        assert!(errors.iter().any(|error| *error != 0.0), "{id}");
        rear.results(&errors)[0].unwrap()
    };
    let apex = planned.pairs.chainstays.right.bent.as_ref().unwrap().bends[0].along.mm();
    let turn = 0.2_f64.to_radians() * (330.0 - apex) / (330.0 - 60.0);
    let moved = off("chainstays.right.bend-1", 0.2);
    assert!((moved.abs() - 60.0 * turn / 2.0).abs() < 0.02 * moved.abs(), "{moved} {turn}");
    assert!((off("chainstays.left.bend-1", 0.2) + moved).abs() < 1e-9);
    // A tube rolled by 180° bends the other way.
    let mut other = job.clone();
    other.chainstays.right.tube.bends.roll = Some(Angle::from_degrees(180.0));
    let rear_other = RearEnd::new(&plan(&other).unwrap());
    let errors: Vec<f64> = rear_other
        .settings
        .iter()
        .map(|setting| if setting.id() == "chainstays.right.bend-1" { 0.2 } else { 0.0 })
        .collect();
    assert!(rear_other.results(&errors)[0].unwrap() * moved < 0.0);
}

/// By hand: across the fixture, beside the tyre's widest place, the tube's inner side less half of the tyre.
#[test]
fn the_tyre_passes_between_bent_stays() {
    let job = bent(&FLAT, 0.0);
    let planned = plan(&job).unwrap();
    let rear = RearEnd::new(&planned);
    let results = rear.results(&vec![0.0; rear.settings.len()]);
    for hand in Hand::ALL {
        let stay = planned.pairs.chainstays.stay(hand);
        let bent = stay.bent.as_ref().unwrap();
        let (bead, height) = (job.wheel.bead_seat.mm(), job.wheel.tyre_height.mm());
        let along = job.frame.chainstay_length.mm() - 0.5 * (bead + height);
        let near = |s: &f64| (stay.clamp.local(&bent.line.at(*s).point).x - along).abs();
        let s = (0..40_000).map(|i| f64::from(i) * 0.01).min_by(|a, b| near(a).total_cmp(&near(b))).unwrap();
        let here = bent.line.at(s);
        let (point, way) = (stay.clamp.local(&here.point), stay.clamp.local_direction(&here.tangent));
        let side = point.y * hand.sign() - 0.5 * job.chainstays.right.tube.od_front.mm() / way.x;
        let wanted = side - 0.5 * job.wheel.tyre_width.mm();
        let id = format!("chainstays.{}.tyre", hand.key());
        let place = rear.outcomes.iter().position(|outcome| outcome.id() == id).unwrap();
        assert!((results[place].unwrap() - wanted).abs() < 5e-3, "{:?} {wanted}", results[place]);
    }
}

/// Central differences of fourth order (Abramowitz and Stegun 25.3.6) for every setting and result without a corner.
#[test]
fn slopes_are_those_of_small_steps() {
    for (table, roll) in [(FLAT, 0.0), (SKEW, 130.0)] {
        let rear = RearEnd::new(&plan(&bent(&table, roll)).unwrap());
        let linear = rear.slopes();
        // A saw of true size has a corner there.
        let smooth =
            |i: &usize| !matches!(rear.settings[*i].place.kind, SettingKind::Cutter | SettingKind::Member);
        for i in (0..rear.settings.len()).filter(smooth) {
            let at = |steps: f64| {
                let mut errors = vec![0.0; rear.settings.len()];
                errors[i] = steps * 1e-3;
                rear.results(&errors)
            };
            let [a, b, c, d] = [-2.0, -1.0, 1.0, 2.0].map(at);
            for (k, outcome) in
                rear.outcomes.iter().enumerate().filter(|(_, one)| !matches!(one.what, What::Gap(_)))
            {
                let [a, b, c, d] = [&a, &b, &c, &d].map(|results| results[k].unwrap());
                let slope = (a - 8.0 * b + 8.0 * c - d) / 12e-3;
                let found = linear[k].as_ref().unwrap().slopes[i];
                let smooth = (found - slope).abs() < 1e-5 * (1.0 + slope.abs());
                assert!(smooth, "{} by {}: {found} {slope}", outcome.id(), rear.settings[i].id());
            }
        }
    }
}

#[test]
fn what_a_bent_stay_has_more_can_be_off() {
    let rear = RearEnd::new(&plan(&bent(&SKEW, 130.0)).unwrap());
    let ids: Vec<String> = rear.settings.iter().map(|setting| setting.id()).collect();
    for id in ["front-trim", "roll", "bend-1", "bend-2"] {
        for hand in ["right", "left"] {
            let id = format!("chainstays.{hand}.{id}");
            assert!(ids.contains(&id), "{id}");
            let place = Place::from_id(&id).unwrap();
            assert_eq!(place.id(), id);
            // The seat stays are straight, but taper.
            assert_eq!(ids.contains(&id.replace("chain", "seat")), id.ends_with("trim"));
        }
    }
    assert!(!ids.iter().any(|id| id.ends_with("bend-3")));
    for setting in &rear.settings {
        let source = text::bench::starting_spread(setting.place.kind, Style::FILE);
        assert!(source.contains("measure yours"), "{} {source}", setting.id());
    }
}

/// Stays that were made for another frame are read as what they are, and found to make that frame.
#[test]
fn readings_on_bent_stays_say_which_frame_they_make() {
    let told = bent(&SKEW, 130.0);
    let mut made = told.clone();
    made.chainstays.right.rear.half_spacing = told.chainstays.right.rear.half_spacing + mm(0.3);
    let stays = Finished::new(&plan(&told).unwrap());
    let read = Finished::new(&plan(&made).unwrap());
    assert!(
        stays
            .measurements
            .iter()
            .all(|one| one.measurand != Measurand::TipToTip(PairName::Chainstays, Hand::Right))
    );
    let readings: Vec<Reading> = read
        .measurements
        .iter()
        .map(|figure| Reading {
            measurand: figure.measurand,
            value: figure.nominal,
            standard: figure.standard,
        })
        .collect();
    let found = stays.estimate(&readings).unwrap();
    let result = |id: &str| {
        let place = stays.rear.outcomes.iter().position(|outcome| outcome.id() == id).unwrap();
        found.results[place].known.unwrap().value
    };
    assert!((result("spacing") - 0.6).abs() < 0.02, "{}", result("spacing"));
    assert!(result("off-centre").abs() < 1e-6 && result("square").abs() < 1e-6);
}

#[test]
fn a_question_about_bent_stays_is_answered() {
    let job = bent(&SKEW, 130.0).to_json();
    let question = format!(r#"{{"job": {job}, "runs": 50, "spreads": {{"chainstays.left.bend-2": 1.5}}}}"#);
    let answer: Value = serde_json::from_str(&check_json(&question)).unwrap();
    assert!(answer.get("errors").is_none(), "{answer}");
    let settings = answer["settings"].as_array().unwrap();
    let spread = settings.iter().find(|one| one["id"] == "chainstays.left.bend-2").unwrap();
    assert_eq!((spread["half_width"].as_f64(), spread["unit"].as_str()), (Some(1.5), Some("°")));
    let shares = answer["results"][0]["shares"].as_array().unwrap();
    assert!(shares.iter().any(|share| share["setting"] == "chainstays.left.bend-2"));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]
    /// Whatever is bent: figures or none, and nothing infinite.
    #[test]
    fn any_bent_job_has_its_results_or_none(
        table in proptest::collection::vec((0.0..120.0, -360.0..360.0, 0.0..100.0, 12.0..300.0), 1..=8),
        roll in -360.0..360.0,
        posts in proptest::collection::vec(-100.0..500.0, 0..4),
    ) {
        let mut job = bent(&table, roll);
        job.chainstays.right.tube.length = mm(1200.0);
        job.fixture.posts = posts.into_iter().map(mm).collect();
        let Ok(plan) = plan(&job) else { return Ok(()) };
        let rear = RearEnd::new(&plan);
        for carried in rear.carried() {
            if let Some(budget) = carried.budget {
                prop_assert!([budget.value, budget.standard, budget.worst].iter().all(|x| x.is_finite()));
            }
        }
        for drawn in rear.sampled(5, 1) {
            prop_assert!(drawn.sorted.iter().all(|figure| figure.is_finite()));
        }
        let _ = Finished::new(&plan).results(&vec![0.01; Finished::new(&plan).unknowns.len()]);
    }
}
