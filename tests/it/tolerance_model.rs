//! Where the axle stands for settings that are off, against the solver, closed forms and small steps.

use crate::support;

use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};
use staywright::model::{Cope, End, Hand, Job, Member, PairName, starters};
use staywright::placement::{plan, solve};
use staywright::plan::{Plan, RoundCut};
use staywright::text::{self, Style};
use staywright::tolerance::{Distribution, Limit, Model, Place, RearEnd, SettingKind, sensitivities};
use staywright::units::Length;

fn rear_end(job: &Job) -> RearEnd {
    RearEnd::new(&plan(job).unwrap())
}

/// The result of that name for settings that are off by so much.
fn off(rear: &RearEnd, errors: &[(&str, f64)], outcome: &str) -> Option<f64> {
    let known: Vec<String> = rear.settings.iter().map(|setting| setting.id()).collect();
    for (id, _) in errors {
        assert!(known.iter().any(|known| known == id), "{id} is not one of {known:?}");
    }
    let error = |id: &String| errors.iter().find(|(own, _)| own == id).map_or(0.0, |(_, error)| *error);
    let errors: Vec<f64> = known.iter().map(error).collect();
    let at = rear.outcomes.iter().position(|known| known.id() == outcome).unwrap();
    rear.results(&errors)[at]
}

fn near(found: Option<f64>, wanted: f64, within: f64, what: &str) {
    let found = found.unwrap_or(f64::NAN);
    assert!((found - wanted).abs() <= within, "{what}: {found}, wanted {wanted}");
}

fn round(plan: &Plan, pair: PairName, hand: Hand, at_front: bool) -> Option<&RoundCut> {
    let stay = plan.pair(pair).stay(hand);
    if at_front { stay.front.round() } else { stay.rear.round() }
}

/// The solver as witness: a bench told to make one rear end, but set as the plan of another says, makes the other. What
/// the settings are off by is the difference of the two plans; where the axle stands must be that of the other frame.
fn set_for_another(told: &Job, made: &Job) -> (RearEnd, Vec<f64>) {
    let (told, made) = (plan(told).unwrap(), plan(made).unwrap());
    let rear = RearEnd::new(&told);
    let error = |setting: &staywright::tolerance::Setting| {
        let place = setting.place;
        let (pair, hand) = (place.pair.unwrap_or(PairName::Chainstays), place.hand.unwrap_or(Hand::Right));
        let [a, b] = [&told, &made].map(|plan| {
            let at = |pair: PairName| plan.pair(pair).stay(hand);
            let cut = place.at_front.and_then(|at_front| round(plan, pair, hand, at_front));
            let post = |last: bool| {
                let posts = &plan.pair(pair).posts;
                let post = if last { posts.last() } else { posts.first() }.unwrap();
                if hand == Hand::Right { post.right } else { post.left }.unwrap().mm()
            };
            match place.kind {
                SettingKind::Slide => at(pair).slide.mm(),
                SettingKind::AxleHeight => at(pair).axle_height.mm(),
                SettingKind::FrontPost => post(false),
                SettingKind::RearPost => post(true),
                SettingKind::Spacer => plan.job.pair(pair).side(hand).rear.half_spacing.mm(),
                SettingKind::Along => cut.unwrap().setting.dro_along.mm(),
                SettingKind::Across => cut.unwrap().setting.dro_across.mm(),
                SettingKind::Placing => put(plan, pair, hand),
                SettingKind::Tilt if !cut.unwrap().setting.on_side => cut.unwrap().setting.tilt.degrees(),
                _ => 0.0,
            }
        });
        b - a
    };
    let errors = rear.settings.iter().map(error).collect();
    (rear, errors)
}

/// Where along the seat tube a stay lies nearest to it; 0 for a stay that is put across the shell.
fn put(plan: &Plan, pair: PairName, hand: Hand) -> f64 {
    let stay = plan.pair(pair).stay(hand);
    let cut = stay.front.round().unwrap();
    if cut.axis_direction.y.abs() > 0.5 {
        return 0.0;
    }
    let along = (stay.rear_point - stay.front_point).normalize();
    let nearest = stay.front_point + along * cut.axis_station.unwrap().mm();
    (nearest - plan.seat_tube_foot).dot(&plan.seat_tube_direction)
}

#[test]
fn a_bench_set_for_another_frame_makes_that_frame() {
    for starter in starters() {
        let told = starter.job;
        let mut made = told.clone();
        made.frame.chainstay_length = told.frame.chainstay_length + Length::from_mm(1.7);
        made.frame.bb_drop = told.frame.bb_drop - Length::from_mm(2.3);
        // Stays that lie higher by as much at both ends are cut lower: the axle height and the table across change.
        made.chainstays.right.front.rise = Length::from_mm(1.2);
        made.chainstays.right.rear.rise = Length::from_mm(1.2);
        if let Some(left) = &mut made.chainstays.left {
            (left.front.rise, left.rear.rise) = (Length::from_mm(1.2), Length::from_mm(1.2));
        }
        let (rear, errors) = set_for_another(&told, &made);
        let results = rear.results(&errors);
        let saw_is_larger = starter.key == "fixed";
        let nominal = rear.results(&vec![0.0; errors.len()]);
        let by = |id: &str| {
            let at = rear.outcomes.iter().position(|outcome| outcome.id() == id).unwrap();
            results[at].unwrap() - nominal[at].unwrap()
        };
        // A saw that is not the shell's size pushes along a splay that has changed a little.
        let within = if saw_is_larger { 5e-3 } else { 1e-9 };
        for (id, wanted) in [("length", 1.7), ("drop", -2.3), ("spacing", 0.0), ("off-centre", 0.0)] {
            assert!((by(id) - wanted).abs() < within, "{}: {id} {}", starter.key, by(id));
        }
        for id in ["square", "lean", "difference"] {
            assert!(by(id).abs() < 1e-8, "{}: {id} {}", starter.key, by(id));
        }
        let gaps = rear.outcomes.iter().zip(&results).filter(|(outcome, _)| outcome.id().ends_with("gap"));
        for (outcome, gap) in gaps.filter(|_| !saw_is_larger) {
            assert!(gap.unwrap().abs() < 1e-9, "{}: {} {gap:?}", starter.key, outcome.id());
        }
    }
}

/// The same with one side only: the axle stands off by half of what one dropout is off.
#[test]
fn one_dropout_further_out_takes_the_axle_halfway() {
    let rear = rear_end(&starters()[0].job);
    near(off(&rear, &[("right.spacer", 0.8)], "off-centre"), 0.4, 1e-12, "off centre");
    near(off(&rear, &[("right.spacer", 0.8)], "spacing"), 0.8, 1e-12, "spacing");
    near(off(&rear, &[("left.spacer", 0.8)], "off-centre"), -0.4, 1e-12, "off centre");
}

/// By hand: a fixture turned by κ to the spindle cuts both copes along a line turned by κ, so that on a true shell the
/// rear end as a whole stands turned by κ: the rim, of diameter 622, by 622·tan κ, the axle by about the chainstay
/// length times κ, and the copes still fit.
#[test]
fn a_turned_fixture_turns_the_whole_rear_end() {
    let rear = rear_end(&starters()[0].job);
    let turned = [("chainstays.front.turn", 0.1)];
    let angle = 0.1_f64.to_radians();
    near(off(&rear, &turned, "square"), -622.0 * angle, 1e-3, "rim");
    // Both stays are put at their told places on the shell, which shifts the pair by what the splay makes of κ·20.5.
    let splay = (73.0 - 20.5) / (415.0 - 32.0);
    near(off(&rear, &turned, "off-centre"), angle * (415.0 - 20.5 * splay), 1e-3, "axle");
    near(off(&rear, &turned, "spacing"), 0.0, 1e-3, "spacing");
    near(off(&rear, &turned, "chainstays.right.front.gap"), 0.0, 1e-4, "gap");
    near(off(&rear, &turned, "length"), 0.0, 1e-3, "length");
}

/// By hand: what both stays share moves the axle along, never sideways.
#[test]
fn what_one_pass_cuts_cannot_come_out_crooked() {
    let rear = rear_end(&starters()[0].job);
    let shared = [
        ("chainstays.slide", 0.7),
        ("chainstays.front.along", 0.2),
        ("datum", 0.1),
        ("seatstays.slide", -0.4),
    ];
    for id in ["off-centre", "square", "lean", "difference"] {
        near(off(&rear, &shared, id), 0.0, 1e-9, id);
    }
    // Cut 0.3 further back, each stay is 0.3 · tan(splay) further out at its foot, and so much further in at the axle.
    let splay = (73.0 - 20.5) / (415.0 - 32.0);
    let out = 0.3 * splay;
    near(off(&rear, &shared, "spacing"), -2.0 * out, 1e-9, "spacing");
    // The axle draws them out again by that, which costs a little of their length.
    let drawn = out * (73.0 - 20.5) / 415.0;
    near(off(&rear, &shared, "length"), 0.7 - 0.2 - 0.1 - drawn, 1e-4, "length");
    // An edge finder's tip that is larger than told, touched from the front, leaves the spindle half of that short.
    near(off(&rear, &[("edge-finder", 0.04)], "length"), 0.02, 1e-3, "tip");
    // Bench and saw agree: the block's width and the place across do not reach the length.
    near(off(&rear, &[("block-width", 0.3)], "length"), 0.0, 1e-9, "block");
}

/// By hand, from what each figure measures: a base face that lies 0.2 further below the stays than told puts the cutter
/// 0.2 lower in them, as a table move does; the block is touched at half of its width; and along the tilted table, which
/// runs square to the spindle, an edge that lies higher by 0.2 is off by 0.2 times that direction's height.
#[test]
fn one_error_has_the_effect_of_another_that_comes_to_the_same() {
    let mut job = starters()[0].job.clone();
    // Higher over the shell than at the axle, so that a height shows.
    job.chainstays.right.front.rise = Length::from_mm(5.0);
    let planned = plan(&job).unwrap();
    let rear = RearEnd::new(&planned);
    let same = |one: (&str, f64), other: (&str, f64)| {
        let mut moved: f64 = 0.0;
        for outcome in &rear.outcomes {
            let (a, b) = (off(&rear, &[one], &outcome.id()), off(&rear, &[other], &outcome.id()));
            near(a, b.unwrap(), 1e-9, &outcome.id());
            moved = moved.max((a.unwrap() - off(&rear, &[], &outcome.id()).unwrap()).abs());
        }
        assert!(moved > 1e-3, "{one:?} moves nothing");
    };
    same(("clamp-height", 0.2), ("chainstays.front.across", -0.2));
    same(("block-width", 0.2), ("seatstays.front.across", -0.1));
    let stay = &planned.pairs.seatstays.right;
    let spindle = stay.clamp.local_direction(&stay.front.round().unwrap().axis_direction);
    // Square to the spindle, pointing rearwards.
    let across = -spindle.x * spindle.z.signum();
    same(("datum-height", 0.2), ("seatstays.front.along", 0.2 * across / spindle.xz().norm()));
    let same_way = off(&rear, &[("datum", 0.2)], "length").unwrap() - off(&rear, &[], "length").unwrap();
    near(Some(same_way), off(&rear, &[("chainstays.front.along", 0.2)], "length").unwrap(), 1e-9, "datum");
}

/// By hand: a post set out by e at the rear post swings the tube about the front post. The cope then holds the stay that
/// much inwards on the frame, and the axle follows by half.
#[test]
fn one_post_off_swings_one_stay() {
    let job = &starters()[0].job;
    let rear = rear_end(job);
    let swing = 0.3 / (310.0 - 60.0);
    // The tube's foot on the shell moved by −60·swing; put back to its told place, all of the stay follows.
    near(off(&rear, &[("chainstays.right.rear-post", 0.3)], "off-centre"), 60.0 * swing / 2.0, 1e-9, "axle");
    near(off(&rear, &[("chainstays.right.rear-post", 0.3)], "square"), 0.0, 1e-4, "square");
    // Calipers over a tube stouter by 0.2 at both posts set it 0.1 inwards; its dropout then stands 0.1 out.
    let plain = {
        let mut job = job.clone();
        job.chainstays.right.tube.od_rear = job.chainstays.right.tube.od_front;
        rear_end(&job)
    };
    near(off(&plain, &[("chainstays.right.front-diameter", 0.2)], "off-centre"), 0.05, 1e-9, "stouter");
}

/// By hand: seat stays shorter on the right than on the left lean the wheel; both shorter by the same raise the axle.
#[test]
fn the_seat_stays_set_lean_and_drop() {
    let job = &starters()[0].job;
    let rear = rear_end(job);
    near(off(&rear, &[("seatstays.right.placing", 0.5)], "off-centre"), 0.0, 1e-12, "off centre");
    let lean = off(&rear, &[("seatstays.right.placing", 0.5)], "lean").unwrap();
    assert!(lean < 0.0, "a right stay put higher lifts the right end, and the wheel's top goes left: {lean}");
    near(off(&rear, &[("seatstays.left.placing", 0.5)], "lean"), -lean, 1e-9, "mirrored");
    let drop = off(&rear, &[("seatstays.slide", 1.0)], "drop").unwrap();
    assert!(drop < -1.0, "longer seat stays push the axle down: {drop}");
}

/// The closed form of a cope's seat, which holds for cylinders, against the solver's search over the edge.
#[test]
fn a_saw_of_another_size_seats_as_the_solver_says() {
    for (cutter, offset) in [(41.0, 0.0), (42.5, 3.0), (38.6, 0.0), (38.6, 2.5), (40.0, -4.0)] {
        let mut job = starters()[0].job.clone();
        let stay = &mut job.chainstays.right;
        stay.front_end = End::Cope(Cope { onto: Member::Shell, cutter: Some(Length::from_mm(cutter)) });
        stay.tube.od_rear = stay.tube.od_front;
        stay.front.rise = Length::from_mm(offset);
        stay.rear.rise = Length::from_mm(offset);
        let planned = plan(&job).unwrap();
        let cut = planned.pairs.chainstays.right.front.round().unwrap();
        let rear = RearEnd::new(&planned);
        let gap = off(&rear, &[], "chainstays.right.front.gap");
        // A stay that goes further home stands nearer to the centre line; the axle then rocks it in its cope.
        let rocked = |errors: &[(&str, f64)]| {
            off(&rear, errors, "spacing").unwrap().abs() / 2.0 / 415.0
                * job.chainstays.right.tube.od_front.mm()
        };
        near(gap, cut.gap.unwrap().mm() + rocked(&[]), 2e-4, "gap");
        // A saw set larger by an error is a larger saw.
        let mut larger = job.clone();
        let cope = Cope { onto: Member::Shell, cutter: Some(Length::from_mm(cutter + 0.4)) };
        larger.chainstays.right.front_end = End::Cope(cope);
        let wanted = plan(&larger).unwrap().pairs.chainstays.right.front.round().unwrap().gap.unwrap().mm();
        let saw = [("chainstays.front.cutter", 0.4)];
        near(off(&rear, &saw, "chainstays.right.front.gap"), wanted + rocked(&saw), 2e-4, "larger");
    }
}

/// Central differences of fourth order (Abramowitz and Stegun 25.3.6) for every setting and result. At a corner, a gap
/// that opens either way, the slope is that towards larger errors.
#[test]
fn slopes_are_those_of_small_steps() {
    for starter in starters() {
        let rear = rear_end(&starter.job);
        let inputs = rear.inputs();
        let linear = rear.slopes();
        for (i, setting) in rear.settings.iter().enumerate() {
            let h = 1e-3;
            let at = |steps: f64| {
                let mut errors = vec![0.0; inputs.len()];
                errors[i] = steps * h;
                rear.results(&errors)
            };
            let [a, b, now, c, d] = [-2.0, -1.0, 0.0, 1.0, 2.0].map(at);
            for (k, outcome) in rear.outcomes.iter().enumerate() {
                let [a, b, now, c, d] = [&a, &b, &now, &c, &d].map(|results| results[k].unwrap());
                let slope = (a - 8.0 * b + 8.0 * c - d) / (12.0 * h);
                let forwards = (-1.5 * now + 2.0 * c - 0.5 * d) / h;
                let backwards = (1.5 * now - 2.0 * b + 0.5 * a) / h;
                let found = linear[k].as_ref().unwrap().slopes[i];
                let smooth = (found - slope).abs() < 1e-6 * (1.0 + slope.abs());
                // |x| at 0 has slope ±1 on its sides; a budget takes its size.
                let size = |side: f64| (found.abs() - side.abs()).abs() < 1e-3 * (1e-3 + side.abs());
                let bends = (forwards - backwards).abs() > 0.1 * found.abs();
                let corner = bends && (size(forwards) || size(backwards));
                assert!(
                    smooth || corner,
                    "{}: {} by {}: {found} {slope} {forwards}",
                    starter.key,
                    outcome.id(),
                    setting.id()
                );
            }
        }
    }
}

/// Where errors are small the drawn spread is the root of squares, for every result without a corner.
#[test]
fn small_errors_drawn_spread_as_their_squares_add() {
    let mut rear = rear_end(&starters()[1].job);
    for setting in &mut rear.settings {
        let standard = 0.1 * setting.spread.standard();
        // The saw's size has a corner at true size.
        let exact = matches!(setting.place.kind, SettingKind::Cutter | SettingKind::Member);
        setting.spread = if exact { Distribution::Exact } else { Distribution::Normal { standard } };
    }
    let carried = rear.carried();
    for ((outcome, carried), drawn) in rear.outcomes.iter().zip(carried).zip(rear.sampled(20_000, 5)) {
        let budget = carried.budget.unwrap();
        if outcome.id().ends_with("gap") {
            continue;
        }
        let ratio = drawn.standard().unwrap() / budget.standard;
        assert!((ratio - 1.0).abs() < 0.03, "{}: {ratio}", outcome.id());
        assert!(budget.worst >= budget.standard);
    }
}

/// Held to what the page says, each setting alone brings the result to its limit.
#[test]
fn a_setting_at_its_own_limit_uses_up_the_whole_limit() {
    let rear = rear_end(&starters()[0].job);
    let at = rear.outcomes.iter().position(|outcome| outcome.id() == "off-centre").unwrap();
    let carried = &rear.carried()[at];
    assert_eq!(rear.outcomes[at].limit, Limit::Within(1.0));
    assert!(!carried.allocations.is_empty());
    for hold in &carried.allocations {
        let id = rear.settings[hold.input].id();
        if hold.alone < 10.0 {
            near(off(&rear, &[(id.as_str(), hold.alone)], "off-centre").map(f64::abs), 1.0, 5e-3, &id);
        }
    }
}

#[test]
fn a_mirrored_rear_end_strays_to_the_other_side() {
    let job = starters()[1].job.clone();
    let mut mirrored = job.clone();
    let left = job.chainstays.left.unwrap();
    (mirrored.chainstays.right, mirrored.chainstays.left) = (left, Some(job.chainstays.right));
    let (one, other) = (rear_end(&job), rear_end(&mirrored));
    let errors =
        [("chainstays.right.rear-post", 0.4), ("right.spacer", 0.2), ("seatstays.left.placing", 0.6)];
    let swapped =
        [("chainstays.left.rear-post", 0.4), ("left.spacer", 0.2), ("seatstays.right.placing", 0.6)];
    for (id, sign) in [
        ("off-centre", -1.0),
        ("square", -1.0),
        ("lean", -1.0),
        ("difference", -1.0),
        ("length", 1.0),
        ("drop", 1.0),
    ] {
        near(off(&other, &swapped, id), sign * off(&one, &errors, id).unwrap(), 1e-9, id);
    }
    near(
        off(&other, &swapped, "chainstays.left.tyre"),
        off(&one, &errors, "chainstays.right.tyre").unwrap(),
        1e-9,
        "tyre",
    );
}

/// Stays clamped one at a time share no setting: then one slide reading can make them differ.
#[test]
fn sides_that_are_set_apart_can_come_out_different() {
    let mut job = starters()[0].job.clone();
    let mut left = job.chainstays.right;
    left.rear.rise = Length::from_mm(2.0);
    job.chainstays.left = Some(left);
    let rear = rear_end(&job);
    near(off(&rear, &[("chainstays.right.slide", 0.3)], "difference"), 0.3, 1e-3, "difference");
}

/// Whatever can be planned can be looked at: no panic, nothing infinite, and results keep their order and count.
#[test]
fn any_job_that_can_be_planned_has_its_results_or_none() {
    let mut runner = TestRunner::new(Config::with_cases(200));
    runner
        .run(&support::good_job(), |job| {
            let rear = RearEnd::new(&solve(&job));
            let carried = rear.carried();
            prop_assert_eq!(carried.len(), rear.outcomes.len());
            for (carried, outcome) in carried.iter().zip(&rear.outcomes) {
                if let Some(budget) = &carried.budget {
                    let all = [budget.value, budget.standard, budget.worst];
                    prop_assert!(all.iter().all(|figure| figure.is_finite()), "{}", outcome.id());
                }
            }
            for drawn in rear.sampled(5, 1) {
                prop_assert!(drawn.sorted.iter().all(|figure| figure.is_finite()));
            }
            let mut ids: Vec<String> = rear.settings.iter().map(|setting| setting.id()).collect();
            ids.extend(rear.outcomes.iter().map(|outcome| outcome.id().clone()));
            let count = ids.len();
            ids.sort();
            ids.dedup();
            prop_assert_eq!(ids.len(), count, "identifiers are not alike");
            Ok(())
        })
        .unwrap();
}

/// A stay that passes its member by has no seat, so no gap; a square end has none to show.
#[test]
fn ends_without_a_cope_have_no_gap() {
    let mut job = starters()[0].job.clone();
    job.chainstays.right.front.rise = Length::from_mm(25.0);
    job.seatstays.right.front_end = End::Square;
    let rear = rear_end(&job);
    assert_eq!(off(&rear, &[], "chainstays.right.front.gap"), None);
    assert!(rear.outcomes.iter().all(|outcome| outcome.id() != "seatstays.right.front.gap"));
    near(off(&rear, &[("chainstays.slide", 0.5)], "length"), 0.5, 0.05, "length");
    // A square front end hangs where its mark was.
    assert!(off(&rear, &[("seatstays.right.front.along", 0.5)], "lean").unwrap().abs() > 0.1);
}

#[test]
fn with_everything_exact_nothing_strays() {
    let mut rear = rear_end(&starters()[0].job);
    for setting in &mut rear.settings {
        setting.spread = Distribution::Exact;
    }
    for (carried, outcome) in rear.carried().into_iter().zip(&rear.outcomes) {
        let budget = carried.budget.unwrap();
        assert_eq!((budget.standard, budget.worst), (0.0, 0.0), "{}", outcome.id());
        assert!(budget.shares.iter().all(|share| share.part == 0.0));
    }
}

#[test]
fn spreads_are_edited_by_name() {
    let mut rear = rear_end(&starters()[0].job);
    let spread = Distribution::Normal { standard: 0.02 };
    let slide = Place::from_id("chainstays.slide").unwrap();
    assert!(rear.set_spread(&slide, spread));
    assert!(!rear.set_spread(&Place::shared(SettingKind::Slide), spread));
    assert!(!rear.set_spread(&slide, Distribution::Normal { standard: f64::NAN }));
    let set = rear.settings.iter().find(|setting| setting.id() == "chainstays.slide").unwrap();
    assert_eq!(set.spread, spread);
    assert_eq!(text::bench::setting(&set.place, Style::FILE), "slide, chainstays");
}

/// A = √(L² − d²): by hand, a chainstay's slide is the chainstay length itself. Every other slope against a small step
/// (central difference, error about h²).
#[test]
fn what_moves_with_a_dimension() {
    let job = &starters()[0].job;
    let moved = sensitivities(job, "frame.chainstay_length_mm");
    let slide = moved.iter().find(|moved| moved.figure.id() == "chainstays.slide_mm").unwrap();
    assert!((slide.per_unit - 1.0).abs() < 1e-12 && (slide.value - 415.0).abs() < 1e-12);
    assert!(moved.iter().any(|moved| moved.figure.id() == "seatstays.right.front.tilt_deg"));
    assert!(moved.windows(2).all(|pair| pair[0].per_unit.abs() >= pair[1].per_unit.abs()));
    let path = "seatstays.front_station_mm";
    let h = 1e-3;
    let at = |by: f64| sensitivities(&job.with_figure(path, job.figure(path).unwrap() + by), path);
    let (below, here, above) = (at(-h), at(0.0), at(h));
    for moved in &here {
        let of = |list: &[staywright::tolerance::Sensitivity]| {
            list.iter().find(|other| other.figure == moved.figure).unwrap().value
        };
        let slope = (of(&above) - of(&below)) / (2.0 * h);
        assert!(
            (moved.per_unit - slope).abs() < 1e-5 * (1.0 + slope.abs()),
            "{}: {} {slope}",
            moved.figure.id(),
            moved.per_unit
        );
    }
    assert!(here.len() > 8);
    assert!(sensitivities(job, "frame.no_such_mm").is_empty());
    assert!(sensitivities(&job.with_figure("frame.bb_drop_mm", 1e9), "frame.bb_drop_mm").is_empty());
}

/// By hand, in the stay plane of a plain tube: beside the tyre's widest place, half of its height above the bead seat, the
/// stay's inner side less half of the tyre's width. And what moves it.
#[test]
fn the_tyre_passes_between_the_stays() {
    let mut job = starters()[0].job.clone();
    job.chainstays.right.tube.od_rear = job.chainstays.right.tube.od_front;
    let rear = rear_end(&job);
    let (right, left) = ("chainstays.right.tyre", "chainstays.left.tyre");
    let slope = (73.0 - 20.5) / (415.0 - 32.0_f64);
    let along = 415.0 - (622.0 + 28.0) / 2.0;
    let gap = 20.5 + slope * along - 11.1 / slope.atan().cos() - 14.0;
    near(off(&rear, &[], right), gap, 1e-9, "gap");
    near(off(&rear, &[], left), gap, 1e-9, "gap");
    // A rear end that stands turned as a whole turns its wheel with it.
    let turned = [("chainstays.front.turn", 0.1)];
    near(off(&rear, &turned, right), gap, 5e-3, "turned");
    near(off(&rear, &turned, left), gap, 5e-3, "turned");
    assert!(off(&rear, &turned, "off-centre").unwrap() > 0.5);
    // Held 0.3 too far out, the right stay is put back at its foot: its dropout then stands 0.3 in, the axle 0.15 to the
    // left, and the stay, drawn out at the rear to keep the spacing, 0.15 further out there.
    let held = [("chainstays.right.front-post", 0.3), ("chainstays.right.rear-post", 0.3)];
    near(off(&rear, &held, right), gap + 0.15 + 0.15 * along / 415.0, 1e-3, "held");
    // The left stay is drawn out alike, and the wheel comes nearer to it.
    near(off(&rear, &held, left), gap - 0.15 + 0.15 * along / 415.0, 1e-3, "held");
    // A wheel that leans to the right at its top comes nearer to the right seat stay.
    let leaning = [("seatstays.left.placing", 0.5)];
    assert!(off(&rear, &leaning, "lean").unwrap() > 0.5);
    let nominal = off(&rear, &[], "seatstays.right.tyre").unwrap();
    assert!(off(&rear, &leaning, "seatstays.right.tyre").unwrap() < nominal - 0.2);
}
