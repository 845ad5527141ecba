//! Reach, table room and collisions: by hand, against the plan's own depths, and against dense sampling over the stroke.

use crate::support;

use nalgebra::{Point3, Vector3};
use proptest::prelude::*;
use staywright::machining::{Near, Placed, Standing, Stroke, Turning, nearest, stub_extent, table_room};
use staywright::model::shop::{Axis, HoleSaw, Shop, demo_shop};
use staywright::model::{Hand, Job, PairName, starters};
use staywright::placement::plan;
use staywright::plan::{CutAt, Plan};
use staywright::units::Length;

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

const FRONT: CutAt = CutAt { pair: PairName::Chainstays, hand: Hand::Right, at_front: true };

/// The cuts made in one setting with `at`: both stays' where the pair is symmetrical.
fn pass(plan: &Plan, at: CutAt) -> Vec<CutAt> {
    let both = plan.job.pair(at.pair).left.is_none();
    if both { Hand::ALL.map(|hand| CutAt { hand, ..at }).to_vec() } else { vec![at] }
}

fn saw(depth: f64, reach: f64) -> HoleSaw {
    let mut saw = demo_shop().hole_saws[5];
    saw.cutting = Some(mm(40.0));
    saw.size.depth = mm(depth);
    saw.arbor.reach = mm(reach);
    saw
}

/// Plain tubes side by side, square to the shell: everything is on the round.
fn square_job() -> Job {
    let mut job = Job::default();
    let side = &mut job.chainstays.right;
    side.rear.half_spacing = side.front.half_spacing;
    side.tube.od_rear = side.tube.od_front;
    side.tube.wall = mm(0.8);
    job
}

/// The saw, 40 mm, goes across two tubes of 22.2 mm that lie 21 mm off the centre plane: from 32.1 to −32.1.
#[test]
fn a_square_pair_by_hand() {
    let plan = plan(&square_job()).unwrap();
    let mut shop = demo_shop();
    shop.mill.body.run_out = mm(2.0);
    shop.mill.body.run_in = mm(5.0);
    let [.., z] = &mut shop.mill.axes;
    z.travel = mm(70.0);
    let stroke = Stroke::new(&plan, &shop, &pass(&plan, FRONT), mm(40.0)).unwrap();
    let near = |a: f64, b: f64| assert!((a - b).abs() < 1e-9, "{a} {b}");
    near(stroke.high, 32.1);
    near(stroke.low, -32.1);
    near(stroke.length().mm(), 64.2 + 7.0);
    let reach = stroke.reach(&shop, &saw(38.0, 20.0));
    near(reach.through.mm(), 58.0 - 66.2);
    near(reach.bottom.mm(), 38.0 - 22.2);
    near(reach.all_stubs.mm(), 38.0 - 66.2);
    near(reach.travel.mm(), 70.0 - 71.2);
    // A tube that runs right through the saw at a slant fills more of it: 2·R/tan θ + d/sin θ.
    let stay = Placed::new(&plan, FRONT);
    let theta = 30f64.to_radians();
    let cutter = staywright::geometry::Line {
        point: stay.axis.at(200.0),
        direction: (stay.axis.direction * theta.cos() + Vector3::z() * theta.sin()).normalize(),
    };
    let known = 40.0 / theta.tan() + 22.2 / theta.sin();
    near(stub_extent(&stay, &cutter, 20.0).unwrap().mm(), known);
}

/// The shell's axis lies at u = 0 in the stay plane; a post 25 mm wide at 60 mm starts at 47.5; the bed ends 12 mm above the
/// base face, which is 40 mm below the stay plane.
#[test]
fn gaps_by_hand() {
    let plan = plan(&square_job()).unwrap();
    let mut shop = demo_shop();
    let stroke = Stroke::new(&plan, &shop, &pass(&plan, FRONT), mm(40.0)).unwrap();
    let gap = |shop: &Shop, part, body, saw: &HoleSaw| -> Near {
        let found = nearest(&plan, shop, &stroke, saw);
        *found.iter().find(|near| near.part == part && near.body == body).unwrap()
    };
    let long = saw(38.0, 80.0);
    let near = |a: f64, b: f64| assert!((a - b).abs() < 2e-6, "{a} {b}");
    near(gap(&shop, Turning::Saw, Standing::Post(1, Hand::Right), &long).gap.mm(), 47.5 - 20.0);
    near(gap(&shop, Turning::Saw, Standing::Bed, &long).gap.mm(), 28.0 - 20.0);
    near(gap(&shop, Turning::Saw, Standing::Block, &long).gap.mm(), 120f64.hypot(20.0) - 20.0);
    // At the end the holder's face, 22.5 mm thick, is 38 + 80 mm above the teeth, these 2 mm past −32.1: at 83.9. The
    // post's top face across is at 21 + 18 = 39, on the side that is away from or next to the spindle.
    let holder = gap(&shop, Turning::Holder, Standing::Post(1, Hand::Left), &long);
    near(holder.gap.mm(), (47.5 - 22.5f64).hypot(83.9 - 39.0));
    // A short arbor takes the nose, 42.5 mm, down beside the post: 5 mm are left. A bed 6 mm higher meets the holder.
    let short = saw(38.0, 20.0);
    near(
        gap(&shop, Turning::Nose, Standing::Post(1, Hand::Left), &saw(38.0, 0.0)).gap.mm(),
        (47.5 - 42.5f64).hypot(53.9 - 39.0),
    );
    shop.fixture.bed.thickness = mm(18.0);
    let met = gap(&shop, Turning::Holder, Standing::Bed, &short);
    assert_eq!(met.gap, mm(0.0));
    // The bed is 64 mm wide: its edge towards the spindle is at 32. The holder's face ends at 23.9: 8.1 mm too far.
    near(met.goes.unwrap().mm(), stroke.length().mm() - 8.1);
}

/// The holder, thicker than the saw, comes down over the stays that the saw has cut: their tops lie at 32.1, its face at
/// 83.9. What is no thicker than the saw passes them in the room that the saw has made.
#[test]
fn what_is_thicker_than_the_saw_can_meet_the_stays_it_cuts() {
    let plan = plan(&square_job()).unwrap();
    let shop = demo_shop();
    let stroke = Stroke::new(&plan, &shop, &pass(&plan, FRONT), mm(40.0)).unwrap();
    let found = nearest(&plan, &shop, &stroke, &saw(38.0, 80.0));
    let to_stays: Vec<&Near> = found.iter().filter(|near| matches!(near.body, Standing::Stay(_))).collect();
    assert!(to_stays.iter().all(|near| matches!(near.part, Turning::Holder | Turning::Nose)));
    let left =
        to_stays.iter().find(|near| near.part == Turning::Holder && near.body == Standing::Stay(Hand::Left));
    assert!((left.unwrap().gap.mm() - (83.9 - 32.1)).abs() < 2e-6, "{left:?}");
}

#[test]
fn the_table_must_reach_from_the_touch_to_every_cut() {
    let plan = plan(&Job::default()).unwrap();
    let mut shop = Shop::default();
    shop.mill.axes[0].travel = mm(50.0);
    let room = table_room(&plan, &shop, &[FRONT]);
    // The datum edge is 60 mm before the shell's axis, the edge finder 10 mm thick.
    assert!((room.along.mm() - 65.0).abs() < 1e-9 && (room.along_left.mm() + 15.0).abs() < 1e-9);
    assert!((room.across.mm() - 45.0).abs() < 1e-9 && (room.across_left.mm() - 355.0).abs() < 1e-9);
    shop.mill.lies_along = Axis::Y;
    assert!(table_room(&plan, &shop, &[FRONT]).along_left.mm() > 0.0);
}

/// What the plan says a saw must reach, which is held against a CAD kernel, is what the stroke goes through.
#[test]
fn the_stroke_goes_through_the_plans_depth() {
    let shop = demo_shop();
    for starter in starters() {
        let plan = plan(&starter.job).unwrap();
        for at in CutAt::all() {
            let Some(cut) = at.cut(&plan).round() else { continue };
            let alone = Stroke::new(&plan, &shop, &[at], cut.cutter).unwrap();
            assert!((alone.high - alone.low - cut.saw_depth.unwrap().mm()).abs() < 1e-7, "{}", at.key());
            let pair = plan.pair(at.pair);
            let shared = if at.at_front { pair.front_saw_depth } else { pair.rear_saw_depth };
            let both =
                Stroke::new(&plan, &shop, &Hand::ALL.map(|hand| CutAt { hand, ..at }), cut.cutter).unwrap();
            assert!((both.high - both.low - shared.unwrap().mm()).abs() < 1e-7, "{}", at.key());
        }
    }
}

/// Points all over the faces of a box given by its corners.
fn face_points(low: [f64; 3], high: [f64; 3], step: f64) -> Vec<Point3<f64>> {
    let spots = |from: f64, to: f64| {
        let count = ((to - from) / step).ceil().max(1.0) as usize;
        (0..=count).map(move |i| from + (to - from) * i as f64 / count as f64)
    };
    let mut points = Vec::new();
    for axis in 0..3 {
        let (b, c) = ((axis + 1) % 3, (axis + 2) % 3);
        for side in [low[axis], high[axis]] {
            for s in spots(low[b], high[b]) {
                for t in spots(low[c], high[c]) {
                    let mut point = [0.0; 3];
                    (point[axis], point[b], point[c]) = (side, s, t);
                    points.push(Point3::from(point));
                }
            }
        }
    }
    points
}

/// The machine at one place of the stroke, built again from the shop's figures: radius and stations above the teeth.
fn machine(shop: &Shop, saw: &HoleSaw, radius: f64) -> Vec<(Turning, f64, f64, f64)> {
    let body = &shop.mill.body;
    let (depth, reach, neck) = (saw.size.depth.mm(), saw.arbor.reach.mm(), saw.arbor.neck_length.mm());
    let holder = depth + reach + body.holder_length.mm();
    vec![
        (Turning::Saw, 0.0, depth, radius),
        (Turning::Neck, depth, depth + neck, saw.arbor.neck.mm() / 2.0),
        (Turning::Shank, depth + neck, depth + reach, saw.arbor.shank.mm() / 2.0),
        (Turning::Holder, depth + reach, holder, body.holder.mm() / 2.0),
        (Turning::Nose, holder, holder + body.nose_length.mm(), body.nose.mm() / 2.0),
    ]
}

/// Points of a body that stands in the fixture, from the shop's and the plan's figures.
fn body_points(plan: &Plan, shop: &Shop, at: CutAt, body: Standing) -> Vec<Point3<f64>> {
    let bench = &plan.job.fixture.bench;
    let base = -bench.clamp_height.mm();
    match body {
        Standing::Bed => {
            let bed = &shop.fixture.bed;
            let half = bed.width.mm() / 2.0;
            face_points([bed.front.mm(), -half, base], [bed.rear.mm(), half, base + bed.thickness.mm()], 3.0)
        }
        Standing::Block => {
            let (block, half) = (&shop.fixture.block, bench.block_width.mm() / 2.0);
            face_points(
                [block.front.mm(), -half, base],
                [block.rear.mm(), half, base + block.thickness.mm()],
                3.0,
            )
        }
        Standing::Post(count, hand) => {
            let post = &plan.pair(at.pair).posts[count - 1];
            let (out, sign) = if hand == Hand::Right {
                (post.right.unwrap().mm(), 1.0)
            } else {
                (post.left.unwrap().mm(), -1.0)
            };
            let (u, v, size) = (post.u.mm(), sign * out, &shop.fixture.post);
            let (a, b) = (size.along.mm() / 2.0, size.across.mm() / 2.0);
            face_points([u - a, v - b, base], [u + a, v + b, size.above.mm()], 2.0)
        }
        Standing::Axle | Standing::Stay(_) => Vec::new(),
    }
}

/// The saw is followed down its stroke step by step; the nearest of many points of each body to each part is set
/// against the gap. Out of the work is up from the base in a tilted setting, and towards the chosen side on its side.
fn check_sampled(plan: &Plan, shop: &Shop, at: CutAt) -> usize {
    let cut = at.cut(plan).round().unwrap();
    let saw = saw(41.0, 30.0);
    let Some(stroke) = Stroke::new(plan, shop, &pass(plan, at), cut.cutter) else { return 0 };
    let clamp = at.stay(plan).clamp;
    let axis_point = clamp.local(&cut.axis_point);
    let mut out = clamp.local_direction(&cut.axis_direction);
    let side = if shop.mill.side_to_spindle == Hand::Right { 1.0 } else { -1.0 };
    if (cut.setting.on_side && out.y * side < 0.0) || (!cut.setting.on_side && out.z < 0.0) {
        out = -out;
    }
    let found = nearest(plan, shop, &stroke, &saw);
    let mut seen = 0;
    for (part, from, to, radius) in machine(shop, &saw, cut.cutter.mm() / 2.0) {
        for near in found.iter().filter(|near| near.part == part) {
            let points = body_points(plan, shop, at, near.body);
            if points.is_empty() {
                continue;
            }
            let mut least = f64::INFINITY;
            for gone in 0..=20 {
                let teeth =
                    stroke.high + shop.mill.body.run_in.mm() - stroke.length().mm() * f64::from(gone) / 20.0;
                for point in &points {
                    let to_point = point.coords - axis_point;
                    let along = to_point.dot(&out);
                    let aside = (to_point - out * along).norm() - radius;
                    let beyond = (teeth + from - along).max(along - teeth - to).max(0.0);
                    least = least.min(aside.max(0.0).hypot(beyond));
                }
            }
            assert!(near.gap.mm() <= least + 1e-5, "{} {near:?} {least}", at.key());
            assert!(least - near.gap.mm() < 5.0, "{} {near:?} {least}", at.key());
            seen += 1;
        }
    }
    seen
}

#[test]
fn gaps_agree_with_dense_sampling_over_the_stroke() {
    let mut seen = 0;
    for starter in starters() {
        for side in Hand::ALL {
            let mut shop = demo_shop();
            shop.mill.side_to_spindle = side;
            let plan = plan(&starter.job).unwrap();
            for at in CutAt::all().filter(|at| at.cut(&plan).round().is_some()) {
                seen += check_sampled(&plan, &shop, at);
            }
        }
    }
    assert!(seen > 300, "{seen}");
}

/// A pair that is cut one stay at a time: the saw that comes out of one stay can run into the other.
#[test]
fn the_stay_that_is_not_cut_is_in_the_way() {
    let mut job = square_job();
    let mut left = job.chainstays.right;
    left.front.half_spacing = mm(30.0);
    left.rear.half_spacing = mm(30.0);
    job.chainstays.left = Some(left);
    let plan = plan(&job).unwrap();
    let mut shop = demo_shop();
    shop.mill.body.run_out = mm(4.0);
    shop.mill.side_to_spindle = Hand::Right;
    let gap = |shop: &Shop| {
        let stroke = Stroke::new(&plan, shop, &[FRONT], mm(40.0)).unwrap();
        let found = nearest(&plan, shop, &stroke, &saw(41.0, 80.0));
        found
            .iter()
            .find(|near| near.part == Turning::Saw && near.body == Standing::Stay(Hand::Left))
            .unwrap()
            .gap
    };
    // The saw stops 4 mm behind the right tube, at 5.9; the left tube begins at −18.9.
    assert!((gap(&shop).mm() - 24.8).abs() < 2e-6, "{:?}", gap(&shop));
    shop.mill.body.run_out = mm(30.0);
    assert_eq!(gap(&shop), mm(0.0));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]
    /// Whatever the job: figures that are numbers, gaps that are not negative.
    #[test]
    fn any_job_on_the_machine(job in support::good_job()) {
        let plan = plan(&job).unwrap();
        let shop = demo_shop();
        for at in CutAt::all() {
            let Some(stroke) = Stroke::new(&plan, &shop, &[at], mm(40.0)) else { continue };
            let reach = stroke.reach(&shop, &saw(40.0, 60.0));
            for figure in [reach.through, reach.bottom, reach.all_stubs, reach.travel] {
                prop_assert!(figure.mm().is_finite());
            }
            for near in nearest(&plan, &shop, &stroke, &saw(40.0, 60.0)) {
                prop_assert!(near.gap.mm() >= 0.0 && near.gap.mm().is_finite());
                prop_assert_eq!(near.goes.is_some(), near.gap.mm() == 0.0);
            }
        }
    }
}
