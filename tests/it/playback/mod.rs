//! The step list played back. A simulated fixture and mill, set from the listed readings and words alone, must put every
//! cutter's axis, saw, clamp and axle where the job's geometry wants them.
//!
//! The geometry here is written from the contract's formulas and the mill from how such machines move; neither looks at
//! how the steps are made.

mod jobs;
mod mill;
mod truth;

use jobs::{jobs, shops};
use mill::Simulated;
use staywright::model::shop::{Metal, Shop, demo_shop};
use staywright::model::{Hand, Job, PairName};
use staywright::placement::plan;
use staywright::plan::CutAt;
use staywright::procedure::{Effect, Reading, Step, Tools, choose, pair_steps};
use staywright::units::{Angle, Length};
use truth::{Truth, angle_between, nearest};

/// What was cut when the steps of a pair had been followed.
fn played(job: &Job, shop: &Shop, tools: &Tools, name: PairName) -> (Vec<Step>, Vec<mill::Done>) {
    let plan = plan(job).unwrap();
    let steps = pair_steps(&plan, shop, tools, name);
    let mut simulated = Simulated::new(job, shop);
    for step in &steps {
        simulated.follow(step);
    }
    (steps, simulated.done)
}

/// Which cut a step's id speaks of.
fn cuts_of(id: &str, name: PairName) -> Vec<CutAt> {
    let words: Vec<&str> = id.split('.').collect();
    let hands: Vec<Hand> = match words[1] {
        "both" => Hand::ALL.to_vec(),
        "right" => vec![Hand::Right],
        "left" => vec![Hand::Left],
        other => panic!("{other}"),
    };
    hands.into_iter().map(|hand| CutAt { pair: name, hand, at_front: words[2] == "front" }).collect()
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
            mill::Done::Round { id, axis } => {
                for at in cuts_of(id, name) {
                    let truth = Truth::new(job, at.pair, at.hand);
                    let wanted = truth.member(job, at.at_front).unwrap();
                    for along in [-50.0, 0.0, 50.0] {
                        let off = axis.distance(&wanted.at(along));
                        assert!(off < slack, "{id} {}: {off}\n{steps:#?}", at.key());
                    }
                    assert!(angle_between(&axis.along, &wanted.along) < slack, "{id}");
                    seen += 1;
                }
            }
            mill::Done::Slots { id, kerfs, front_edge, above } => {
                // The stays' axes lie in the clamp plane, and so must the saw's centre.
                assert!(above.abs() < slack, "{id}: {above}");
                for at in cuts_of(id, name) {
                    check_slot(job, at, kerfs, *front_edge, slack);
                    seen += 1;
                }
            }
            mill::Done::Axle { id, along, above } => {
                let hand = if id.contains(".left.") { Hand::Left } else { Hand::Right };
                let wanted = Truth::new(job, name, hand).axle_local();
                assert!((along - wanted.x).abs() < slack && (above - wanted.z).abs() < slack, "{id}");
                seen += 1;
            }
            mill::Done::Post { id, hand, station, spacing } => {
                let truth = Truth::new(job, name, *hand);
                let wanted = truth.spacing_at(*station);
                assert!((spacing - wanted).abs() < slack, "{id}: {spacing} {wanted}");
                seen += 1;
            }
        }
    }
    seen
}

/// The passes leave the plate's room and no more, without a wall between them, and stop at the root.
fn check_slot(job: &Job, at: CutAt, kerfs: &[(Hand, f64, f64)], front_edge: f64, slack: f64) {
    let truth = Truth::new(job, at.pair, at.hand);
    let (middle, plate, root) = truth.slot(job);
    let mut own: Vec<(f64, f64)> =
        kerfs.iter().filter(|kerf| kerf.0 == at.hand).map(|kerf| (kerf.1, kerf.2)).collect();
    own.sort_by(|a, b| a.0.total_cmp(&b.0));
    assert!(!own.is_empty(), "{}", at.key());
    assert!((own[0].0 - (middle - plate / 2.0)).abs() < slack, "{}: {own:?}", at.key());
    assert!((own.last().unwrap().1 - (middle + plate / 2.0)).abs() < slack, "{}: {own:?}", at.key());
    for two in own.windows(2) {
        assert!(two[1].0 <= two[0].1 + slack, "{}: a wall is left: {own:?}", at.key());
    }
    assert!((front_edge - root).abs() < slack, "{}: {front_edge} {root}", at.key());
}

/// Vertical and horizontal spindles, either table direction, either way round, either side to the spindle, each sense of
/// each readout and scale, each side touched; symmetrical and asymmetric pairs, both tilts.
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

/// The jobs above tilt to the front, to the rear, not at all and upright, and stand on their sides.
#[test]
fn every_way_of_standing_is_played() {
    let shop = Shop::default();
    let mut tasks: Vec<String> = Vec::new();
    for job in jobs() {
        let plan = plan(&job).unwrap();
        for name in PairName::ALL {
            tasks.extend(pair_steps(&plan, &shop, &Tools::default(), name).into_iter().map(|step| step.task));
        }
    }
    for task in [
        "Tilt the fixture, front end up",
        "Tilt the fixture, rear end up",
        "Lay the fixture level",
        "Stand the fixture upright, front end up",
        "Stand the fixture, left side to the spindle",
        "Touch the datum edge from the front",
        "Touch the datum edge from the rear",
        "Touch the left side of the mounting block",
        "Touch the base face",
    ] {
        assert!(tasks.iter().any(|known| known == task), "{task}");
    }
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
                    let mill::Done::Round { id, axis } = done else { continue };
                    for at in cuts_of(&id, name) {
                        let Some((off, turned)) = off(&job, at, &axis) else { continue };
                        let truth = Truth::new(&job, at.pair, at.hand);
                        let arm = truth.arm(&job, at.at_front);
                        let half_turn = (gauge / 2.0_f64).to_radians();
                        let most = dro / 2.0 * 2f64.sqrt() + half_turn * arm;
                        assert!(off.abs() <= most + 1e-9, "{id}: {off} > {most}");
                        assert!(turned <= half_turn + 1e-9, "{id}");
                    }
                }
            }
        }
    }
}

/// What the cut is off by when a scale is read to its division and all others exactly: the step says so beforehand.
#[test]
fn the_stated_effect_of_rounding_is_what_happens() {
    let mut seen = 0;
    for job in jobs() {
        for (which, side) in
            [("along", Hand::Left), ("across", Hand::Left), ("across", Hand::Right), ("tilt", Hand::Left)]
        {
            let mut shop = demo_shop();
            shop.mill.block_side = side;
            shop.mill.axes.iter_mut().for_each(|axis| axis.division = Length::default());
            shop.fixture.tilt.figures.division = Angle::default();
            match which {
                "along" => shop.mill.axes[0].division = Length::from_mm(0.25),
                "across" => shop.mill.axes[1].division = Length::from_mm(0.25),
                _ => shop.fixture.tilt.figures.division = Angle::from_degrees(0.5),
            }
            for name in PairName::ALL {
                let (steps, done) = played(&job, &shop, &Tools::default(), name);
                for done in done {
                    let mill::Done::Round { id, axis } = done else { continue };
                    let key = id.replace(".cut", &format!(".{which}"));
                    let Some(step) = steps.iter().find(|step| step.id == key) else { continue };
                    let stated = step.rounding.unwrap().effect;
                    seen += usize::from(matches_one(&job, &cuts_of(&id, name), &axis, stated));
                }
            }
        }
    }
    assert!(seen > 30, "{seen}");
}

/// Whether the effect is that on one of the stays, and on none more by far; panics where it is not. `false` where no
/// stay has a nearest point.
fn matches_one(job: &Job, cuts: &[CutAt], axis: &truth::Axis, stated: Effect) -> bool {
    let mut all = Vec::new();
    for at in cuts {
        let truth = Truth::new(job, at.pair, at.hand);
        let wanted = truth.member(job, at.at_front).unwrap();
        let stay = truth.stay();
        let (Some(was), Some(is)) = (nearest(&stay, &wanted), nearest(&stay, axis)) else { continue };
        let turn = angle_between(&stay.along, &axis.along) - angle_between(&stay.along, &wanted.along);
        all.push([is.0 - was.0, is.1 - was.1, turn.to_degrees()]);
    }
    if all.is_empty() {
        return false;
    }
    let said = [stated.along.mm(), stated.offset.mm(), stated.angle.degrees()];
    let close = |one: &[f64; 3]| one.iter().zip(said).all(|(a, b)| (a - b).abs() < 1e-7);
    assert!(all.iter().any(close), "{cuts:?}: said {said:?}, found {all:?}");
    let size = |one: &[f64; 3]| one.iter().map(|x| x.abs()).sum::<f64>();
    assert!(all.iter().all(|one| size(one) <= size(&said) + 1e-6), "{cuts:?}: said {said:?}, found {all:?}");
    true
}

/// With a saw of another size than the member, the readings to set make the stay's length right; where both stays are cut in one
/// setting as well as where each has its own.
#[test]
fn the_readings_for_another_saw_move_the_cut_by_the_push() {
    let mut shop = demo_shop();
    shop.processes[0].gap.most = Length::from_mm(2.0);
    shop.mill.axes.iter_mut().for_each(|axis| axis.division = Length::default());
    shop.fixture.tilt.figures.division = Angle::default();
    let (mut both, mut single) = (0, 0);
    for (job, name) in jobs().into_iter().flat_map(|job| PairName::ALL.map(|name| (job.clone(), name))) {
        let plan = plan(&job).unwrap();
        let tools = choose(&plan, &shop);
        let (steps, done) = played(&job, &shop, &tools, name);
        for done in done {
            let mill::Done::Round { id, axis } = done else { continue };
            let at = cuts_of(&id, name)[0];
            let Some(saw) = tools.saw(at) else { continue };
            let (Some(push), Some(shift)) = (saw.push, saw.shift) else { continue };
            let paired = id.contains(".both.");
            // Where the table goes square to what the stay needs, both stays in one pass stay as planned.
            let push = if shift.in_pass(paired).is_some() { push.mm() } else { 0.0 };
            let truth = Truth::new(&job, at.pair, at.hand);
            let wanted = truth.member(&job, at.at_front).unwrap();
            let station = |axis| nearest(&truth.stay(), axis).unwrap().0;
            let outwards = (station(&axis) - station(&wanted)) * if at.at_front { -1.0 } else { 1.0 };
            assert!((outwards - push).abs() < 1e-7, "{id}: {outwards} {push}");
            let along = steps.iter().find(|step| step.id == id.replace(".cut", ".along")).unwrap();
            let planned = along.also.iter().find(|named| named.name.starts_with("Planned"));
            assert_eq!(planned.is_some(), push > 1e-6, "{id}");
            if paired { both += 1 } else { single += 1 }
        }
    }
    assert!(both > 3 && single > 3, "{both} {single}");
}

/// A figure as the demonstration shop shows it: by hand, slide scale 30 at its zero, axle scale falling from 50.
#[test]
fn readings_are_the_scales_own() {
    let shop = demo_shop();
    let job = shop.starting(Job::default());
    let plan = plan(&job).unwrap();
    let steps = pair_steps(&plan, &shop, &Tools::default(), PairName::Chainstays);
    let reading = |key: &str| match steps.iter().find(|step| step.id == key).unwrap().reading {
        Some(Reading::Length(length)) => length.mm(),
        other => panic!("{other:?}"),
    };
    // Front datum line to axle is the chainstay length, 430; the axle lies in the stay plane.
    assert_eq!(reading("chainstays.both.slide"), 460.0);
    assert_eq!(reading("chainstays.both.axle-height"), 50.0);
}

#[test]
fn what_cannot_be_set_says_by_how_much() {
    let mut shop = demo_shop();
    shop.fixture.limits.tilt_max = Angle::from_degrees(10.0);
    shop.fixture.limits.half_spacing_max = Length::from_mm(25.0);
    let mut job = shop.starting(Job::default());
    job.fixture.bench.slide_max = Length::from_mm(400.0);
    let plan = plan(&job).unwrap();
    let steps = pair_steps(&plan, &shop, &Tools::default(), PairName::Chainstays);
    let beyond = |key: &str| steps.iter().find(|step| step.id.ends_with(key)).unwrap().beyond.join("; ");
    assert_eq!(
        beyond(".slide"),
        "the slide would stand at 430 mm; it goes from 380 to 400: 30 mm is missing"
    );
    assert!(beyond(".post-1").starts_with("the clamp would stand at "), "{}", beyond(".post-1"));
    let steps = pair_steps(&plan, &shop, &Tools::default(), PairName::Seatstays);
    let tilt = steps.iter().find(|step| step.id.ends_with(".tilt")).unwrap();
    assert!(tilt.beyond.join("; ").contains("it can tilt from 0 to 10"), "{:?}", tilt.beyond);
}

/// What the way in would meet is said at the step at which the saw goes in.
#[test]
fn the_cut_says_what_stands_in_its_way() {
    let mut shop = demo_shop();
    shop.processes[0].gap.most = Length::from_mm(2.0);
    let job = shop.starting(Job::default());
    let plan = plan(&job).unwrap();
    let cut = |shop: &Shop| {
        let steps = pair_steps(&plan, shop, &choose(&plan, shop), PairName::Chainstays);
        steps.into_iter().find(|step| step.id == "chainstays.both.front.cut").unwrap()
    };
    let good = cut(&shop);
    assert_eq!(good.beyond, Vec::<String>::new());
    assert!(good.also.iter().any(|named| named.name == "Smallest gap, saw to bed"), "{:?}", good.also);
    assert!(good.also.iter().any(|named| matches!(named.reading, Reading::Speed(_))));
    let mut poor = shop.clone();
    poor.hole_saws.iter_mut().for_each(|saw| saw.arbor.reach = Length::from_mm(12.0));
    poor.mill.axes.iter_mut().for_each(|axis| axis.travel = Length::from_mm(40.0));
    poor.fixture.bed.thickness = Length::from_mm(25.0);
    let said = cut(&poor).beyond.join("; ");
    for words in [
        "the arbor is too short by",
        "travel along the spindle by",
        "along the fixture is short by",
        "the saw meets the bed after",
    ] {
        assert!(said.contains(words), "{words}: {said}");
    }
}

/// Readings are whole counts of the scale's divisions, and the remainder is never more than half of one.
#[test]
fn readings_are_whole_divisions() {
    let shop = demo_shop();
    let mut seen = 0;
    for job in jobs() {
        let plan = plan(&job).unwrap();
        for step in
            PairName::ALL.into_iter().flat_map(|name| pair_steps(&plan, &shop, &Tools::default(), name))
        {
            let Some(rounding) = step.rounding else { continue };
            let (division, reading) =
                (rounding.division.number().unwrap(), step.reading.unwrap().number().unwrap());
            let count = reading / division;
            assert!((count - count.round()).abs() < 1e-6, "{}: {reading}", step.id);
            assert!(rounding.left.number().unwrap().abs() <= division / 2.0 + 1e-9, "{}", step.id);
            seen += 1;
        }
    }
    assert!(seen > 100, "{seen}");
}

/// The same for slots: the saw's stop along the stay, and its height.
#[test]
fn the_stated_effect_of_rounding_on_a_slot_is_what_happens() {
    let mut seen = 0;
    for job in jobs() {
        let mut shop = demo_shop();
        shop.mill.axes.iter_mut().for_each(|axis| axis.division = Length::from_mm(0.25));
        for name in PairName::ALL {
            let (steps, done) = played(&job, &shop, &Tools::default(), name);
            for done in done {
                let mill::Done::Slots { id, kerfs, front_edge, .. } = done else { continue };
                let at = cuts_of(&id, name)[0];
                let truth = Truth::new(&job, at.pair, at.hand);
                let (middle, plate, root) = truth.slot(&job);
                let effect = |key: &str| {
                    let id = id.replace(".cut", key);
                    steps.iter().find(|step| step.id == id).unwrap().rounding.unwrap().effect
                };
                let moved = (front_edge - root) / truth.stay().along.x;
                assert!((effect(".along").along.mm() - moved).abs() < 1e-9, "{id}");
                // A plate that takes one pass only: the pass is the slot itself.
                let (_, low, high) = kerfs[0];
                if (high - low - plate).abs() < 1e-9 {
                    let off = ((low + high) / 2.0 - middle).abs();
                    assert!((effect(".height").offset.mm() - off).abs() < 1e-9, "{id}");
                    seen += 1;
                }
            }
        }
    }
    assert!(seen > 5, "{seen}");
}

/// Two clamps, each read to its division, lead the tube along another line: at the front reference point it is as far off
/// as the two steps say together.
#[test]
fn the_stated_effect_of_rounding_at_the_posts_is_what_happens() {
    let mut seen = 0;
    for job in jobs().into_iter().filter(|job| job.fixture.posts.len() == 2) {
        let mut shop = demo_shop();
        shop.fixture.half_spacing.figures.division = Length::from_mm(1.0);
        for name in PairName::ALL {
            let (steps, done) = played(&job, &shop, &Tools::default(), name);
            let posts: Vec<(f64, f64)> = done
                .iter()
                .filter_map(|done| match done {
                    mill::Done::Post { hand: Hand::Right, station, spacing, .. } => {
                        Some((*station, *spacing))
                    }
                    _ => None,
                })
                .collect();
            let effects: Vec<Effect> = steps
                .iter()
                .filter(|step| step.id.contains(".post-") && !step.id.contains(".left."))
                .filter_map(|step| step.rounding.map(|rounding| rounding.effect))
                .collect();
            let ([(u1, v1), (u2, v2)], [one, other]) = (posts.as_slice(), effects.as_slice()) else {
                continue;
            };
            let slope = (v2 - v1) / (u2 - u1);
            let truth = Truth::new(&job, name, Hand::Right);
            let (front, splay) = (v1 - slope * u1, (slope.atan() - truth.stay().along.y.asin()).to_degrees());
            let off = front - truth.spacing_at(0.0);
            assert!((one.offset.mm() + other.offset.mm() - off).abs() < 1e-9, "{off}");
            // The turn is small; angles add up but for the third power of it.
            assert!((one.angle.degrees() + other.angle.degrees() - splay).abs() < 1e-2 * splay.abs() + 1e-9);
            seen += 1;
        }
    }
    assert!(seen > 4, "{seen}");
}

/// A reading is written with the decimals of its scale.
#[test]
fn readings_need_the_decimals_of_their_division() {
    use staywright::units::LengthUnit::{Inch, Millimetre};
    let rounding =
        |division| staywright::procedure::Rounding { division, left: division, effect: Effect::default() };
    let length = |mm| rounding(Reading::Length(Length::from_mm(mm)));
    for (mm, decimals) in [(1.0, 0), (0.5, 1), (0.25, 2), (0.02, 2), (0.005, 3), (1.0 / 3.0, 4)] {
        assert_eq!(length(mm).decimals(Millimetre), decimals, "{mm}");
    }
    assert_eq!(length(0.0254).decimals(Inch), 3);
    assert_eq!(length(0.0127).decimals(Inch), 4);
    assert_eq!(rounding(Reading::Angle(Angle::from_degrees(0.05))).decimals(Inch), 2);
}

/// A saw of 80 mm in a tube that is 16 mm thick at the root: 40 − √(40² − 8²) = 0.808 mm.
#[test]
fn a_round_saw_leaves_a_round_root() {
    let plan = plan(&Job::default()).unwrap();
    let steps = pair_steps(&plan, &Shop::default(), &Tools::default(), PairName::Chainstays);
    let saw = steps.iter().find(|step| step.id == "chainstays.both.rear.saw").unwrap();
    let shallower = saw.also.iter().find(|named| named.name.contains("shallower")).unwrap();
    assert!((shallower.reading.number().unwrap() - 0.808).abs() < 1e-3, "{shallower:?}");
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
                let first = |word: &str| {
                    let of =
                        |step: &Step| step.cautions.iter().filter(|one| one.words.contains(word)).count();
                    assert!(steps.iter().map(of).sum::<usize>() <= 1, "{word} is said twice");
                    steps.iter().position(|step| of(step) > 0)
                };
                let cut = steps.iter().position(|step| step.id.ends_with(".cut")).unwrap();
                assert_eq!(first("gloves"), Some(cut));
                assert_eq!(first("Titanium chips"), (metal == Metal::Titanium).then_some(cut));
                assert!(first("slips turns with the cutter").is_some_and(|clamp| clamp < cut));
                let slots = steps.iter().any(|step| step.task.contains("slitting saw"));
                assert_eq!(first("slitting saw").is_some(), slots);
                assert!(steps.iter().flat_map(|step| &step.cautions).all(|one| !one.source.is_empty()));
            }
        }
    }
}

/// Ticks are kept under these names: they must not change, and no two steps may share one.
#[test]
fn ids_are_stable_and_unlike() {
    for job in jobs() {
        let plan = plan(&job).unwrap();
        let steps = staywright::procedure::steps(&plan, &Shop::default(), &Tools::default());
        let mut ids: Vec<&str> = steps.iter().map(|step| step.id.as_str()).collect();
        ids.sort_unstable();
        assert!(ids.windows(2).all(|two| two[0] != two[1]), "{ids:?}");
    }
    let steps = pair_steps(
        &plan(&Job::default()).unwrap(),
        &Shop::default(),
        &Tools::default(),
        PairName::Chainstays,
    );
    for key in [
        "slide",
        "axle-height",
        "post-1",
        "post-2",
        "mark",
        "clamp",
        "front.cutter",
        "front.side",
        "front.touch-edge",
        "front.along",
        "front.touch-side",
        "front.across",
        "front.cut",
        "rear.saw",
        "rear.side",
        "rear.touch-edge",
        "rear.along",
        "rear.height",
        "rear.cut",
    ] {
        let id = format!("chainstays.both.{key}");
        assert!(steps.iter().any(|step| step.id == id), "{id}");
    }
}
