//! Scenes: closed bodies, true volumes, and hidden surfaces hidden from every side.

use fastrand::Rng;
use nalgebra::{Point3, Rotation3, Vector3};
use staywright::drawing::Point;
use staywright::drawing::scene::{
    Loft, Material, PaintedFacet, Scene, SceneBody, ScenePart, Solid, Turn, block, pipe, prism, rear_end,
    rounded_prism, turned, turned_ring,
};
use staywright::geometry::Line;
use staywright::model::{Bend, Bends, End, Hand, Job, Ovals, PairName, Press, Surroundings, starters};
use staywright::placement::solve;
use staywright::units::{Angle, Length, LengthUnit};
use std::f64::consts::{PI, TAU};

const AXES: [Vector3<f64>; 3] =
    [Vector3::new(1.0, 0.0, 0.0), Vector3::new(0.0, 1.0, 0.0), Vector3::new(0.0, 0.0, 1.0)];

fn cube(middle: [f64; 3], halves: [f64; 3]) -> Solid {
    block(Point3::from(middle), AXES, halves)
}

fn scene(solids: Vec<Solid>) -> Scene {
    let body = |(number, solid)| SceneBody {
        part: ScenePart::Other(number),
        material: Material::Stay,
        solid,
        framed: true,
    };
    Scene::new(String::new(), (0..).zip(solids).map(body).collect())
}

fn turn(yaw: f64, pitch: f64) -> Turn {
    Turn::new(Angle::from_degrees(yaw), Angle::from_degrees(pitch))
}

fn any_turn(rng: &mut Rng) -> Turn {
    turn(rng.f64() * 360.0, rng.f64() * 180.0 - 90.0)
}

/// The plane section of `sides` corners on a circle of radius 1: what a turned body has of the circle's area π.
fn polygon_area(sides: u32) -> f64 {
    f64::from(sides) / 2.0 * (TAU / f64::from(sides)).sin()
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * b.abs().max(1.0)
}

fn every_shape() -> Vec<(Solid, f64, i64)> {
    let axis = Line { point: Point3::new(3.0, -5.0, 7.0), direction: Vector3::new(0.6, 0.0, 0.8) };
    let square = [[0.0, 0.0], [4.0, 0.0], [4.0, 3.0], [0.0, 3.0]].map(|[x, y]| Point3::new(x, y, 1.0));
    // Pappus: the section's area times the way of its middle; both have the share of the circle that their corners leave.
    let (wide, high, middle) = (16.0, 20.0, 330.0);
    let ellipse: Vec<(f64, f64)> = (0..12)
        .map(|step| (TAU * f64::from(step) / 12.0).sin_cos())
        .map(|(sin, cos)| (-wide * cos, middle + high * sin))
        .collect();
    let torus = 2.0 * middle * polygon_area(12) * wide * high * polygon_area(60);
    vec![
        (cube([1.0, 2.0, 3.0], [2.0, 3.0, 5.0]), 240.0, 2),
        (prism(&square, Vector3::z() * 2.0), 24.0, 2),
        (rounded_prism(&square, Vector3::z() * 2.0), 24.0, 2),
        (turned(&axis, &[(0.0, 5.0), (10.0, 5.0)], 24), polygon_area(24) * 250.0, 2),
        // A frustum: h/3 (R² + Rr + r²).
        (turned(&axis, &[(0.0, 5.0), (9.0, 2.0)], 24), polygon_area(24) * 3.0 * 39.0, 2),
        (pipe(&axis, (-4.0, 6.0), (5.0, 4.0), 32), polygon_area(32) * 90.0, 0),
        (turned_ring(&axis, &ellipse, 60), torus, 0),
    ]
}

/// Solid geometry: edges twice, Euler's formula (2 for a ball, 0 for a ring), volumes by closed forms.
#[test]
fn shapes_are_closed_and_hold_what_they_should() {
    for (number, (solid, volume, euler)) in every_shape().into_iter().enumerate() {
        let edges = solid.edges().unwrap_or_else(|| panic!("shape {number} is open"));
        let count = |n: usize| i64::try_from(n).unwrap();
        let found = count(solid.points.len()) - count(edges.len()) + count(solid.facets.len());
        assert_eq!(found, euler, "shape {number}");
        assert!(near(solid.volume(), volume), "shape {number}: {} and not {volume}", solid.volume());
    }
}

#[test]
fn a_body_with_a_facet_missing_or_turned_round_is_not_closed() {
    let mut open = cube([0.0; 3], [1.0; 3]);
    open.facets.pop();
    assert_eq!(open.edges(), None);
    let mut inside_out = cube([0.0; 3], [1.0; 3]);
    inside_out.facets[2].corners.reverse();
    assert_eq!(inside_out.edges(), None);
}

fn area(outline: &[Point]) -> f64 {
    let next = outline.iter().cycle().skip(1);
    outline.iter().zip(next).map(|(a, b)| b.x * a.y - a.x * b.y).sum::<f64>() / 2.0
}

/// Cauchy: what a convex body covers is half the sum of what all its facets do, each by the cosine of its turn.
#[test]
fn what_is_painted_of_a_convex_body_is_its_shadow() {
    let mut rng = Rng::with_seed(5);
    for _ in 0..50 {
        let axis = any_axis(&mut rng);
        let solid = turned(&axis, &[(-20.0, 6.0), (15.0, 9.0)], 24);
        let turn = any_turn(&mut rng);
        let towards = towards(turn);
        let doubled = |facet| {
            let corners: Vec<Point3<f64>> = solid.corners(facet);
            let fan = corners.windows(2).map(|w| (w[0] - corners[0]).cross(&(w[1] - corners[0])));
            fan.sum::<Vector3<f64>>().dot(&towards).abs()
        };
        let shadow = solid.facets.iter().map(doubled).sum::<f64>() / 4.0;
        let painted: f64 = scene(vec![solid.clone()]).painted(turn).iter().map(|f| area(&f.corners)).sum();
        assert!((painted - shadow).abs() < 1e-6 * shadow, "{painted} {shadow}");
    }
}

/// The direction to the viewer, from what yaw and pitch mean: from +y towards −x, and up.
fn towards(turn: Turn) -> Vector3<f64> {
    let (yaw, pitch) = (turn.yaw.radians(), turn.pitch.radians());
    Vector3::new(-yaw.sin() * pitch.cos(), yaw.cos() * pitch.cos(), pitch.sin())
}

fn any_axis(rng: &mut Rng) -> Line {
    let mut part = || rng.f64() * 2.0 - 1.0;
    let point = Point3::new(30.0 * part(), 30.0 * part(), 30.0 * part());
    Line { point, direction: Vector3::new(part(), part(), part() + 1.5).normalize() }
}

/// Tubes, rings, blocks and plates that run through each other.
fn any_scene(rng: &mut Rng) -> Scene {
    let solids = (0..rng.usize(2..7)).map(|_| {
        let axis = any_axis(rng);
        match rng.u8(0..5) {
            0 => pipe(&axis, (-60.0 * rng.f64(), 50.0), (14.0, 11.0), 24),
            1 => turned_ring(&axis, &[(-3.0, 30.0), (-3.0, 44.0), (5.0, 40.0)], 20),
            2 => turned(&axis, &[(-30.0, 8.0), (0.0, 12.0), (30.0, 4.0)], 18),
            3 => bent(rng),
            _ => {
                let by = Rotation3::from_euler_angles(rng.f64() * TAU, rng.f64() * TAU, rng.f64() * TAU);
                block(axis.point, AXES.map(|way| by * way), [30.0, 4.0 + 10.0 * rng.f64(), 12.0])
            }
        }
    });
    let solids: Vec<Solid> = solids.collect();
    assert!(solids.iter().all(|solid| solid.edges().is_some()));
    scene(solids)
}

/// A tapered elbow with a slanting end: facets that are not flat and corners that stick in.
fn bent(rng: &mut Rng) -> Solid {
    let by = Rotation3::from_euler_angles(rng.f64() * TAU, rng.f64() * TAU, rng.f64() * TAU);
    let ring = |angle: f64, radius: f64, slant: f64| {
        (0..16).map(move |step| {
            let (sin, cos) = (TAU * f64::from(step) / 16.0).sin_cos();
            let out = 40.0 + radius * cos;
            let place = Point3::new(out * angle.cos(), out * angle.sin(), -radius * sin);
            by * (place + Vector3::new(-angle.sin(), angle.cos(), 0.0) * (slant * (2.0 * sin * sin + cos)))
        })
    };
    let rings = (0..=6).map(|step| (f64::from(step) * 0.25, 9.0 - 0.5 * f64::from(step)));
    let inner = ring(0.25, 6.0, 0.0).collect();
    let mouth = ring(-0.05, 7.0, -3.0).collect();
    let loft = Loft::default().ring(0, inner).ring(0, mouth);
    let outer = ring(-0.05, 9.5, -3.5).collect();
    rings
        .skip(1)
        .fold(loft.ring(1, outer), |loft, (angle, radius)| loft.ring(2, ring(angle, radius, 0.0).collect()))
        .capped()
}

/// Right and down on the sheet, worked out here.
fn sheet_ways(turn: Turn) -> [Vector3<f64>; 2] {
    let yaw = turn.yaw.radians();
    let right = Vector3::new(-yaw.cos(), -yaw.sin(), 0.0);
    [right, right.cross(&towards(turn))]
}

/// The nearest facet on the ray that reaches a place of the sheet, with how far the second nearest lies behind it; `None` where the
/// ray comes near a side of some facet and rounding decides.
fn nearest(scene: &Scene, turn: Turn, at: Point) -> Option<Option<(usize, usize)>> {
    let [right, down] = sheet_ways(turn);
    let towards = towards(turn);
    let mut found: Vec<(f64, (usize, usize))> = Vec::new();
    for (number, body) in scene.bodies().iter().enumerate() {
        for (place, facet) in body.solid.facets.iter().enumerate() {
            let corners = body.solid.corners(facet);
            let flat: Vec<Point> =
                corners.iter().map(|c| Point::new(c.coords.dot(&right), c.coords.dot(&down))).collect();
            if !clear_of_sides(&flat, at) {
                return None;
            }
            let normal: Vector3<f64> =
                corners.windows(2).map(|w| (w[0] - corners[0]).cross(&(w[1] - corners[0]))).sum();
            if !holds(&flat, at) || normal.dot(&towards).abs() < 1e-9 * normal.norm() {
                continue;
            }
            let start = Point3::from(right * at.x + down * at.y);
            let depth = normal.dot(&(corners[0] - start)) / normal.dot(&towards);
            found.push((depth, (number, place)));
        }
    }
    found.sort_by(|a, b| b.0.total_cmp(&a.0));
    match found.as_slice() {
        [first, second, ..] if first.0 - second.0 < 1e-3 => None,
        list => Some(list.first().map(|(_, facet)| *facet)),
    }
}

fn clear_of_sides(outline: &[Point], at: Point) -> bool {
    let next = outline.iter().cycle().skip(1);
    outline.iter().zip(next).all(|(a, b)| {
        let (dx, dy) = (b.x - a.x, b.y - a.y);
        let along = ((at.x - a.x) * dx + (at.y - a.y) * dy) / (dx * dx + dy * dy).max(1e-12);
        let along = along.clamp(0.0, 1.0);
        (at.x - a.x - along * dx).hypot(at.y - a.y - along * dy) > 2e-3
    })
}

/// Whether a place lies within an outline, by the turns of a ray to the right.
fn holds(outline: &[Point], at: Point) -> bool {
    let next = outline.iter().cycle().skip(1);
    let crossings = outline.iter().zip(next).filter(|(a, b)| {
        (a.y > at.y) != (b.y > at.y) && at.x < a.x + (at.y - a.y) / (b.y - a.y) * (b.x - a.x)
    });
    crossings.count() % 2 == 1
}

fn top(painted: &[PaintedFacet], at: Point) -> Option<(usize, usize)> {
    painted.iter().rev().find(|facet| holds(&facet.corners, at)).map(|facet| (facet.body, facet.facet))
}

/// Looks at places of a scene; gives how many could be decided.
fn check_rays(scene: &Scene, turn: Turn, rng: &mut Rng, count: usize) -> usize {
    let painted = scene.painted(turn);
    let [min, max] = scene.bounds(turn);
    let mut decided = 0;
    for _ in 0..count {
        let at = Point::new(min.x + (max.x - min.x) * rng.f64(), min.y + (max.y - min.y) * rng.f64());
        let Some(nearest) = nearest(scene, turn, at) else { continue };
        decided += usize::from(nearest.is_some());
        assert_eq!(top(&painted, at), nearest, "{turn:?} {at:?}");
    }
    decided
}

/// Painter against ray: what is painted last at a place is what a ray from the viewer meets first, by distances worked out here.
#[test]
fn what_is_painted_last_is_nearest() {
    let mut rng = Rng::with_seed(11);
    let mut decided = 0;
    for _ in 0..60 {
        let scene = any_scene(&mut rng);
        for _ in 0..6 {
            let turn = any_turn(&mut rng);
            decided += check_rays(&scene, turn, &mut rng, 60);
        }
    }
    assert!(decided > 4000, "{decided}");
}

fn bent_job() -> Job {
    let mut job = starters()[0].job.clone();
    let bend = |before: f64, rotation: f64, angle: f64| Bend {
        before: Length::from_mm(before),
        rotation: Angle::from_degrees(rotation),
        angle: Angle::from_degrees(angle),
        radius: Length::from_mm(160.0),
    };
    let tube = &mut job.chainstays.right.tube;
    tube.bends = Bends::of([bend(120.0, 0.0, 9.0), bend(60.0, 180.0, 11.0)]);
    tube.length = Length::from_mm(460.0);
    let mm = Length::from_mm;
    let oval = Press {
        from: mm(40.0),
        to: mm(90.0),
        blend: mm(20.0),
        width: mm(16.0),
        height: mm(26.0),
        roll: Angle::from_degrees(20.0),
    };
    tube.ovals = Ovals { list: [oval].into_iter().collect() };
    job
}

fn jobs() -> Vec<Job> {
    let mut jobs: Vec<Job> = starters().into_iter().map(|starter| starter.job).collect();
    for job in &mut jobs {
        job.surroundings = Some(Surroundings::starting());
    }
    jobs.push(bent_job());
    jobs
}

#[test]
fn the_rear_end_of_each_starting_job_is_painted_in_order() {
    let mut rng = Rng::with_seed(3);
    for job in jobs() {
        let scene = rear_end(&solve(&job), LengthUnit::Millimetre);
        let decided: usize = (0..8)
            .map(|_| {
                let turn = any_turn(&mut rng);
                check_rays(&scene, turn, &mut rng, 60)
            })
            .sum();
        assert!(decided > 60, "{decided}");
    }
}

/// A member's surface, by the distance from its axis: the outer edge of each mitered end lies on it, and on the stay's own surface; so does
/// the bore's edge, a wall further in. The plan's edge comes by whole degrees, straight between them.
#[test]
fn mitered_edges_lie_on_the_member_and_on_the_stay() {
    let job = &starters()[0].job;
    let plan = solve(job);
    let scene = rear_end(&plan, LengthUnit::Millimetre);
    for (pair, point, direction, diameter) in [
        (PairName::Chainstays, Point3::origin(), Vector3::y(), job.frame.shell_od.mm()),
        (PairName::Seatstays, plan.seat_tube_foot, plan.seat_tube_direction, job.frame.seat_tube_od.mm()),
    ] {
        for hand in Hand::ALL {
            let stay = plan.pair(pair).stay(hand);
            let tube = &job.pair(pair).side(hand).tube;
            let along = (stay.rear_point - stay.front_point).normalize();
            let body = scene.bodies().iter().find(|body| body.part == ScenePart::Stay(pair, hand)).unwrap();
            let far = |p: &Point3<f64>, from: Point3<f64>, way: Vector3<f64>| (p - from).cross(&way).norm();
            let on = |p: &&Point3<f64>| (far(p, point, direction) - diameter / 2.0).abs() < 2e-3;
            let radii: Vec<f64> =
                body.solid.points.iter().filter(on).map(|p| far(p, stay.front_point, along)).collect();
            let of = |radius: f64| radii.iter().filter(|found| (**found - radius).abs() < 1e-6).count();
            let outer = tube.od_front.mm() / 2.0;
            assert_eq!((of(outer), of(outer - tube.wall.mm())), (24, 24), "{pair:?} {hand:?}");
        }
    }
}

#[test]
fn every_body_of_a_rear_end_is_closed() {
    for job in jobs() {
        let scene = rear_end(&solve(&job), LengthUnit::Millimetre);
        for body in scene.bodies() {
            assert!(body.solid.edges().is_some(), "{:?} is open", body.part);
            assert!(body.solid.volume() > 0.0, "{:?} is inside out", body.part);
        }
    }
}

/// A prism of 24 sides, less the bore shown at each end, which is one and a half diameters deep: closed form.
#[test]
fn a_plain_stay_cut_square_has_the_volume_of_its_tube() {
    let mut job = starters()[0].job.clone();
    let side = &mut job.chainstays.right;
    (side.front_end, side.rear_end) = (End::Square, End::Square);
    (side.tube.od_front, side.tube.od_rear) = (Length::from_mm(20.0), Length::from_mm(20.0));
    side.tube.wall = Length::from_mm(1.0);
    let plan = solve(&job);
    let stay = &plan.pairs.chainstays.right;
    let length = (stay.rear_point - stay.front_point).norm();
    let volume = polygon_area(24) * (100.0 * length - 81.0 * 2.0 * 30.0);
    let scene = rear_end(&plan, LengthUnit::Millimetre);
    let part = ScenePart::Stay(PairName::Chainstays, Hand::Right);
    let body = scene.bodies().iter().find(|body| body.part == part).unwrap();
    assert!((body.solid.volume() - volume).abs() < 1e-6 * volume, "{} {volume}", body.solid.volume());
}

#[test]
fn a_cube_from_the_front_is_one_square() {
    let painted = scene(vec![cube([0.0; 3], [1.0, 2.0, 3.0])]).painted(turn(0.0, 0.0));
    assert_eq!(painted.len(), 1);
    assert!(near(area(&painted[0].corners), 12.0));
    assert_eq!(painted[0].lines.len(), 4);
}

/// By hand: seen a little from above and from the side a block shows three faces and nine edges, three of them twice.
#[test]
fn a_turned_block_shows_three_faces() {
    let painted = scene(vec![cube([0.0; 3], [1.0, 2.0, 3.0])]).painted(turn(30.0, 20.0));
    let lines: usize = painted.iter().map(|facet| facet.lines.len()).sum();
    assert_eq!((painted.len(), lines), (3, 12));
}

/// By hand: a round bar seen square to its axis has two long lines, its silhouette, and its two ends' edges.
#[test]
fn a_round_bar_has_no_lines_between_its_facets() {
    let axis = Line { point: Point3::origin(), direction: Vector3::x() };
    let painted = scene(vec![turned(&axis, &[(-50.0, 10.0), (50.0, 10.0)], 24)]).painted(turn(0.0, 10.0));
    let long = |[a, b]: &[Point; 2]| (a.x - b.x).abs() > 99.0;
    let lines: Vec<[Point; 2]> = painted.iter().flat_map(|facet| facet.lines.clone()).filter(long).collect();
    assert_eq!(lines.len(), 2);
    // The silhouette of a prism of 24 sides lies between its inner and its outer circle.
    for [a, _] in &lines {
        assert!(a.y.abs() <= 10.0 && a.y.abs() >= 10.0 * (PI / 24.0).cos(), "{}", a.y);
    }
}

#[test]
fn bodies_that_touch_or_are_flat_or_not_there_do_no_harm() {
    assert!(scene(vec![]).painted(Turn::start()).is_empty());
    assert!(scene(vec![]).svg(Turn::start(), (100.0, 80.0)).contains("viewBox=\"0 0 100.0 80.0\""));
    let flat = cube([0.0; 3], [1.0, 2.0, 0.0]);
    assert!(!scene(vec![flat, cube([9.0; 3], [0.0; 3])]).svg(Turn::start(), (100.0, 80.0)).contains("NaN"));
    let touching = scene(vec![cube([0.0; 3], [1.0; 3]), cube([2.0, 0.0, 0.0], [1.0; 3])]);
    let mut rng = Rng::with_seed(1);
    assert!(
        (0..40).map(|_| check_rays(&touching, turn(rng.f64() * 360.0, 20.0), &mut rng, 20)).sum::<usize>()
            > 200
    );
    let unknown = Turn::new(Angle::from_degrees(f64::NAN), Angle::from_degrees(f64::INFINITY));
    assert_eq!((unknown.yaw.degrees(), unknown.pitch.degrees()), (0.0, 0.0));
    assert_eq!(turn(-30.0, 200.0), turn(330.0, 90.0));
}

/// Three bars that lie over each other in a ring: no order of whole bodies paints them.
#[test]
fn bars_that_lie_over_each_other_in_a_ring_are_cut() {
    let bar = |k: f64| {
        let by = Rotation3::from_axis_angle(&Vector3::y_axis(), TAU * k / 3.0);
        let tilt = Rotation3::from_axis_angle(&Vector3::x_axis(), 0.25);
        block(
            by * Point3::new(0.0, 0.0, 8.0),
            AXES.map(|way| by * Rotation3::from_axis_angle(&Vector3::z_axis(), 0.2) * (tilt * way)),
            [30.0, 1.5, 3.0],
        )
    };
    let scene = scene((0..3).map(|k| bar(f64::from(k))).collect());
    let mut rng = Rng::with_seed(2);
    let decided: usize =
        [0.0, 3.0, 180.0].map(|yaw| check_rays(&scene, turn(yaw, 1.0), &mut rng, 400)).iter().sum();
    assert!(decided > 300 && scene.pieces() > 18, "{decided} {}", scene.pieces());
}

/// The picture by hand: a block 40 wide and 20 high in 124 dots less 12 at each edge has 2.5 dots to the millimetre.
#[test]
fn a_picture_is_to_scale_and_says_what_it_shows() {
    let mut plain = scene(vec![cube([5.0, 0.0, 1.0], [20.0, 1.0, 10.0])]);
    plain.text = "A \"block\"".into();
    let svg = plain.svg(turn(0.0, 0.0), (124.0, 100.0));
    assert!(svg.starts_with(r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 124.0 100.0" role="img" aria-label="A &quot;block&quot;">"#), "{svg}");
    let corners = ["12.0 25.0", "112.0 25.0", "112.0 75.0", "12.0 75.0"];
    assert!(corners.iter().all(|corner| svg.contains(corner)), "{svg}");
    assert!(
        svg.contains(r#"<path class="of-stay tone-"#) && svg.contains(r#" data-part="body[0]" d="M"#),
        "{svg}"
    );
    assert_eq!(svg.matches("<path").count(), 2);
}

/// The same plan, the same picture; no facet is cut more often than is good for a page.
#[test]
fn a_rear_end_is_drawn_the_same_twice_in_few_paths() {
    for job in jobs() {
        let plan = solve(&job);
        let draw = || {
            let scene = rear_end(&plan, LengthUnit::Millimetre);
            (scene.pieces(), scene.svg(Turn::start(), (900.0, 640.0)))
        };
        let ((pieces, svg), again) = (draw(), draw());
        assert_eq!((pieces, &svg), (again.0, &again.1));
        assert!(!svg.contains("NaN") && !svg.contains("inf"));
        assert!(
            pieces < 8000 && svg.matches("<path").count() < 1200 && svg.len() < 250_000,
            "{pieces} {}",
            svg.len()
        );
    }
}
