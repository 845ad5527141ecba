//! What does not fit together on the bicycle: hub and dropouts, shell and stays, saw and member, and what a job says in vain.

use serde_json::{Value, json};
use staywright::link::{decode, encode};
use staywright::model::{End, Hand, Job, Level, PairName, Slot, SolveFor};
use staywright::placement::plan;
use staywright::plan::{Mate, Plan, Problem};
use staywright::units::{Angle, Length};

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

fn planned(changes: Value) -> Plan {
    let mut file = json!({ "format": 1 });
    for (key, value) in changes.as_object().unwrap() {
        file[key] = value.clone();
    }
    plan(&Job::from_json(&file.to_string()).unwrap()).unwrap()
}

fn found(plan: &Plan, wanted: fn(&Problem) -> bool) -> Vec<(Problem, Level)> {
    let all = plan.warnings.iter().filter(|warning| wanted(&warning.problem));
    all.map(|warning| (warning.problem.clone(), warning.level())).collect()
}

const fn of_hub(problem: &Problem) -> bool {
    matches!(
        problem,
        Problem::DropoutsOffHub { .. }
            | Problem::DropoutOffHubFace { .. }
            | Problem::RoundDropoutInsideHub { .. }
            | Problem::EndBesideHubFace { .. }
    )
}

/// By hand: plates of 6 whose middles stand 74 from the centre plane are 2 · (74 − 3) = 142 apart on the inside.
#[test]
fn the_hub_is_held_against_the_plates_inner_faces() {
    let rear = |half: f64| json!({ "right": { "rear": { "half_spacing_mm": half, "end": { "kind": "slot", "plate_mm": 6, "clearance_mm": 0.3 } } } });
    let of = |hub: f64, half: f64| {
        let plan = planned(
            json!({ "frame": { "axle_spacing_mm": hub }, "chainstays": rear(half), "seatstays": rear(half) }),
        );
        found(&plan, of_hub)
    };
    let apart = |between: f64, hub: f64, level| {
        vec![(Problem::DropoutsOffHub { between: mm(between), hub: mm(hub) }, level); 2]
    };
    assert_eq!(of(142.0, 74.0), []);
    assert_eq!(of(142.0, 74.02), []);
    assert_eq!(of(142.0, 74.5), apart(143.0, 142.0, Level::Check));
    assert_eq!(of(142.0, 75.0), apart(144.0, 142.0, Level::Stop));
    assert_eq!(of(200.0, 74.0), apart(142.0, 200.0, Level::Stop));
    assert_eq!(of(100.0, 74.0), apart(142.0, 100.0, Level::Stop));
}

/// A plate that splays by 5° is bent somewhere within the 32 from the stay's end to the axle: its inner face lies up to 32·tan 5° further
/// out, 2.8 on each side. A hub within that fits; one beyond is off by the rest.
#[test]
fn a_plate_that_splays_leaves_the_hub_a_range() {
    let of = |hub: f64| {
        let rear = json!({ "right": { "rear": { "end": { "plate_mm": 6, "plate_splay_deg": 5 } } } });
        let plan =
            planned(json!({ "frame": { "axle_spacing_mm": hub }, "chainstays": rear, "seatstays": rear }));
        found(&plan, of_hub)
    };
    let most = 142.0 + 64.0 * 5f64.to_radians().tan();
    assert_eq!((of(142.0), of(147.5)), (vec![], vec![]));
    for (problem, level) in of(150.0) {
        let Problem::DropoutsOffHub { between, .. } = problem else { panic!("{problem:?}") };
        assert!((between.mm() - most).abs() < 1e-9 && level == Level::Stop, "{between:?} {most}");
    }
    assert_eq!(of(150.0).len(), 2);
}

/// Stays of 16 side by side along the fixture meet a round dropout from 66 to 82 off the centre plane: a hub of 132 just clears
/// them, one of 142 stands 5 in them.
#[test]
fn a_round_dropout_carries_the_whole_miter() {
    let of = |hub: f64| {
        let stay = json!({ "right": {
            "front": { "half_spacing_mm": 74, "end": { "kind": "square" } },
            "rear": { "half_spacing_mm": 74, "end": { "kind": "boss", "boss_mm": 30 } },
            "tube": { "od_front_mm": 16, "od_rear_mm": 16 } } });
        let plan =
            planned(json!({ "frame": { "axle_spacing_mm": hub }, "chainstays": stay, "seatstays": stay }));
        found(&plan, of_hub)
    };
    assert_eq!((of(132.0), of(100.0)), (vec![], vec![]));
    let inside = of(142.0);
    assert_eq!(inside.len(), 4);
    for (problem, level) in inside {
        let Problem::RoundDropoutInsideHub { by } = problem else { panic!("{problem:?}") };
        assert!((by.mm() - 5.0).abs() < 1e-9 && level == Level::Stop, "{by:?}");
    }
}

/// Of a square end the tube alone is known: here it ends from 66 to 82 off the centre plane.
#[test]
fn a_square_end_is_looked_at_where_the_hubs_face_is_beside_it() {
    let of = |hub: f64| {
        let stay = json!({ "right": {
            "front": { "half_spacing_mm": 74, "end": { "kind": "square" } },
            "rear": { "half_spacing_mm": 74, "end": { "kind": "square" } },
            "tube": { "od_front_mm": 16, "od_rear_mm": 16 } } });
        let plan =
            planned(json!({ "frame": { "axle_spacing_mm": hub }, "chainstays": stay, "seatstays": stay }));
        found(&plan, of_hub)
    };
    assert_eq!((of(142.0), of(163.0)), (vec![], vec![]));
    for (hub, by) in [(200.0, -18.0), (120.0, 6.0)] {
        let beside = of(hub);
        assert_eq!(beside.len(), 4);
        for (problem, level) in beside {
            let Problem::EndBesideHubFace { by: is } = problem else { panic!("{problem:?}") };
            assert!((is.mm() - by).abs() < 1e-9 && level == Level::Check, "{is:?} {by}");
        }
    }
}

/// One side slotted, the other one not: each is held against its own half of the hub.
#[test]
fn unlike_rear_ends_are_looked_at_one_by_one() {
    let pair = |half: f64| {
        json!({ "right": { "rear": { "half_spacing_mm": half, "end": { "kind": "slot", "plate_mm": 6 } } },
                "left": { "rear": { "half_spacing_mm": 74, "end": { "kind": "square" } } } })
    };
    let plan = planned(json!({ "chainstays": pair(73.5), "seatstays": pair(74.0) }));
    assert_eq!(found(&plan, of_hub), [(Problem::DropoutOffHubFace { by: mm(-0.5) }, Level::Check)]);
}

/// Tubes of 22 square to a shell of 73: their footprints reach from 10 to 32 and from 41 to 63 off the middle, where the shell
/// ends at 36.5.
#[test]
fn a_stay_past_the_end_of_the_shell_is_a_stop_with_the_figure() {
    let of = |half: f64| {
        let stay = json!({ "right": {
            "front": { "half_spacing_mm": half }, "rear": { "half_spacing_mm": half },
            "tube": { "od_front_mm": 22, "od_rear_mm": 22 } } });
        planned(json!({ "chainstays": stay }))
    };
    let past = |problem: &Problem| matches!(problem, Problem::PastMateEnd { .. });
    let figure =
        |plan: &Plan, hand| plan.pairs.chainstays.stay(hand).front.round().unwrap().past_end.unwrap().mm();
    for hand in Hand::ALL {
        assert!((figure(&of(21.0), hand) + 4.5).abs() < 1e-9);
        assert!((figure(&of(52.0), hand) - 26.5).abs() < 1e-9);
    }
    assert_eq!((found(&of(21.0), past), found(&of(25.5), past)), (vec![], vec![]));
    let stops = found(&of(52.0), past);
    assert_eq!(stops.len(), 2);
    for (problem, level) in stops {
        let Problem::PastMateEnd { mate, by } = problem else { panic!("{problem:?}") };
        assert!(mate == Mate::Shell && (by.mm() - 26.5).abs() < 1e-9 && level == Level::Stop);
    }
    // The seat tube has no end that is known, and a slot none at all.
    let plan = of(21.0);
    assert_eq!(plan.pairs.seatstays.right.front.round().unwrap().past_end, None);
}

/// A saw of 200 on a shell of 40 leaves a gap: seen along the shell, the tube's edge of radius 11.1 is cut to a circle of 100 and held
/// against one of 20. The gap at the tube's middle is the difference of the two sagittas, 20 − √(20² − 11.1²) − (100 − √(100² − 11.1²)).
#[test]
fn a_saw_far_larger_than_the_member_is_named() {
    let of = |saw: f64| {
        let front =
            json!({ "half_spacing_mm": 21, "end": { "kind": "cope", "onto": "shell", "cutter_mm": saw } });
        let stay = json!({ "right": { "front": front, "rear": { "half_spacing_mm": 21 }, "tube": { "od_rear_mm": 22.2 } } });
        found(&planned(json!({ "chainstays": stay })), |problem| {
            matches!(problem, Problem::SawOverMate { .. })
        })
    };
    assert_eq!((of(40.0), of(40.5)), (vec![], vec![]));
    let large = of(200.0);
    assert_eq!(large.len(), 2);
    let sagitta = |radius: f64| radius - (radius * radius - 11.1f64 * 11.1).sqrt();
    for (problem, level) in large {
        let Problem::SawOverMate { saw, mate, diameter, gap } = problem else { panic!("{problem:?}") };
        assert_eq!((saw, mate, diameter, level), (mm(200.0), Mate::Shell, mm(40.0), Level::Stop));
        // The nearest points of a wider cut lie aslant: the gap is a little less than along the tube.
        let along = sagitta(20.0) - sagitta(100.0);
        assert!(gap.mm() > 0.7 * along && gap.mm() <= along + 1e-9, "{gap:?} {along}");
    }
}

/// A link may hold what a file may not: it opens, and the plan says what has no effect.
#[test]
fn what_a_link_says_in_vain_is_found() {
    let mut job = Job::default();
    job.fixture.posts = [60.0, 330.0, 60.0].map(mm).to_vec();
    job.chainstays.right.tube.bends.find = SolveFor::Both;
    let job = decode(&encode(&job)).unwrap();
    let all = plan(&job).unwrap().warnings;
    let has = |problem: &Problem| all.iter().filter(|warning| warning.problem == *problem).count();
    assert_eq!(has(&Problem::PostsTogether { post: mm(60.0) }), PairName::ALL.len());
    assert_eq!(has(&Problem::NothingToFind), Hand::ALL.len());
    let butted = |wall: f64| {
        let tube = json!({ "wall_mm": wall, "butts": [{ "at_mm": 100, "wall_mm": 0.9 }, { "at_mm": 150, "wall_mm": 0.6 }] });
        let plan = planned(json!({ "chainstays": { "right": { "tube": tube } } }));
        found(&plan, |problem| matches!(problem, Problem::WallUnused { .. }))
    };
    assert_eq!(butted(0.9), []);
    assert_eq!(butted(1.2), vec![(Problem::WallUnused { wall: mm(1.2) }, Level::Note); 2]);
}

/// The axis crosses the post on straight tube, the jaw's place beside it does not. A bend of 40° after 100 mm of straight tube lies
/// across the fixture; a post before it holds the tube, and one just there has the outer or the inner jaw on the bend.
#[test]
fn a_jaw_on_a_bend_is_marked() {
    let tube =
        json!({ "length_mm": 460, "bends": [{ "before_mm": 120, "angle_deg": 20, "radius_mm": 100 }] });
    let marks = |post: f64| {
        let plan = planned(
            json!({ "chainstays": { "right": { "tube": tube } }, "fixture": { "posts_u_mm": [post] } }),
        );
        let post = plan.pairs.chainstays.posts[0];
        (post.right_straight.unwrap().map(|left| left.mm()), post.inside_on_bend, post.outside_on_bend)
    };
    let (mut one_jaw, mut none, mut on) = (0, 0, 0);
    for step in 0..200 {
        let ([before, behind], inside, outside) = marks(60.0 + f64::from(step));
        let straight = before > 0.0 && behind > 0.0;
        // Nothing of a tube of 22.2 lies further along it than this from where its middle crosses, at less than 45° to the fixture.
        let far = before.min(behind) > 22.2;
        assert!(!(far && (inside || outside)), "{step}");
        assert!(straight || (inside && outside), "{step}");
        none += i32::from(!inside && !outside);
        one_jaw += i32::from(inside != outside);
        on += i32::from(!straight);
    }
    assert!(one_jaw > 2 && none > 20 && on > 5, "{one_jaw} {none} {on}");
}

#[test]
fn a_new_slot_has_a_clearance_and_one_of_a_file_none() {
    assert_eq!((Slot::start().clearance, Slot::default().clearance), (mm(0.1), mm(0.0)));
    let file = r#"{"format":1,"chainstays":{"right":{"rear":{"end":{"kind":"slot"}}}}}"#;
    let End::Slot(slot) = Job::from_json(file).unwrap().chainstays.right.rear_end else { panic!("a slot") };
    assert_eq!((slot, slot.plate_splay), (Slot::default(), Angle::from_degrees(0.0)));
}
