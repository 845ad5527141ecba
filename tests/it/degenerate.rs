//! Every case in which a figure does not exist, or a cut cannot be made, is a named result.

use serde_json::{Value, json};
use staywright::files::plan_json;

/// The plan of the starting job, its hub as wide as its plates are apart, with `changes`, each a dotted path and a value.
fn planned(changes: &[(&str, Value)]) -> Value {
    let mut job = json!({ "format": 1, "frame": { "axle_spacing_mm": 143 } });
    for (path, value) in changes {
        let mut at = &mut job;
        for key in path.split('.') {
            at = &mut at[key];
        }
        *at = value.clone();
    }
    let plan: Value = serde_json::from_str(&plan_json(&job.to_string())).unwrap();
    assert!(plan.get("errors").is_none(), "{plan}");
    plan
}

/// Asserts that exactly these codes stand at that place.
fn check(plan: &Value, place: &str, codes: &[&str]) {
    let found: Vec<&str> = plan["warnings"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|warning| warning["where"] == place)
        .map(|warning| warning["code"].as_str().unwrap())
        .collect();
    assert_eq!(found, codes, "{place}");
}

const FRONT: &str = "chainstays.right.front";

fn front(plan: &Value) -> &Value {
    &plan["pairs"]["chainstays"]["right"]["front"]
}

#[test]
fn a_stay_beside_the_tube_it_is_coped_onto_has_no_cut() {
    // A chainstay raised well above the shell, running parallel to the line of the axle.
    let plan = planned(&[
        ("chainstays.right.front.rise_mm", json!(60)),
        ("chainstays.right.rear.rise_mm", json!(60)),
    ]);
    check(&plan, FRONT, &["no_contact"]);
    let cut = front(&plan);
    assert_eq!(cut["contact"], "none");
    assert_eq!(cut["misses"], json!([{ "from_deg": 0.0, "to_deg": 360.0 }]));
    for key in ["long_point_mm", "short_point_mm", "gap_mm", "push_mm", "saw_depth_mm"] {
        assert!(cut[key].is_null(), "{key}");
    }
    assert_eq!(cut["outer"], json!([]));
    assert!(plan["pairs"]["chainstays"]["right"]["tip_to_tip_mm"].is_null());
    // The axes still have an angle and a distance.
    assert!((cut["offset_mm"].as_f64().unwrap() - 60.0).abs() < 1e-9);
}

#[test]
fn a_stay_that_grazes_the_top_of_the_shell_touches_at_a_point() {
    // Zero splay lays the stay's lowest line square across the shell, 20 + 11.1 above its axis.
    let rise = json!(20.0 + 11.1);
    let plan = planned(&[
        ("chainstays.right.front.rise_mm", rise.clone()),
        ("chainstays.right.rear.rise_mm", rise),
        ("chainstays.right.rear.half_spacing_mm", json!(21)),
        ("chainstays.right.tube.od_rear_mm", json!(22.2)),
    ]);
    check(&plan, FRONT, &["touch_only"]);
    let cut = front(&plan);
    assert_eq!(cut["contact"], "touch");
    assert!(cut["long_point_mm"].as_f64().unwrap().abs() < 1e-3);
    assert!(cut["saw_depth_mm"].as_f64().unwrap().abs() < 1e-3);
}

#[test]
fn a_stay_partly_beside_the_shell_is_cut_on_one_side_only() {
    let plan = planned(&[
        ("chainstays.right.front.rise_mm", json!(15)),
        ("chainstays.right.rear.rise_mm", json!(15)),
    ]);
    check(&plan, FRONT, &["partial_contact"]);
    let misses = front(&plan)["misses"].as_array().unwrap();
    assert_eq!(misses.len(), 1);
    // The missing range lies about φ = 0, the top: it starts left of it and runs over a whole turn.
    let (from, to) = (misses[0]["from_deg"].as_f64().unwrap(), misses[0]["to_deg"].as_f64().unwrap());
    assert!(180.0 < from && from < 360.0 && 360.0 < to && to < 540.0, "{from} {to}");
    assert!((from + to - 720.0).abs() < 1e-9, "even on both sides of the top");
    // By hand: the generator at φ clears the shell where 15 + 11.1 cos φ = 20.
    let limit = ((20.0_f64 - 15.0) / 11.1).acos().to_degrees();
    assert!((to - 360.0 - limit).abs() < 1e-6, "{to} {limit}");
}

#[test]
fn axes_that_run_parallel_are_named() {
    let plan = planned(&parallel_chainstay());
    check(&plan, FRONT, &["axes_parallel"]);
    let cut = front(&plan);
    assert_eq!(cut["contact"], "parallel");
    assert!(cut["axis_station_mm"].is_null());
    assert!(cut["angle_deg"].as_f64().unwrap().abs() < 1e-6);
    assert_eq!(cut["offset_mm"].as_f64().unwrap(), 21.0);
    assert!(cut["outer"].as_array().unwrap().is_empty());
}

/// A chainstay with no splay whose line has the seat tube's own slope: the seat tube at 45°, the axle 45° below the shell.
fn parallel_chainstay() -> Vec<(&'static str, Value)> {
    vec![
        ("frame.chainstay_length_mm", json!(250.0)),
        ("frame.bb_drop_mm", json!(200.0)),
        ("frame.seat_angle_deg", json!(200f64.asin_of(250.0))),
        ("chainstays.right.rear.half_spacing_mm", json!(21)),
        ("chainstays.right.front.end", json!({ "kind": "cope", "onto": "seat_tube" })),
    ]
}

trait AsinOf {
    fn asin_of(self, hypotenuse: f64) -> f64;
}

impl AsinOf for f64 {
    /// The angle, in degrees, whose sine is this over `hypotenuse`.
    fn asin_of(self, hypotenuse: f64) -> f64 {
        (self / hypotenuse).asin().to_degrees()
    }
}

#[test]
fn a_stay_without_splay_is_cut_square() {
    let plan = planned(&[
        ("chainstays.right.rear.half_spacing_mm", json!(21)),
        ("chainstays.right.tube.od_rear_mm", json!(22.2)),
    ]);
    let stay = &plan["pairs"]["chainstays"]["right"];
    assert_eq!(stay["splay_deg"].as_f64().unwrap(), 0.0);
    let cut = front(&plan);
    assert_eq!(cut["angle_deg"].as_f64().unwrap(), 90.0);
    // By hand: the shell's radius on the sides of the stay, the saddle's depth on top.
    assert!((cut["short_point_mm"].as_f64().unwrap() - 20.0).abs() < 1e-12);
    let top = (20.0_f64.powi(2) - 11.1_f64.powi(2)).sqrt();
    assert!((cut["long_point_mm"].as_f64().unwrap() - top).abs() < 1e-12);
    assert!((cut["saw_depth_mm"].as_f64().unwrap() - 22.2).abs() < 1e-9);
}

#[test]
fn a_saw_slimmer_than_the_stay_is_named() {
    let cutter = json!({ "kind": "cope", "onto": "shell", "cutter_mm": 20 });
    let plan = planned(&[("chainstays.right.front.end", cutter)]);
    check(&plan, FRONT, &["partial_contact", "cutter_smaller_than_stay", "cutter_smaller_than_member"]);
}

fn message(plan: &Value, place: &str, code: &str) -> String {
    let all = plan["warnings"].as_array().unwrap();
    let found = all.iter().find(|one| one["where"] == place && one["code"] == code);
    found.unwrap_or_else(|| panic!("{all:?}"))["message"].as_str().unwrap().to_owned()
}

/// By hand: the stay meets its member where the axes are nearer than both radii together, and all of it does where they are
/// nearer than the one less the other.
#[test]
fn a_saw_of_another_size_hides_no_member_that_is_passed_by() {
    let cope = |cutter: f64| json!({ "kind": "cope", "onto": "shell", "cutter_mm": cutter });
    let raised = |rise: f64, cutter: f64| {
        let plan = planned(&[
            ("chainstays.right.front.rise_mm", json!(rise)),
            ("chainstays.right.rear.rise_mm", json!(rise)),
            ("chainstays.right.front.end", cope(cutter)),
        ]);
        assert!((front(&plan)["offset_mm"].as_f64().unwrap() - rise).abs() < 1e-9);
        plan
    };
    // Past 20 + 11.1.
    for cutter in [45.0, 200.0] {
        let plan = raised(32.0, cutter);
        check(&plan, FRONT, &["no_contact"]);
        assert!(message(&plan, FRONT, "no_contact").contains("misses the shell"));
        assert!(front(&plan)["gap_mm"].is_null());
    }
    // Between 20 - 11.1 and 20 + 11.1.
    let plan = raised(27.0, 200.0);
    check(&plan, FRONT, &["partial_contact", "cutter_larger_than_member"]);
    assert!(message(&plan, FRONT, "partial_contact").contains("contact with the shell: no seat from"));
    // Within 20 - 11.1, a saw of 20 above leaves part of the tube.
    let plan = raised(8.0, 36.0);
    assert!(message(&plan, FRONT, "partial_contact").contains("contact with the saw"));
    // Nearer than 20 + 11.1, further than 2 + 11.1.
    let plan = raised(15.0, 4.0);
    check(&plan, FRONT, &["no_contact"]);
    assert!(message(&plan, FRONT, "no_contact").contains("the tube misses the saw of 4 mm"));
}

#[test]
fn a_taper_that_begins_inside_the_cut_is_named() {
    let plan = planned(&[("chainstays.right.tube.taper_start_mm", json!(28))]);
    check(&plan, FRONT, &["taper_in_cut"]);
    assert!(message(&plan, FRONT, "taper_in_cut").starts_with("the taper begins or ends inside the cut, "));
    assert!(message(&plan, FRONT, "taper_in_cut").ends_with("mm behind the front reference point"));
}

/// By hand: the saw of 40 leaves the front end between 16 and 21 mm behind the reference point; the oval begins at 28 − 10.
#[test]
fn an_oval_that_begins_inside_the_cut_is_no_taper() {
    let oval = json!([{ "from_mm": 28, "to_mm": 60, "blend_mm": 5, "width_mm": 20, "height_mm": 22 }]);
    let plan =
        planned(&[("chainstays.right.tube.ovals", oval), ("chainstays.right.tube.front_trim_mm", json!(10))]);
    let said = message(&plan, FRONT, "taper_in_cut");
    assert!(said.starts_with("an oval begins or ends inside the cut, "), "{said}");
}

#[test]
fn a_cut_past_the_end_of_the_raw_tube_is_named() {
    let plan = planned(&[("chainstays.right.tube.front_trim_mm", json!(-30))]);
    check(&plan, FRONT, &["cut_past_tube_end"]);
    let plan = planned(&[("chainstays.right.tube.length_mm", json!(400))]);
    check(&plan, "chainstays.right.rear", &["cut_past_tube_end"]);
}

#[test]
fn tubes_that_run_into_each_other_are_named() {
    let plan = planned(&[("seatstays.right.front.half_spacing_mm", json!(0.5))]);
    assert!(plan["pairs"]["seatstays"]["room_between_mm"].as_f64().unwrap() < 0.0);
    check(&plan, "seatstays", &["stays_collide", "slide_out_of_range"]);
    assert!(message(&plan, "seatstays", "stays_collide").starts_with("the right and the left tube run"));
}

#[test]
fn tubes_that_would_meet_only_where_they_are_coped_away_are_told_apart() {
    let plan = planned(&[("seatstays.right.front.half_spacing_mm", json!(4.5))]);
    check(&plan, "seatstays", &["stays_collide", "slide_out_of_range"]);
    assert!(message(&plan, "seatstays", "stays_collide").starts_with("with ends cut square"));
    // By hand: at its short point the stay, 12.7 mm thick, is whole all round and clear of the middle plane.
    let stay = &plan["pairs"]["seatstays"]["right"];
    let figure = |value: &Value| value.as_f64().unwrap();
    let splay = figure(&stay["splay_deg"]).to_radians();
    let y = 4.5 + splay.sin() * figure(&stay["front"]["short_point_mm"]);
    assert!(y > 6.35 * splay.cos(), "{y}");
}

#[test]
fn sides_with_planes_of_their_own_are_named() {
    let plan = planned(&[("chainstays.left.rear.rise_mm", json!(8))]);
    check(&plan, "chainstays", &["sides_apart"]);
    let pair = &plan["pairs"]["chainstays"];
    assert_eq!(pair["one_plane"], false);
    assert!(pair["posts"][0]["inside_mm"].is_null());
    assert_eq!(pair["slide_mm"], pair["right"]["slide_mm"]);
    assert_ne!(pair["axle_height_mm"], pair["left"]["axle_height_mm"]);
}

#[test]
fn readings_outside_the_fixture_are_named() {
    let plan = planned(&[
        ("fixture.slide_max_mm", json!(400)),
        ("fixture.axle_height_min_mm", json!(5)),
        ("fixture.posts_u_mm", json!([5, 900])),
    ]);
    check(
        &plan,
        "chainstays",
        &["post_off_stay", "post_off_stay", "slide_out_of_range", "axle_height_out_of_range"],
    );
    assert!(plan["pairs"]["chainstays"]["posts"][1]["right_mm"].is_null());
}

#[test]
fn a_slot_outside_the_tube_or_too_deep_is_named() {
    let plan = planned(&[("chainstays.right.rear.end", json!({ "kind": "slot", "plate_mm": 20 }))]);
    check(&plan, "chainstays.right.rear", &["slot_outside_tube", "slot_outside_tube"]);
    let plan = planned(&[
        ("chainstays.right.rear.reach_mm", json!(200)),
        ("frame.chainstay_length_mm", json!(300)),
        ("chainstays.right.rear.end", json!({ "kind": "slot", "depth_mm": 120, "overhang_mm": -60 })),
    ]);
    let codes = plan["warnings"].as_array().unwrap();
    assert!(codes.iter().any(|w| w["code"] == "slot_too_deep"), "{codes:?}");
    assert!(codes.iter().any(|w| w["code"] == "cuts_overlap"), "{codes:?}");
}

#[test]
fn an_edge_thinner_than_the_wall_is_named() {
    let plan = planned(&[("seatstays.right.front.half_spacing_mm", json!(7.7))]);
    check(&plan, "seatstays.right.front", &["grazing_cut"]);
}

#[test]
fn the_upper_end_of_a_tilted_fixture_is_part_of_the_answer() {
    let plan = planned(&[]);
    let cut = &plan["pairs"]["seatstays"]["right"]["front"];
    assert_eq!(cut["on_side"], false);
    // The seat tube leans back less than the seat stays do: its top leans towards the front datum.
    assert_eq!(cut["end_up"], "front");
    assert_eq!(front(&plan)["on_side"], true);
    assert_eq!(front(&plan)["end_up"], "level");
}

#[test]
fn a_saw_that_seats_just_where_the_tube_passes_by_gives_both_sides_their_fit() {
    // Found by chance: the seat lies at the limit of the contact, on one side across the 0° of the tube.
    let plan = planned(&[
        ("frame.chainstay_length_mm", json!(430.426_334_944_452_26)),
        ("frame.bb_drop_mm", json!(66.181_284_213_260_17)),
        ("frame.seat_angle_deg", json!(72.1)),
        ("frame.seat_tube_setback_mm", json!(-2.933_058_255_076_89)),
        ("frame.seat_tube_od_mm", json!(26.8)),
        ("chainstays.right.front.half_spacing_mm", json!(19.538_969_104_610_14)),
        ("chainstays.right.front.rise_mm", json!(-4.185_765_922_494_785)),
        (
            "chainstays.right.front.end",
            json!({ "kind": "cope", "onto": "seat_tube", "cutter_mm": 38.707_094_032_773_19 }),
        ),
        ("chainstays.right.rear.half_spacing_mm", json!(78.552_509_699_017_29)),
        ("chainstays.right.rear.rise_mm", json!(-6)),
        ("chainstays.right.rear.reach_mm", json!(26)),
        ("chainstays.right.tube.od_front_mm", json!(20.28)),
        ("chainstays.right.tube.od_rear_mm", json!(14.08)),
        ("chainstays.right.tube.taper_start_mm", json!(126)),
        ("chainstays.right.tube.taper_end_mm", json!(356)),
        ("chainstays.right.tube.length_mm", json!(406.4)),
        ("chainstays.right.tube.front_trim_mm", json!(-6)),
    ]);
    for key in ["gap_mm", "push_mm"] {
        let [right, left] =
            ["right", "left"].map(|side| plan["pairs"]["chainstays"][side]["front"][key].as_f64());
        assert!(right.zip(left).is_some_and(|(a, b)| (a - b).abs() < 1e-7), "{key} {right:?} {left:?}");
    }
}
