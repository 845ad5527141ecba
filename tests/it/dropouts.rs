//! Dropouts: what follows from a part for the stays, what stays do that do not follow it, and faults.
//!
//! Expectations are worked out here by plane trigonometry from the words of the contract, or are closed forms.

use crate::support;
use proptest::prelude::*;
use serde_json::{Value, json};
use staywright::link::{decode, encode};
use staywright::model::{
    Dropout, DropoutKind, EndKind, Group, Hand, Job, Level, PairName, starting_dropouts, starting_job,
};
use staywright::placement::{plan, solve};
use staywright::plan::{Code, Plan, faults};
use staywright::tolerance::sensitivities;

const SAME: f64 = 1e-9;

fn near(one: f64, other: f64) {
    assert!((one - other).abs() < SAME, "{one} is not {other}");
}

fn plate(more: Value) -> Value {
    let tab = json!({ "distance_mm": 32, "depth_mm": 16, "overhang_mm": 4 });
    let mut part = json!({ "kind": "plate", "thickness_mm": 7, "chainstay": tab, "seatstay": tab });
    merge(&mut part, more);
    part
}

fn merge(into: &mut Value, from: Value) {
    match (into, from) {
        (Value::Object(into), Value::Object(from)) => {
            from.into_iter().for_each(|(key, value)| merge(into.entry(key).or_insert(Value::Null), value));
        }
        (into, from) => *into = from,
    }
}

/// A job file with a wide slide, `right` as its dropout, and `more`.
fn file(right: Value, more: Value) -> Value {
    let mut file = json!({ "format": 1, "fixture": { "slide_max_mm": 600 }, "dropouts": { "right": right } });
    merge(&mut file, more);
    file
}

fn read(file: &Value) -> Job {
    Job::from_json(&file.to_string()).unwrap_or_else(|faults| panic!("{faults:?}"))
}

fn planned(right: Value, more: Value) -> Plan {
    plan(&read(&file(right, more))).unwrap_or_else(|faults| panic!("{faults:?}"))
}

/// Level of a warning and where it is, by its code.
fn levels(plan: &Plan, code: Code) -> Vec<(String, Level)> {
    let of_code = plan.warnings.iter().filter(|warning| warning.code() == code);
    of_code.map(|warning| (warning.location.key(), warning.level())).collect()
}

fn faulty(file: &Value) -> Vec<String> {
    let faults = Job::from_json(&file.to_string()).and_then(|job| plan(&job).map(|_| ()));
    faults.err().into_iter().flatten().map(|fault| fault.field).collect()
}

/// A hub of 142 in recesses of 3.5 has inner faces 135 apart: the two published ways to give one axle (facts, T13).
#[test]
fn a_hub_of_142_in_recesses_has_inner_faces_135_apart() {
    let plan = planned(plate(json!({ "recess_mm": 3.5 })), json!({ "frame": { "axle_spacing_mm": 142 } }));
    let dropouts = plan.dropouts.as_ref().unwrap();
    near(dropouts.right.inner_face.mm() + dropouts.left.inner_face.mm(), 135.0);
    near(dropouts.right.middle.mm(), 67.5 + 3.5);
    near(plan.job.chainstays.right.rear.half_spacing.mm(), 71.0);
    near(dropouts.spacing_over_hub.mm(), 0.0);
    assert_eq!(levels(&plan, Code::HubSpacing), []);
}

/// In the frame of a pair, `u` along and `w` up, by angles over the horizontal in side view.
struct SideView {
    chainstay: f64,
    seatstay: f64,
}

impl SideView {
    /// Chainstay length, drop, seat angle, station, no setback.
    fn new(job: &Job) -> Self {
        let frame = &job.frame;
        let (length, drop) = (frame.chainstay_length.mm(), frame.bb_drop.mm());
        let axle = ((length * length - drop * drop).sqrt(), drop);
        let (sin, cos) = frame.seat_angle.radians().sin_cos();
        let station = job.seatstay_node.front_station.mm();
        let node = (station * cos, station * sin);
        let rises = |from: (f64, f64)| (axle.1 - from.1).atan2(axle.0 - from.0);
        Self { chainstay: rises((0.0, 0.0)), seatstay: rises(node) }
    }

    /// Reach and rise of a tab point `distance` along a direction `angle` above the way forwards along the chainstays, and `off`
    /// square to it, seen along a pair that rises by `along` over the horizontal.
    fn tab(&self, along: f64, angle: f64, (distance, off): (f64, f64)) -> (f64, f64) {
        // Over the horizontal, rearwards counted: the way forwards along the chainstays is a half turn from u; up turns it back.
        let way = self.chainstay + std::f64::consts::PI - angle;
        let (x, z) = (distance * way.cos(), distance * way.sin());
        let square = way - std::f64::consts::FRAC_PI_2;
        let (x, z) = (x + off * square.cos(), z + off * square.sin());
        (-(x * along.cos() + z * along.sin()), z * along.cos() - x * along.sin())
    }
}

#[test]
fn reach_and_rise_are_those_of_plane_trigonometry() {
    for (turn, tabs, distance, off) in
        [(0.0, 66.0, 32.0, 0.0), (12.0, 70.0, 40.0, -3.0), (-25.0, 55.5, 20.0, 4.0), (90.0, 0.0, 15.0, 0.5)]
    {
        let tab = json!({ "distance_mm": distance, "off_axle_mm": off });
        let part = plate(json!({ "turn_deg": turn, "tabs_deg": tabs, "chainstay": tab, "seatstay": tab }));
        let plan = planned(part, json!({}));
        let view = SideView::new(&plan.job);
        let turn: f64 = f64::to_radians(turn);
        let chain = view.tab(view.chainstay, turn, (distance, off));
        let seat = view.tab(view.seatstay, turn + f64::to_radians(tabs), (distance, off));
        for (pair, (reach, rise)) in [(&plan.job.chainstays, chain), (&plan.job.seatstays, seat)] {
            near(pair.right.rear.reach.mm(), reach);
            near(pair.right.rear.rise.mm(), rise);
        }
    }
}

/// Tabs that point along their lines: the stays stand as far apart as the lines to the axle do. The frame of the facts, §11:
/// the chainstay rises 9.3689°, the seat stay falls 57.498°.
#[test]
fn the_angle_at_the_axle_is_that_of_the_worked_frame() {
    let plan =
        planned(plate(json!({ "tabs_deg": 66.0 })), json!({ "seatstays": { "front_station_mm": 520 } }));
    let side = &plan.dropouts.as_ref().unwrap().right;
    assert!((side.needed_at_axle.degrees() - (9.3689 + 57.498)).abs() < 1e-3);
    let plan = planned(plate(json!({})), json!({ "seatstays": { "front_station_mm": 520 } }));
    let side = &plan.dropouts.as_ref().unwrap().right;
    near(side.stays.degrees(), side.needed_at_axle.degrees());
    assert!(side.tabs_difference.is_none());
    near(side.chainstay.tab_off.unwrap().degrees(), 0.0);
    near(side.seatstay.tab_off.unwrap().degrees(), 0.0);
    near(plan.job.seatstays.right.rear.rise.mm(), 0.0);
    near(plan.job.seatstays.right.rear.reach.mm(), 32.0);
}

#[test]
fn tabs_that_do_not_fit_are_a_check_and_then_a_stop() {
    let fits = planned(plate(json!({})), json!({})).dropouts.unwrap().right.needed_at_axle.degrees();
    for (off, level) in
        [(0.05, None), (-0.5, Some(Level::Check)), (2.0, Some(Level::Check)), (-40.0, Some(Level::Stop))]
    {
        let plan = planned(plate(json!({ "tabs_deg": fits - off })), json!({}));
        let found = levels(&plan, Code::TabsDifference);
        let wanted: Vec<_> = level
            .into_iter()
            .flat_map(|level| ["right", "left"].map(|hand| (format!("seatstays.{hand}.rear"), level)))
            .collect();
        assert_eq!(found, wanted, "{off}");
        let side = plan.dropouts.unwrap().right;
        near(side.tabs_difference.unwrap().degrees(), side.stays.degrees() - (fits - off));
        // The finished stays turn with their tabs, so that they differ by less than the tabs were turned.
        assert!(side.tabs_difference.unwrap().degrees() * off > 0.0);
    }
}

#[test]
fn a_figure_of_a_stay_wins_and_says_what_that_does() {
    for (more, level) in [(0.02, None), (0.3, Some(Level::Check)), (0.6, Some(Level::Stop))] {
        let right = json!({ "rear": { "half_spacing_mm": 74.5 + more } });
        let plan = planned(plate(json!({})), json!({ "chainstays": { "right": right } }));
        let dropouts = plan.dropouts.as_ref().unwrap();
        near(dropouts.spacing_over_hub.mm(), 2.0 * more);
        near(dropouts.spacer_left.mm(), 71.0 + more);
        let found: Vec<Level> = levels(&plan, Code::HubSpacing).into_iter().map(|(_, level)| level).collect();
        assert_eq!(found, level.into_iter().collect::<Vec<_>>());
        near(plan.job.seatstays.left.unwrap_or(plan.job.seatstays.right).rear.half_spacing.mm(), 74.5);
    }
}

/// Its own key, then the right's entered key, then the part, then the default.
#[test]
fn on_the_left_the_rights_entered_figure_comes_before_the_part() {
    let left = plate(json!({ "thickness_mm": 9, "chainstay": { "distance_mm": 40 } }));
    let more = json!({
        "dropouts": { "left": left },
        "chainstays": { "right": { "rear": { "reach_mm": 30, "end": { "depth_mm": 20 } } }, "left": { "rear": { "end": { "depth_mm": 18 } } } },
    });
    let plan = planned(plate(json!({})), more);
    let [right, left] = Hand::ALL.map(|hand| *plan.job.chainstays.side(hand));
    assert_eq!([right.rear.reach.mm(), left.rear.reach.mm()], [30.0, 30.0]);
    near(left.rear.half_spacing.mm(), 71.0 + 4.5);
    near(right.rear.half_spacing.mm(), 71.0 + 3.5);
    let depth = |side: staywright::model::Side| {
        side.rear_end.map("", &mut |_, spec, value| if spec.key == "depth_mm" { value } else { 0.0 })
    };
    assert_eq!(depth(right).kind(), EndKind::Slot);
    let json = serde_json::from_str::<Value>(&plan.job.to_json().to_string()).unwrap();
    assert_eq!(json["chainstays"]["right"]["rear"]["end"]["depth_mm"], 20.0);
    assert_eq!(json["chainstays"]["left"]["rear"]["end"]["depth_mm"], 18.0);
    // The seat stays say nothing: they have no left of their own in the file, yet follow their own part.
    near(plan.job.seatstays.side(Hand::Left).rear.half_spacing.mm(), 71.0 + 4.5);
    near(plan.job.seatstays.side(Hand::Left).rear.reach.mm(), 32.0);
}

#[test]
fn an_axle_off_the_middle_moves_both_dropouts_to_that_side() {
    let more = json!({ "frame": { "axle_offset_mm": 2.5 } });
    let plan = planned(plate(json!({})), more);
    let [right, left] = Hand::ALL.map(|hand| plan.job.chainstays.side(hand).rear.half_spacing.mm());
    near(right, 74.5 + 2.5);
    near(left, 74.5 - 2.5);
    let dropouts = plan.dropouts.as_ref().unwrap();
    near(dropouts.spacer_right.mm() - dropouts.spacer_left.mm(), 5.0);
    assert_eq!(levels(&plan, Code::HubSpacing), []);
}

/// The slot is made for the plate, and the stay stands beside it.
#[test]
fn a_stay_may_stand_outboard_of_its_plate() {
    let tab = json!({ "stay_offset_mm": 1.5 });
    let plan = planned(plate(json!({ "chainstay": tab })), json!({}));
    near(plan.job.chainstays.right.rear.half_spacing.mm(), 74.5 + 1.5);
    let text: Value = support::json(&plan);
    near(text["pairs"]["chainstays"]["right"]["rear"]["from_centre_mm"].as_f64().unwrap(), 74.5);
    near(plan.dropouts.as_ref().unwrap().spacing_over_hub.mm(), 0.0);
    let far = planned(plate(json!({ "chainstay": { "stay_offset_mm": 8 } })), json!({}));
    assert!(levels(&far, Code::SlotOutsideTube).contains(&("chainstays.right.rear".into(), Level::Stop)));
}

/// A level tube of radius `r`, parallel to the centre plane, that meets a cylinder square to it: its edge reaches as far as its
/// sides do, `r` to each side of its axis.
#[test]
fn a_round_dropout_holds_the_whole_of_a_level_stay() {
    for (width, offset, inside) in [(20.0, 0.0, 2.0), (16.0, 0.0, 0.0), (18.0, 2.5, -1.5), (18.0, -2.5, -1.5)]
    {
        let part = json!({ "kind": "round", "od_mm": 25.4, "width_mm": width, "stay_offset_mm": offset });
        let half = 71.0 + width / 2.0 + offset;
        let stay = json!({ "right": {
            "front": { "half_spacing_mm": half, "end": { "kind": "square" } },
            "tube": { "od_front_mm": 16, "od_rear_mm": 16 },
        } });
        let plan = planned(part, json!({ "chainstays": stay, "seatstays": stay }));
        let dropouts = plan.dropouts.as_ref().unwrap();
        for side in [&dropouts.right, &dropouts.left] {
            near(side.inside_by.unwrap().mm(), inside);
            near(side.round_apart.unwrap().mm(), 0.0);
        }
        assert_eq!(levels(&plan, Code::PastMemberEnd).len(), if inside < 0.0 { 4 } else { 0 });
        assert_eq!(levels(&plan, Code::HubSpacing), []);
    }
}

/// A round dropout too narrow for its stays does not reach to their outer sides: named degenerate case.
#[test]
fn a_boss_that_does_not_reach_is_a_stop() {
    let plan = planned(json!({ "kind": "round", "od_mm": 25.4, "width_mm": 5 }), json!({}));
    assert!(plan.dropouts.as_ref().unwrap().right.inside_by.unwrap().mm() < 0.0);
    assert!(levels(&plan, Code::PastMemberEnd).iter().all(|(_, level)| *level == Level::Stop));
    assert!(!levels(&plan, Code::PastMemberEnd).is_empty());
}

#[test]
fn both_stays_are_cut_to_one_round_dropout_wherever_it_sits() {
    let part = json!({ "kind": "round", "od_mm": 25.4, "width_mm": 20, "distance_mm": 18, "turn_deg": 35 });
    let plan = planned(part.clone(), json!({}));
    let [chain, seat] = PairName::ALL.map(|name| plan.pair(name).right.rear_point);
    near(chain.x, seat.x);
    near(chain.z, seat.z);
    near(plan.dropouts.as_ref().unwrap().right.round_apart.unwrap().mm(), 0.0);
    // Moved by one stay alone, along its own line.
    let reach = plan.job.chainstays.right.rear.reach.mm();
    for (by, level) in [(0.5, Level::Check), (1.5, Level::Stop)] {
        let more = json!({ "chainstays": { "right": { "rear": { "reach_mm": reach + by } } } });
        let plan = planned(part.clone(), more);
        near(plan.dropouts.as_ref().unwrap().right.round_apart.unwrap().mm(), by);
        let wanted = ["right", "left"].map(|hand| (format!("seatstays.{hand}.rear"), level));
        assert_eq!(levels(&plan, Code::RoundApart), wanted);
    }
}

#[test]
fn a_plug_must_go_into_its_stay() {
    let plug = |od: f64| json!({ "distance_mm": 30, "plug_od_mm": od });
    let part = |od: f64, splay: Value| {
        let mut part =
            json!({ "kind": "socket", "thickness_mm": 7, "chainstay": plug(od), "seatstay": plug(8.0) });
        merge(&mut part, json!({ "chainstay": { "splay_deg": splay } }));
        part
    };
    // The starting chainstay is 16 mm with a wall of 0.8 at its rear end.
    for (od, clearance) in [(14.3, 0.1), (14.4, 0.0), (14.6, -0.2)] {
        let plan = planned(part(od, Value::Null), json!({}));
        let tab = &plan.dropouts.as_ref().unwrap().right.chainstay;
        near(tab.plug_clearance.unwrap().mm(), clearance);
        assert!(tab.plug_off.unwrap().degrees() < 1e-6);
        let found = levels(&plan, Code::PlugClearance);
        assert_eq!(found.len(), if clearance < 0.0 { 2 } else { 0 });
        assert!(found.iter().all(|(_, level)| *level == Level::Stop));
    }
    // In one plane the two axes differ by what they splay.
    let plan = planned(part(14.3, json!(3.0)), json!({}));
    let stay = &plan.pairs.chainstays.right;
    let off = plan.dropouts.as_ref().unwrap().right.chainstay.plug_off.unwrap();
    near(off.degrees(), (stay.splay.degrees() - 3.0).abs());
}

/// Tabs that point away from their stays: named degenerate case. It is planned, and says so.
#[test]
fn tabs_that_point_apart_are_planned_and_stopped() {
    let plan = planned(plate(json!({ "turn_deg": 180, "tabs_deg": 180 })), json!({}));
    near(plan.job.chainstays.right.rear.reach.mm(), -32.0);
    assert_eq!(levels(&plan, Code::TabsDifference).len(), 2);
    assert!(support::numbers(&support::json(&plan)).iter().all(|(_, number)| number.is_finite()));
}

#[test]
fn what_is_missing_or_does_not_go_together_is_named() {
    let missing = json!({ "kind": "plate", "chainstay": { "distance_mm": 30 }, "seatstay": {} });
    assert_eq!(
        faulty(&file(missing, json!({}))),
        [
            "dropouts.right.thickness_mm",
            "dropouts.right.chainstay.depth_mm",
            "dropouts.right.chainstay.overhang_mm",
            "dropouts.right.seatstay.distance_mm",
            "dropouts.right.seatstay.depth_mm",
            "dropouts.right.seatstay.overhang_mm",
        ]
    );
    assert_eq!(
        faulty(&file(json!({ "kind": "round" }), json!({}))),
        ["dropouts.right.od_mm", "dropouts.right.width_mm"]
    );
    assert_eq!(faulty(&file(json!({ "kind": "hook" }), json!({})))[0], "dropouts.right.kind");
    let square = json!({ "chainstays": { "right": { "rear": { "end": { "kind": "square" } } } } });
    assert_eq!(faulty(&file(plate(json!({})), square)), ["chainstays.right.rear.end.kind"]);
    assert_eq!(
        faulty(&file(plate(json!({ "thickness_mm": 31 })), json!({}))),
        ["dropouts.right.thickness_mm"]
    );
    assert_eq!(faulty(&file(plate(json!({ "width_mm": 31 })), json!({}))), ["dropouts.right.width_mm"]);
    // A stay that would come to lie beyond the centre plane.
    let narrow = json!({ "frame": { "axle_spacing_mm": 60 } });
    let inward = plate(json!({ "chainstay": { "stay_offset_mm": -50 } }));
    assert_eq!(faulty(&file(inward, narrow)), ["chainstays.right.rear.half_spacing_mm"]);
    for odd in
        [json!(7), json!("plate"), json!([]), json!({}), json!({ "right": null }), json!({ "right": [1] })]
    {
        let file = json!({ "format": 1, "dropouts": odd });
        assert!(!faulty(&file).is_empty(), "{file}");
    }
}

#[test]
fn a_left_part_takes_what_it_leaves_out_from_the_right_one_of_its_kind() {
    let left = json!({ "thickness_mm": 5 });
    let job = read(&file(plate(json!({ "recess_mm": 1 })), json!({ "dropouts": { "left": left } })));
    let left = job.dropouts.unwrap().left.unwrap();
    assert_eq!((left.kind(), left.width().mm(), left.recess().mm()), (DropoutKind::Plate, 5.0, 1.0));
    let round = json!({ "kind": "round", "od_mm": 25.4, "width_mm": 20 });
    let job = read(&file(plate(json!({})), json!({ "dropouts": { "left": round } })));
    let ends = Hand::ALL.map(|hand| job.chainstays.side(hand).rear_end.kind());
    assert_eq!(ends, [EndKind::Slot, EndKind::Boss]);
    assert!(faults(&job).is_empty());
}

#[test]
fn a_figure_that_is_set_is_entered_until_it_is_given_back() {
    let (_, part) = starting_dropouts()[0];
    let job = starting_job().with_dropouts(part, None);
    let path = "chainstays.right.rear.reach_mm";
    assert!(job.is_derived(path));
    let mut set = job.with_figure(path, 40.0);
    assert!(!set.is_derived(path));
    assert_eq!(solve(&set).job.chainstays.right.rear.reach.mm(), 40.0);
    set.set_entered(path, false);
    near(solve(&set).job.chainstays.right.rear.reach.mm(), 32.0);
    let other = job.with_figure("dropouts.right.chainstay.distance_mm", 41.0);
    near(solve(&other).job.chainstays.right.rear.reach.mm(), 41.0);
    let dear = Job::default();
    assert!(!dear.is_derived(path) && dear.with_figure(path, 40.0).dropouts.is_none());
}

/// What moves with the axle's offset, against small steps.
#[test]
fn derivatives_run_through_dropouts() {
    let (_, part) = starting_dropouts()[0];
    let job = starting_job().with_dropouts(part, None);
    for path in
        ["frame.axle_offset_mm", "dropouts.right.turn_deg", "dropouts.right.thickness_mm", "frame.bb_drop_mm"]
    {
        let found = sensitivities(&job, path);
        assert!(!found.is_empty(), "{path}");
        let value = job.figure(path).unwrap();
        let step = 1e-4;
        let at = |by: f64| solve(&job.with_figure(path, value + by));
        let (more, less) = (at(step), at(-step));
        for hand in Hand::ALL {
            let of = |plan: &Plan| plan.pairs.chainstays.stay(hand).splay.degrees();
            let slope = (of(&more) - of(&less)) / (2.0 * step);
            let id = format!("chainstays.{}.splay_deg", hand.key());
            let told = found.iter().find(|one| one.figure.id() == id).map_or(0.0, |one| one.per_unit);
            assert!((slope - told).abs() < 1e-6, "{path} {id}: {slope} {told}");
        }
    }
}

fn any_part() -> impl Strategy<Value = Dropout> {
    let kinds = proptest::sample::select(starting_dropouts().map(|(_, part)| part).to_vec());
    (kinds, proptest::collection::vec(0.0..1.0, 24), 0.0..0.3).prop_map(|(part, picks, spread)| {
        let mut picks = picks.into_iter().cycle();
        part.map("", &mut |_, spec, value: f64| {
            let stray = (picks.next().unwrap_or(0.5) - 0.5) * spread * (spec.bounds.max - spec.bounds.min);
            f64::clamp(value + stray, spec.bounds.min, spec.bounds.max)
        })
    })
}

prop_compose! {
    fn any_job_in_parts()(
        job in support::any_job(), right in any_part(), left in proptest::option::of(any_part()),
        entered in proptest::collection::vec(any::<bool>(), 36),
    ) -> Job {
        let mut job = job.with_dropouts(right, left);
        // A file says of two posts in one place what a job does not.
        job.fixture.posts.clear();
        for (path, entered) in job.figures().iter().filter(|(path, ..)| job.is_derived(path)).zip(entered).map(|((path, ..), entered)| (path.clone(), entered)).collect::<Vec<_>>() {
            job.set_entered(&path, entered);
        }
        job
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    /// A job told in parts and the same job told in figures have one plan, to the last bit.
    #[test]
    fn parts_and_figures_give_one_plan(job in any_job_in_parts()) {
        prop_assume!(faults(&job).is_empty());
        let parts = solve(&job);
        let again = solve(&parts.job);
        prop_assert_eq!(support::json(&parts), support::json(&again));
        let mut figures = parts.job.clone();
        figures.dropouts = None;
        // A plate is cut where it lies, beside its stay: no figure of a stay says that.
        let offset = PairName::ALL.into_iter().any(|name| Hand::ALL.into_iter().any(|hand| job.stay_offset(name, hand).mm() != 0.0));
        let pairs = |plan: &Plan| support::json(plan)["pairs"].clone();
        if !offset {
            prop_assert_eq!(pairs(&parts), pairs(&solve(&figures)));
        }
        prop_assert!(support::numbers(&support::json(&parts)).iter().all(|(_, number)| number.is_finite()));
    }

    /// A left part that is the right one again, on stays that are the same, mirrors.
    #[test]
    fn mirrored_parts_give_mirrored_plans(job in support::any_job(), part in any_part()) {
        let mut job = job;
        job.frame.axle_offset = staywright::units::Length::from_mm(0.0);
        (job.chainstays.left, job.seatstays.left) = (None, None);
        let (plain, both) = (job.clone().with_dropouts(part, None), job.with_dropouts(part, Some(part)));
        prop_assume!(faults(&plain).is_empty());
        let (plain, both) = (support::json(&solve(&plain)), support::json(&solve(&both)));
        prop_assert_eq!(&plain["dropouts"], &both["dropouts"]);
        prop_assert_eq!(&plain["pairs"]["chainstays"]["left"], &both["pairs"]["chainstays"]["left"]);
        prop_assert_eq!(&plain["dropouts"]["right"]["chainstay"], &plain["dropouts"]["left"]["chainstay"]);
    }

    /// File and link carry parts, and what is entered beside them.
    #[test]
    fn jobs_in_parts_come_back(job in any_job_in_parts()) {
        prop_assert_eq!(decode(&encode(&job)), Ok(job.clone()));
        prop_assume!(job.faults().is_empty());
        let back = Job::from_json(&job.to_json().to_string());
        let back = back.map_err(|faults| TestCaseError::fail(format!("{faults:?}")))?;
        prop_assert_eq!(back.dropouts, job.dropouts);
        if faults(&job).is_empty() {
            prop_assert_eq!(support::json(&solve(&back)), support::json(&solve(&job)));
        }
    }
}
