//! Where ends land on shell, seat tube and round dropouts, and their vent holes: closed forms, and points worked out here from a
//! cut's profile, which the CAD kernel has checked.

use crate::support;
use nalgebra::{Point3, Vector3};
use num_dual::Dual64;
use proptest::prelude::*;
use staywright::model::{End, Group, Hand, Job, PairName, starting_dropouts, starting_job};
use staywright::placement::solve;
use staywright::plan::{CutAt, Landing, Plan, landing};
use staywright::units::Length;

const fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

fn near(one: f64, other: f64) {
    // Extremes are found to rounding, their directions to 1e-9 rad.
    assert!((one - other).abs() < 2e-7, "{one} is not {other}");
}

fn front(pair: PairName, hand: Hand) -> CutAt {
    CutAt { pair, hand, at_front: true }
}

/// A job whose stays run level with the centre plane, `half` from it, without a taper.
fn level(pair: PairName, half: f64) -> Job {
    let mut job = starting_job();
    let side = &mut job.pair_mut(pair).right;
    (side.front.half_spacing, side.rear.half_spacing) = (mm(half), mm(half));
    side.tube.od_rear = side.tube.od_front;
    job
}

/// Square to the shell a tube of radius r lands 2r wide along it, and as far round as the arc whose half chord is r. The way to
/// the axle rises by asin(drop / length). The bore's edge comes nearest along the shell, at its own radius.
#[test]
fn a_stay_square_to_the_shell_lands_as_drawn() {
    let mut job = level(PairName::Chainstays, 22.0);
    (job.frame.shell_od, job.frame.shell_width) = (mm(40.0), mm(73.0));
    let (r, wall) = (11.1, job.chainstays.right.tube.wall.mm());
    let rises = (job.frame.bb_drop.mm() / job.frame.chainstay_length.mm()).asin().to_degrees();
    let plan = solve(&job);
    for (hand, sign) in [(Hand::Right, 1.0), (Hand::Left, -1.0)] {
        let found = landing(&plan, front(PairName::Chainstays, hand)).unwrap();
        let middle = 36.5 - sign * 22.0;
        near(found.along_from.mm(), middle - r);
        near(found.along_to.mm(), middle + r);
        near(found.along_middle.mm(), middle);
        let half = (r / 20.0f64).asin().to_degrees();
        near(found.round_from.degrees(), rises - half);
        near(found.round_to.degrees(), rises + half);
        near(found.round_middle.degrees(), rises);
        near(found.axis_along.unwrap().mm(), middle);
        near(found.axis_round.unwrap().degrees(), rises);
        near(found.vent_along.unwrap().mm(), middle);
        near(found.vent_round.unwrap().degrees(), rises);
        near(found.vent_max.unwrap().mm(), 2.0 * (r - wall - 2.0));
    }
}

/// Beside the middle of the seat tube: round it from asin((h − r) / R) to asin((h + r) / R), to the drive side on the right. The
/// axis enters where it comes within R of the seat tube's.
#[test]
fn a_stay_beside_the_seat_tubes_middle_lands_as_drawn() {
    let (half, r, tube) = (5.0, 12.7 / 2.0, 28.6 / 2.0);
    let job = level(PairName::Seatstays, half);
    let plan = solve(&job);
    // By hand: the seat tube rises at 73°, the stay falls from its node to the axle.
    let station = job.seatstay_node.front_station.mm();
    let (length, drop) = (job.frame.chainstay_length.mm(), job.frame.bb_drop.mm());
    let alpha = job.frame.seat_angle.radians();
    let falls =
        (drop - station * alpha.sin()).atan2((length * length - drop * drop).sqrt() - station * alpha.cos());
    for (hand, sign) in [(Hand::Right, 1.0), (Hand::Left, -1.0)] {
        let found = landing(&plan, front(PairName::Seatstays, hand)).unwrap();
        let edges = [half - r, half + r].map(|y| sign * (y / tube).asin().to_degrees());
        near(found.round_from.degrees(), edges[0].min(edges[1]));
        near(found.round_to.degrees(), edges[0].max(edges[1]));
        near(found.axis_round.unwrap().degrees(), sign * (half / tube).asin().to_degrees());
        let depth = (tube * tube - half * half).sqrt();
        near(found.axis_along.unwrap().mm(), station + depth / (alpha - falls).tan());
    }
}

#[test]
fn what_does_not_exist_is_none() {
    // A slot lands nowhere; a stay that misses its member neither.
    let plan = solve(&starting_job());
    assert!(landing(&plan, CutAt { at_front: false, ..front(PairName::Chainstays, Hand::Right) }).is_none());
    let plan = solve(&level(PairName::Seatstays, 60.0));
    assert!(landing(&plan, front(PairName::Seatstays, Hand::Right)).is_none());
    // Half of the stay meets: its axis passes the seat tube by, and no bore is whole.
    let plan = solve(&level(PairName::Seatstays, 15.0));
    let found = landing(&plan, front(PairName::Seatstays, Hand::Right)).unwrap();
    assert!(found.axis_along.is_none() && found.axis_round.is_none());
    assert!(found.vent_along.is_none() && found.vent_max.is_none());
    // A bore of 3.4 mm leaves no room for a hole with 2 mm about it; the place is told all the same.
    let mut job = level(PairName::Seatstays, 5.0);
    (job.seatstays.right.tube.od_front, job.seatstays.right.tube.od_rear) = (mm(5.0), mm(5.0));
    job.seatstays.right.tube.wall = mm(0.8);
    let found = landing(&solve(&job), front(PairName::Seatstays, Hand::Right)).unwrap();
    assert!(found.vent_along.is_some() && found.vent_max.is_none());
}

/// A round dropout's right face is known where the part is: a level stay in its middle lands in its middle.
#[test]
fn on_a_round_dropout_stations_count_from_its_right_face() {
    let (_, part) = starting_dropouts()[2];
    let mut job = starting_job().with_dropouts(part, None);
    for name in PairName::ALL {
        let side = &mut job.pair_mut(name).right;
        (side.front.half_spacing, side.front_end) = (mm(71.0 + 10.0), End::Square);
        side.tube.od_front = side.tube.od_rear;
    }
    let plan = solve(&job);
    for at in CutAt::all().filter(|at| !at.at_front) {
        let found = landing(&plan, at).unwrap();
        near(found.along_middle.mm(), 10.0);
        near(found.along_to.mm() - found.along_from.mm(), plan.job.pair(at.pair).right.tube.od_rear.mm());
    }
    let mut unknown = plan.job.clone();
    unknown.dropouts = None;
    assert!(
        landing(&solve(&unknown), CutAt { at_front: false, ..front(PairName::Chainstays, Hand::Right) })
            .is_none()
    );
}

/// Places of the profile's points along and round the member, from its rearward side.
fn places(plan: &Plan, at: CutAt) -> Vec<(f64, f64)> {
    let stay = at.stay(plan);
    let cut = at.cut(plan).round().unwrap();
    let t = (stay.rear_point - stay.front_point).normalize();
    let w = stay.clamp.w;
    let tube = &plan.job.pair(at.pair).side(at.hand).tube;
    let side = |phi: f64| w * phi.cos() + t.cross(&w) * phi.sin();
    let across = cut.axis_direction.y.abs() > 0.5;
    let along = |p: &Point3<f64>| match across {
        true => plan.job.frame.shell_width.mm() / 2.0 - p.y,
        false => (p - cut.axis_point).dot(&cut.axis_direction),
    };
    let rear = Vector3::y().cross(&cut.axis_direction);
    let round = |p: &Point3<f64>| {
        let d = p - cut.axis_point;
        if across { d.z.atan2(d.x) } else { d.y.atan2(d.dot(&rear)) }
    };
    let radius = |s: f64| {
        let (from, to) = (tube.taper_start.mm(), tube.taper_end.mm());
        let share = ((s + tube.front_trim.mm() - from) / (to - from)).clamp(0.0, 1.0);
        let share = if tube.od_front == tube.od_rear { 0.0 } else { share };
        0.5 * (tube.od_front.mm() + share * (tube.od_rear.mm() - tube.od_front.mm()))
    };
    let point = |phi: f64, s: f64| stay.front_point + t * s + side(phi) * radius(s);
    cut.outer
        .iter()
        .map(|one| point(one.phi.radians(), one.s.mm()))
        .map(|p| (along(&p), round(&p).to_degrees()))
        .collect()
}

/// The difference of two angles within half a turn.
fn turned(angle: f64) -> f64 {
    (angle + 180.0).rem_euclid(360.0) - 180.0
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(120))]

    /// No point of the profile lies outside, and some come as near to each limit as points a degree apart must.
    #[test]
    fn landings_hold_the_profile(job in support::good_job()) {
        let plan = solve(&job);
        for at in CutAt::all().filter(|at| at.at_front) {
            let Some(found) = landing(&plan, at) else { continue };
            let Some(cut) = at.cut(&plan).round().filter(|cut| cut.outer.len() == 360) else { continue };
            let places = places(&plan, at);
            let (from, to) = (found.along_from.mm(), found.along_to.mm());
            let middle = found.round_middle.degrees();
            let half = found.round_to.degrees() - middle;
            let (mut low, mut high, mut widest) = (f64::INFINITY, f64::NEG_INFINITY, 0.0f64);
            for (along, round) in places {
                prop_assert!(from - 1e-6 < along && along < to + 1e-6, "{} {along} {from} {to}", at.key());
                let off = turned(round - middle).abs();
                prop_assert!(off < half + 1e-6, "{} {round} {middle} {half}", at.key());
                (low, high, widest) = (low.min(along), high.max(along), widest.max(off));
            }
            // A degree of φ moves a smooth edge's extreme by less than a hundredth of its extent, but for a cut that runs out along the tube.
            if cut.angle.degrees() > 20.0 && cut.contact == staywright::plan::Contact::Full && !cut.feathers {
                prop_assert!(low - from < 0.02 * (to - from) && to - high < 0.02 * (to - from));
                prop_assert!(half - widest < 0.05 * half.max(1.0));
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    /// Left and right changed over: along a shell from its other face, round a seat tube the other way.
    #[test]
    fn mirrored_ends_land_mirrored(job in support::good_job()) {
        let mut turned = job.clone();
        for name in PairName::ALL {
            let pair = turned.pair_mut(name);
            if let Some(left) = pair.left.as_mut() {
                std::mem::swap(left, &mut pair.right);
            }
        }
        let (plan, other_plan) = (solve(&job), solve(&turned));
        for at in CutAt::all().filter(|at| at.at_front) {
            let other = landing(&other_plan, CutAt { hand: at.hand.other(), ..at });
            let found = landing(&plan, at);
            prop_assert_eq!(found.is_some(), other.is_some());
            let (Some(found), Some(other)) = (found, other) else { continue };
            let across = at.cut(&plan).round().is_some_and(|cut| cut.axis_direction.y.abs() > 0.5);
            let width = job.frame.shell_width.mm();
            let close = |a: f64, b: f64| (a - b).abs() < 1e-6;
            if across {
                prop_assert!(close(found.along_from.mm(), width - other.along_to.mm()));
                prop_assert!(close(turned_by(found.round_from.degrees(), other.round_from.degrees()), 0.0));
            } else {
                prop_assert!(close(found.along_from.mm(), other.along_from.mm()));
                prop_assert!(close(turned_by(found.round_from.degrees(), -other.round_to.degrees()), 0.0));
            }
        }
    }
}

fn turned_by(one: f64, other: f64) -> f64 {
    turned(one - other)
}

/// Against small steps.
#[test]
fn derivatives_run_through_landings() {
    let job = starting_job();
    let read = |found: &Landing| {
        [
            found.along_to.mm(),
            found.round_from.degrees(),
            found.vent_max.unwrap().mm(),
            found.axis_round.unwrap().degrees(),
        ]
    };
    for (path, pair) in [
        ("frame.bb_drop_mm", PairName::Chainstays),
        ("frame.seat_angle_deg", PairName::Seatstays),
        ("chainstays.right.front.half_spacing_mm", PairName::Chainstays),
    ] {
        let touched = job.map("", &mut |at, _, value| Dual64::new(value, if at == path { 1.0 } else { 0.0 }));
        let at = front(pair, Hand::Right);
        let dual = landing(&solve(&touched), at).unwrap();
        let told = [
            dual.along_to.mm().eps,
            dual.round_from.degrees().eps,
            dual.vent_max.unwrap().mm().eps,
            dual.axis_round.unwrap().degrees().eps,
        ];
        let (value, step) = (job.figure(path).unwrap(), 1e-4);
        let near = |by: f64| read(&landing(&solve(&job.with_figure(path, value + by)), at).unwrap());
        for ((more, less), told) in near(step).into_iter().zip(near(-step)).zip(told) {
            let slope = (more - less) / (2.0 * step);
            assert!((slope - told).abs() < 2e-4, "{path}: {slope} {told}");
        }
    }
}
