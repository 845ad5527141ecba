//! Job files with bends, butts and what turns beside the stays: there and back, and what is wrong with them.

use proptest::prelude::*;
use staywright::model::{
    Bend, Bends, Butt, Butts, Columns, Group, Job, Ovals, Press, Ring, SolveFor, Surroundings,
};
use staywright::units::{Angle, Length};

fn bend() -> impl Strategy<Value = Bend> {
    (0.0..100.0, -360.0..360.0, 0.0..40.0, 60.0..300.0).prop_map(|(before, rotation, angle, radius)| Bend {
        before: Length::from_mm(before),
        rotation: Angle::from_degrees(rotation),
        angle: Angle::from_degrees(angle),
        radius: Length::from_mm(radius),
    })
}

fn bends() -> impl Strategy<Value = Bends> {
    let list = proptest::collection::vec(bend(), 0..4);
    (list, -360.0..360.0, 0usize..4).prop_map(|(list, roll, find)| {
        let mut bends = Bends::of(list);
        bends.roll = bends.roll.map(|_| Angle::from_degrees(roll));
        bends.find = if bends.list.is_empty() { SolveFor::Nothing } else { SolveFor::ALL[find] };
        bends
    })
}

fn butts() -> impl Strategy<Value = Butts> {
    proptest::collection::vec(0.3..2.0, 0..4).prop_map(|walls| {
        let butt = |(i, wall): (usize, f64)| Butt {
            at: Length::from_mm(70.0 * i as f64),
            wall: Length::from_mm(wall),
        };
        Butts { list: walls.into_iter().enumerate().map(butt).collect() }
    })
}

fn ovals() -> impl Strategy<Value = Ovals> {
    proptest::collection::vec((5.0..40.0, 5.0..40.0, -360.0..360.0), 0..3).prop_map(|all| {
        let press = |(i, (width, height, roll)): (usize, (f64, f64, f64))| Press {
            from: Length::from_mm(150.0 * i as f64),
            to: Length::from_mm(150.0 * i as f64 + 50.0),
            width: Length::from_mm(width),
            height: Length::from_mm(height),
            roll: Angle::from_degrees(roll),
            ..Press::default()
        };
        Ovals { list: all.into_iter().enumerate().map(press).collect() }
    })
}

fn surroundings() -> impl Strategy<Value = Option<Surroundings>> {
    (any::<[bool; 5]>(), 0usize..4, 0.0..1.0).prop_map(|(there, rings, share)| {
        let mut all = Surroundings::starting();
        all.rings = std::iter::repeat_n(Ring::default(), rings).collect();
        all.crank = all.crank.filter(|_| there[1]);
        all.sprocket = all.sprocket.filter(|_| there[2]);
        all.rotor = all.rotor.filter(|_| there[3]);
        all.posts = there[1].then(Columns::default);
        all.measured_width = there[4].then_some(Length::from_mm(41.0));
        let stray =
            |spec: &staywright::model::Spec| spec.bounds.min + share * (spec.bounds.max - spec.bounds.min);
        there[0].then(|| all.map("", &mut |_, spec, _| stray(spec)))
    })
}

fn job() -> impl Strategy<Value = Job> {
    let stay = || (bends(), butts(), ovals());
    (stay(), proptest::option::of(stay()), surroundings()).prop_map(|(right, left, surroundings)| {
        let mut job = Job { surroundings, ..Job::default() };
        let pair = &mut job.chainstays;
        (pair.right.tube.bends, pair.right.tube.butts, pair.right.tube.ovals) = right;
        pair.left = left.map(|(bends, butts, ovals)| {
            let mut side = pair.right;
            (side.tube.bends, side.tube.butts, side.tube.ovals) = (bends, butts, ovals);
            side
        });
        job
    })
}

proptest! {
    #[test]
    fn a_job_comes_back_from_its_file(job in job()) {
        let text = job.to_json().to_string();
        if job.faults().is_empty() {
            prop_assert_eq!(Job::from_json(&text), Ok(job));
        } else {
            prop_assert_eq!(Job::from_json(&text).unwrap_err(), job.faults());
        }
    }

    #[test]
    fn every_figure_has_its_path(job in job()) {
        for (path, _, value) in job.figures() {
            prop_assert_eq!(job.figure(&path), Some(value));
            prop_assert_eq!(job.with_figure(&path, 7.5).figure(&path), Some(7.5));
        }
    }
}

#[test]
fn a_bend_is_named_by_its_place() {
    let file =
        r#"{"format":1,"chainstays":{"right":{"tube":{"bends":[{},{"angle_deg":12}],"find":"both"}}}}"#;
    let job = Job::from_json(file).unwrap();
    assert_eq!(job.figure("chainstays.right.tube.bends[1].angle_deg"), Some(12.0));
    assert_eq!(job.figure("chainstays.right.tube.roll_deg"), Some(0.0));
    assert_eq!(job.chainstays.right.tube.bends.find, SolveFor::Both);
}

#[test]
fn a_left_stay_is_bent_as_the_right_unless_told_otherwise() {
    let file = |left: &str| {
        let right = r#"{"bends":[{"angle_deg":12}],"butts":[{"at_mm":90}],"roll_deg":30}"#;
        format!(r#"{{"format":1,"chainstays":{{"right":{{"tube":{right}}},"left":{{"tube":{left}}}}}}}"#)
    };
    let left = |text: &str| Job::from_json(&file(text)).unwrap().chainstays.left.unwrap().tube;
    assert_eq!(left("{}").bends.roll, Some(Angle::from_degrees(30.0)));
    assert_eq!(left("{}").butts.list.len(), 1);
    let straight = left(r#"{"bends":[],"butts":[]}"#);
    assert_eq!((straight.bends, straight.butts), (Bends::default(), Butts::default()));
}

fn check(tube: &str, expected: &[&str]) {
    let file = format!(r#"{{"format":1,"chainstays":{{"right":{{"tube":{tube}}}}}}}"#);
    let found: Vec<String> = Job::from_json(&file)
        .unwrap_err()
        .iter()
        .map(|one| staywright::text::fault(one, staywright::text::Style::FILE))
        .collect();
    assert_eq!(found, expected);
}

#[test]
fn faults_say_what_would_do() {
    let at = "chainstays.right.tube";
    check(
        r#"{"bends":[{"radius_mm":11}]}"#,
        &[&format!(
            "{at}.bends[0].radius_mm: bend radius 11 mm must be more than half the tube's diameter, 11.1 mm"
        )],
    );
    // 420 straight and a twelfth of a turn on 150: 420 + 150·π/6.
    check(
        r#"{"bends":[{"before_mm":420,"angle_deg":30}]}"#,
        &[&format!(
            "{at}.length_mm: tube length 430 mm must be at least the end of its last bend, 498.54 mm"
        )],
    );
    check(r#"{"roll_deg":3}"#, &[&format!("{at}.roll_deg: a straight tube has no roll: leave it out")]);
    check(
        r#"{"butts":[{"at_mm":90},{"at_mm":80,"wall_mm":8}]}"#,
        &[
            &format!(
                "{at}.butts[1].wall_mm: wall 8 mm leaves no bore in a tube of 16 mm: less than 8 mm is needed"
            ),
            &format!("{at}.butts[1].at_mm: butt station 80 mm must lie behind the one before, 90 mm"),
        ],
    );
    // The first is round again 40 behind its end, the second begins its blend 20 ahead of its start: −1 + 40 + 20.
    check(
        r#"{"ovals":[{"to_mm":-1},{"from_mm":50,"to_mm":80,"blend_mm":20}]}"#,
        &[
            &format!("{at}.ovals[0].to_mm: oval end −1 mm must lie at or behind oval start 0 mm"),
            &format!(
                "{at}.ovals[1].from_mm: oval start 50 mm must lie at or behind the end of the oval before with both blends, 59 mm"
            ),
        ],
    );
    check(
        r#"{"bends":{}}"#,
        &[&format!("{at}.bends: a list of objects [ {{ … }} ] belongs here, not an object of 0 keys")],
    );
    check(
        r#"{"bends":[{},{},{},{},{},{},{},{},{}]}"#,
        &[
            &format!("{at}.bends: 9 entries are given; 0 to 8 are allowed"),
            &format!(
                "{at}.length_mm: tube length 430 mm must be at least the end of its last bend, 1127.552 mm"
            ),
        ],
    );
}
