//! What the steps state beside their readings: what a scale's division does to the cut, and the readings of odd scales.

use super::jobs::jobs;
use super::mill::Done;
use super::truth::{self, Truth, angle_between, nearest};
use super::{cuts_of, played, step_at, step_of};
use staywright::model::shop::{Axis, Shop, SlittingSaw, demo_shop};
use staywright::model::{Hand, Job, PairName, Stays};
use staywright::placement::plan;
use staywright::plan::CutAt;
use staywright::procedure::{
    Effect, Phase, Quantity, Reading, Rounding, Scale, Step, StepKind, Task, Tools, choose, pair_steps, steps,
};
use staywright::units::{Angle, Length};

/// What the cut is off by when a scale is read to its division and all others exactly: the step says so beforehand.
#[test]
fn the_stated_effect_of_rounding_is_what_happens() {
    let mut seen = 0;
    for job in jobs() {
        for (which, side) in [
            (Scale::Dro(Axis::X), Hand::Left),
            (Scale::Dro(Axis::Y), Hand::Left),
            (Scale::Dro(Axis::Y), Hand::Right),
            (Scale::Tilt, Hand::Left),
        ] {
            let mut shop = demo_shop();
            shop.mill.block_side = side;
            shop.mill.axes.iter_mut().for_each(|axis| axis.division = Length::default());
            shop.fixture.tilt.figures.division = Angle::default();
            match which {
                Scale::Dro(Axis::X) => shop.mill.axes[0].division = Length::from_mm(0.25),
                Scale::Dro(Axis::Y) => shop.mill.axes[1].division = Length::from_mm(0.25),
                _ => shop.fixture.tilt.figures.division = Angle::from_degrees(0.5),
            }
            for name in PairName::ALL {
                let (steps, done) = played(&job, &shop, &Tools::default(), name);
                for done in done {
                    let Done::Round { key, axis } = done else { continue };
                    let own = steps.iter().filter(|step| step.key.setting == key.setting);
                    let set = own.filter(|step| !matches!(step.task, Task::TouchCorner { .. }));
                    let Some(point) = set.filter_map(|step| step.set_point(which)).next() else { continue };
                    let stated = point.rounding.unwrap().effect;
                    seen += usize::from(matches_one(&job, &cuts_of(key.setting), &axis, stated));
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
            let Done::Round { key, axis } = done else { continue };
            let at = cuts_of(key.setting)[0];
            let Some(saw) = tools.saw(at) else { continue };
            let (Some(push), Some(shift)) = (saw.push, saw.shift) else { continue };
            let paired = key.setting.stays == Stays::Both;
            // Where the table goes square to what the stay needs, both stays in one pass stay as planned.
            let push = if shift.in_pass(paired).is_some() { push.mm() } else { 0.0 };
            let truth = Truth::new(&job, at.pair, at.hand);
            let wanted = truth.member(&job, at.at_front).unwrap();
            let station = |axis| nearest(&truth.stay(), axis).unwrap().0;
            let outwards = (station(&axis) - station(&wanted)) * if at.at_front { -1.0 } else { 1.0 };
            assert!((outwards - push).abs() < 1e-7, "{key:?}: {outwards} {push}");
            let along = [StepKind::Move, StepKind::Along]
                .into_iter()
                .find_map(|kind| step_of(&steps, key.setting, kind));
            let Some(along) = along else { continue };
            let planned = along.also.iter().any(|beside| matches!(beside.what, Quantity::Planned { .. }));
            assert_eq!(planned, push > 1e-6, "{key:?}");
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
    let step = step_at(&steps, Phase::Clamping, StepKind::Slide);
    let reading = |scale| match step.set_point(scale).map(|point| point.reading) {
        Some(Reading::Length(length)) => length.mm(),
        other => panic!("{other:?}"),
    };
    // Front datum line to axle is the chainstay length, 430; the axle lies in the stay plane.
    assert_eq!(reading(Scale::Slide), 460.0);
    assert_eq!(reading(Scale::AxleHeight), 50.0);
}

/// Readings are whole counts of the scale's divisions, and the remainder is never more than half of one.
#[test]
fn readings_are_whole_divisions() {
    let shop = demo_shop();
    let mut seen = 0;
    for job in jobs() {
        let plan = plan(&job).unwrap();
        let steps = steps(&plan, &shop, &Tools::default());
        for (key, point) in steps.iter().flat_map(|step| step.set_points().map(|point| (step.key, point))) {
            let Some(rounding) = point.rounding else { continue };
            let (division, reading) = (rounding.division.number().unwrap(), point.reading.number().unwrap());
            let count = reading / division;
            assert!((count - count.round()).abs() < 1e-6, "{key:?}: {reading}");
            assert!(rounding.left.number().unwrap().abs() <= division / 2.0 + 1e-9, "{key:?}");
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
        // As wide as the plates with their clearance.
        let [saw, ..] = shop.slitting_saws[..] else { panic!("a slitting saw") };
        let widths = [4.1, 6.1, 6.5].map(Length::from_mm);
        shop.slitting_saws.extend(widths.map(|width| SlittingSaw { width, ..saw }));
        for name in PairName::ALL {
            let (steps, done) = played(&job, &shop, &Tools::default(), name);
            for done in done {
                let Done::Slots { setting, kerfs, front_edge, rearwards } = done else { continue };
                let moved = cuts_of(setting).into_iter().map(|at| {
                    let off = super::root_off(&job, at, &front_edge, &rearwards);
                    let truth = Truth::new(&job, at.pair, at.hand);
                    off / truth.stay().along.dot(&rearwards)
                });
                let furthest = moved.max_by(|a, b| a.abs().total_cmp(&b.abs())).unwrap();
                let effect = |kind| step_of(&steps, setting, kind).and_then(|step| step.rounding);
                let stated = effect(StepKind::Along).unwrap().effect.along.mm();
                assert!((stated - furthest).abs() < 1e-9, "{setting:?}: {stated} {furthest}");
                // A plate that takes one pass only: the pass is the slot itself.
                for kerf in &kerfs {
                    let slot = Truth::new(&job, name, kerf.hand).slot();
                    let Some(rounding) = effect(StepKind::Slot(kerf.hand)) else { continue };
                    if (kerf.high - kerf.low - slot.plate).abs() < 1e-9 {
                        let off = ((kerf.low + kerf.high) / 2.0 - slot.middle).abs();
                        assert!((rounding.effect.offset.mm() - off).abs() < 1e-9, "{setting:?}");
                        seen += 1;
                    }
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
        for name in PairName::ALL.into_iter().filter(|name| job.pair(*name).left.is_none()) {
            let (steps, done) = played(&job, &shop, &Tools::default(), name);
            let right = |done: &Done| match done {
                Done::Post { hand: Hand::Right, station, spacing, .. } => Some((*station, *spacing)),
                _ => None,
            };
            let posts: Vec<(f64, f64)> = done.iter().filter_map(right).collect();
            let effects: Vec<Effect> = steps
                .iter()
                .filter(|step| step.key.kind == StepKind::Posts)
                .flat_map(Step::set_points)
                .filter_map(|point| point.rounding.map(|rounding| rounding.effect))
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
    let rounding = |division| Rounding { division, left: division, effect: Effect::default() };
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
    let saw = step_at(&steps, Phase::Rear, StepKind::SlittingSaw);
    let shallower = saw.beside_of(Quantity::ShallowerAtEdges).and_then(Reading::number).unwrap();
    assert!((shallower - 0.808).abs() < 1e-3, "{shallower}");
}

/// The drawing of the tilted fixture prints the figure that the step has set, and shows the rear ends where the machine has them.
#[test]
fn the_drawing_of_a_tilt_shows_what_the_step_sets() {
    use staywright::drawing::{OnMachine, Shape, Viewport, fixture_tilt};
    use staywright::units::{LengthUnit, fixed};
    let room = Viewport { width: 840.0, height: 480.0, lettering: 16.0, unit: LengthUnit::Millimetre };
    let mut shop = demo_shop();
    shop.fixture.tilt.figures.zero = Angle::from_degrees(2.0);
    let plan = plan(&Job::default()).unwrap();
    let steps = pair_steps(&plan, &shop, &Tools::default(), PairName::Seatstays);
    let step = step_at(&steps, Phase::Front, StepKind::Tilt);
    let Some(Reading::Angle(gauge)) = step.reading else { panic!("{step:?}") };
    let Some(Reading::Angle(to_spindle)) = step.beside_of(Quantity::PlaneToSpindle) else {
        panic!("{step:?}")
    };
    assert!((gauge.degrees() - 2.0 + to_spindle.degrees() - 90.0).abs() < 0.05);
    let at = CutAt { pair: PairName::Seatstays, hand: Hand::Right, at_front: true };
    for rear_left in [true, false] {
        let sheet = fixture_tilt(&plan, at, OnMachine { rear_left, gauge: Some(gauge) }, room);
        let of_tilt = sheet.marks.iter().filter(|mark| mark.topic.as_deref() == Some("tilt_deg"));
        let (mut texts, mut planes) = (Vec::new(), Vec::new());
        for mark in of_tilt {
            match &mark.shape {
                Shape::Text { text, .. } => texts.push(text.clone()),
                Shape::Line { a, b } if (b.x - a.x).abs() > 200.0 => planes.push((*a, *b)),
                _ => {}
            }
        }
        let shown = fixed(gauge.degrees(), 2);
        assert!(texts.len() == 2 && texts.iter().all(|text| text.contains(&shown)), "{texts:?}");
        // The stay plane runs from before the front datum to the rear.
        let [(front, rear)] = planes.as_slice() else { panic!("{planes:?}") };
        assert_eq!(rear.x < front.x, rear_left);
        // Front end up: on the sheet y points down.
        assert!(front.y < rear.y);
    }
}
