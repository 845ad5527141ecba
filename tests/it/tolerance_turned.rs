//! A fixture that stands turned or tilted to the spindle while round dropouts are cut: known figures, a closed form of what
//! finite errors make, and what turning the whole pair leaves alone.

use nalgebra::{Matrix2, Vector2, Vector3};
use staywright::model::{Hand, Job, PairName};
use staywright::placement::plan;
use staywright::plan::Plan;
use staywright::tolerance::{Model, RearEnd};
use staywright::units::Length;

const ROUND: &str = r#"{"format":1,"chainstays":{"right":{"rear":{"end":{"kind":"boss"}}}}}"#;

fn job() -> Job {
    Job::from_json(ROUND).unwrap()
}

/// The results of that name when settings are off by so much.
fn results(rear: &RearEnd, errors: &[(&str, f64)], outcomes: [&str; 3]) -> [f64; 3] {
    let ids: Vec<String> = rear.settings.iter().map(|setting| setting.id()).collect();
    assert!(errors.iter().all(|(id, _)| ids.iter().any(|own| own == id)), "{ids:?}");
    let error = |id: &String| errors.iter().find(|(own, _)| own == id).map_or(0.0, |(_, error)| *error);
    let all = rear.results(&ids.iter().map(error).collect::<Vec<f64>>());
    outcomes.map(|id| all[rear.outcomes.iter().position(|outcome| outcome.id() == id).unwrap()].unwrap())
}

/// By how much a result grows per unit of a setting.
fn slope(rear: &RearEnd, setting: &str, outcome: &str) -> f64 {
    let input = rear.settings.iter().position(|one| one.id() == setting).unwrap();
    let result = rear.outcomes.iter().position(|one| one.id() == outcome).unwrap();
    rear.slopes()[result].as_ref().unwrap().slopes[input]
}

const TURNED: [&str; 3] = ["square", "difference", "lean"];

/// By hand: the dropouts stand 74 either side of the centre line, so that a degree brings one 148 tan 1° = 2.583 further back
/// than the other and turns the wheel by a degree: 622 tan 1° = 10.856 at the rim. The lean follows from the seat stays, which
/// keep their length.
#[test]
fn a_degree_of_rear_turn_turns_the_wheel_by_a_degree() {
    let rear = RearEnd::new(&plan(&job()).unwrap());
    for (outcome, wanted) in TURNED.into_iter().zip([10.856, 2.583, -5.018]) {
        let found = slope(&rear, "chainstays.rear.turn", outcome);
        assert!((found - wanted).abs() < 1e-3, "{outcome}: {found}, wanted {wanted}");
    }
}

/// A pair that is turned as a whole puts the axle aside but leaves it parallel to the shell and both chainstays as long.
#[test]
fn equal_turns_front_and_rear_leave_the_wheel_square() {
    let rear = RearEnd::new(&plan(&job()).unwrap());
    let turns = ["chainstays.front.turn", "chainstays.rear.turn"];
    let both = |outcome| turns.map(|id| slope(&rear, id, outcome)).iter().sum::<f64>();
    assert!(both("square").abs() < 1e-9, "{}", both("square"));
    assert!(both("difference").abs() < 1e-9, "{}", both("difference"));
    assert!(both("off-centre").abs() > 1.0);
    // What is left of finite turns grows with their square.
    let square = |degrees: f64| results(&rear, &turns.map(|id| (id, degrees)), TURNED)[0].abs();
    assert!(square(0.5) < 0.02 && square(0.25) < 0.3 * square(0.5), "{} {}", square(0.25), square(0.5));
}

/// How far back and up the rear cut's line runs from where it should, at its place nearest to the stay. The line goes through its
/// place on the centre line; the stay runs straight between its reference points.
fn strays(plan: &Plan, hand: Hand, turn: f64, tilt: f64) -> Vector2<f64> {
    let stay = plan.pair(PairName::Chainstays).stay(hand);
    let (front, rear) = (stay.clamp.local(&stay.front_point), stay.clamp.local(&stay.rear_point));
    let (line, along) = (Vector3::new(turn.to_radians().tan(), 1.0, tilt.to_radians().tan()), rear - front);
    let from_rear = Vector3::new(0.0, -rear.y, 0.0);
    // The gap between both lines, from_rear + s·line − t·along, is square to both.
    let squares = Matrix2::new(line.dot(&line), -line.dot(&along), -line.dot(&along), along.dot(&along));
    let parts = squares.try_inverse().unwrap() * Vector2::new(-from_rear.dot(&line), from_rear.dot(&along));
    Vector2::new(line.x, line.z) * parts.x
}

/// Where a point lies that is so far from two others, near a third: Newton's steps on both distances.
fn crossing([a, b]: [Vector2<f64>; 2], [ra, rb]: [f64; 2], near: Vector2<f64>) -> Vector2<f64> {
    let step = |at: Vector2<f64>| {
        let (from_a, from_b) = (at - a, at - b);
        let rows = Matrix2::from_rows(&[from_a.normalize().transpose(), from_b.normalize().transpose()]);
        at - rows.try_inverse().unwrap() * Vector2::new(from_a.norm() - ra, from_b.norm() - rb)
    };
    (0..20).fold(near, |at, _| step(at))
}

/// Square, difference and lean of a chainstay pair whose rear line is turned and tilted: each dropout goes with its cut, each
/// chainstay turns about the shell and each seat stay about the seat tube until they meet.
fn by_distances(plan: &Plan, turn: f64, tilt: f64) -> [f64; 3] {
    let axle = Vector2::new(plan.axle.x, plan.axle.z);
    let seat = plan.pair(PairName::Seatstays).stay(Hand::Right);
    let along = (seat.rear_point - seat.front_point).normalize();
    let foot = seat.front_point + along * seat.front.round().unwrap().axis_station.unwrap().mm();
    let up = plan.seat_tube_direction;
    let hinge = plan.seat_tube_foot + up * (foot - plan.seat_tube_foot).dot(&up);
    let anchors = [Vector2::zeros(), Vector2::new(hinge.x, hinge.z)];
    let [right, left] = Hand::ALL.map(|hand| {
        let clamp = &plan.pair(PairName::Chainstays).stay(hand).clamp;
        let told = clamp.local(&plan.axle);
        let reach = (Vector2::new(told.x, told.z) + strays(plan, hand, turn, tilt)).norm();
        (reach, crossing(anchors, [reach, (axle - anchors[1]).norm()], axle))
    });
    let spacing = 2.0 * plan.job.chainstays.right.rear.half_spacing.mm();
    let (back, rim) = (axle.normalize(), plan.job.wheel.bead_seat.mm());
    let apart = (right.1 - left.1) * (rim / spacing);
    [apart.dot(&back), right.0 - left.0, -apart.dot(&Vector2::new(-back.y, back.x))]
}

/// The axle stands on the stay plane, or above it where the rear ends are lower. Only there a tilt, which lifts one cut and lowers the
/// other, makes one stay longer than the other.
#[test]
fn finite_turns_and_tilts_are_those_of_distances() {
    for rise in [0.0, -25.0] {
        let mut job = job();
        job.chainstays.right.rear.rise = Length::from_mm(rise);
        let plan = plan(&job).unwrap();
        let rear = RearEnd::new(&plan);
        for (turn, tilt) in [(0.4, 0.0), (-1.3, 0.0), (0.0, 0.7), (0.0, -0.3), (0.6, -0.5)] {
            let errors = [("chainstays.rear.turn", turn), ("chainstays.rear.tilt", tilt)];
            let found = results(&rear, &errors, TURNED);
            for (found, wanted) in found.into_iter().zip(by_distances(&plan, turn, tilt)) {
                assert!((found - wanted).abs() < 1e-6, "{rise} {turn} {tilt}: {found}, wanted {wanted}");
            }
            let counts = turn != 0.0 || rise != 0.0;
            assert_eq!(counts, found.iter().any(|one| one.abs() > 0.02), "{rise} {turn} {tilt}: {found:?}");
        }
    }
}
