//! Bent stays: where they lie, how their ends are cut, and what the plan says of bends and butts.

use crate::support;

use nalgebra::{Point3, Rotation3, Unit, Vector3};
use proptest::prelude::*;
use serde_json::{Value, json};
use staywright::model::{Bend, Bends, Hand, Job};
use staywright::placement::plan;
use staywright::plan::{Cut, Plan, Stay};
use staywright::units::{Angle, Length};

fn bend(before: f64, rotation: f64, angle: f64, radius: f64) -> Bend {
    Bend {
        before: Length::from_mm(before),
        rotation: Angle::from_degrees(rotation),
        angle: Angle::from_degrees(angle),
        radius: Length::from_mm(radius),
    }
}

/// The starting job with chainstays so bent, on a long tube.
fn bent(bends: &[Bend], trim: f64, roll: f64) -> Job {
    let mut job = Job::default();
    let tube = &mut job.chainstays.right.tube;
    tube.bends = Bends::of(bends.iter().copied());
    tube.bends.roll = tube.bends.roll.map(|_| Angle::from_degrees(roll));
    tube.front_trim = Length::from_mm(trim);
    tube.length = Length::from_mm(600.0);
    job
}

fn stay(plan: &Plan, hand: Hand) -> &Stay {
    plan.pairs.chainstays.stay(hand)
}

/// The raw tube in short straight steps, turned as it is bent: from its own front end along x, bends of rotation 0 towards y.
/// Knows nothing of arcs.
fn walk(bends: &[Bend], to: f64, steps_per_mm: f64) -> Vec<Point3<f64>> {
    let (mut place, mut turned) = (Point3::origin(), Rotation3::identity());
    let mut points = vec![place];
    let mut go = |length: f64, turning: f64, turned: &mut Rotation3<f64>, points: &mut Vec<Point3<f64>>| {
        let steps = (length * steps_per_mm).round().max(1.0);
        for _ in 0..steps as usize {
            // Half the turn before the step and half after it.
            *turned *= Rotation3::from_axis_angle(&Vector3::z_axis(), 0.5 * turning / steps);
            place += *turned * Vector3::x() * (length / steps);
            *turned *= Rotation3::from_axis_angle(&Vector3::z_axis(), 0.5 * turning / steps);
            points.push(place);
        }
    };
    for bend in bends {
        go(bend.before.mm(), 0.0, &mut turned, &mut points);
        turned *= Rotation3::from_axis_angle(&Vector3::x_axis(), bend.rotation.radians());
        go(bend.radius.mm() * bend.angle.radians(), bend.angle.radians(), &mut turned, &mut points);
    }
    go(to, 0.0, &mut turned, &mut points);
    points
}

/// The place on the walked tube after `length` of it.
fn after(points: &[Point3<f64>], length: f64) -> Point3<f64> {
    let mut left = length;
    for pair in points.windows(2) {
        let step = pair[1] - pair[0];
        if step.norm() >= left {
            return pair[0] + step.normalize() * left;
        }
        left -= step.norm();
    }
    *points.last().unwrap()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    /// A placement made here, by walking the tube and turning it into place, is found again from its front trim and its roll.
    #[test]
    fn a_known_placement_is_recovered_from_its_own_trims(
        table in proptest::collection::vec((20.0..90.0, -180.0..180.0, 2.0..35.0, 60.0..220.0), 1..4),
        trim in 0.0..30.0,
        roll in -180.0..180.0,
    ) {
        let bends: Vec<Bend> = table.iter().map(|(a, b, c, d)| bend(*a, *b, *c, *d)).collect();
        let mut job = bent(&bends, trim, roll);
        job.chainstays.right.tube.length = Length::from_mm(1200.0);
        let plan = plan(&job).unwrap();
        let walked = walk(&bends, 700.0, 20.0);
        for hand in Hand::ALL {
            let stay = stay(&plan, hand);
            let lies = stay.bent.as_ref().unwrap();
            let at = |s: f64| lies.line.at(s).point;
            // It passes through both reference points.
            prop_assert!((at(0.0) - stay.front_point).norm() < 1e-9);
            prop_assert!((at(stay.length.mm()) - stay.rear_point).norm() < 1e-9);
            // The tube walked here, brought to the same chord, lies on it everywhere.
            let (front, rear) = (after(&walked, trim), after(&walked, trim + stay.length.mm()));
            let chord = Unit::new_normalize(stay.rear_point - stay.front_point);
            let sign = hand.sign();
            // A left tube is the mirror of a right one.
            let mirror = |p: Point3<f64>| Point3::new(p.x, p.y, p.z * sign);
            let (front, rear) = (mirror(front), mirror(rear));
            let onto = Rotation3::rotation_between(&(rear - front), &chord).unwrap();
            let outboard = Vector3::y() * sign - *chord * chord.y * sign;
            let mark = onto * Vector3::y();
            let mark = mark - *chord * mark.dot(&chord);
            // From where the mark would fall to outboard, then by the roll from outboard upwards.
            let lift = Rotation3::rotation_between(&mark, &outboard).unwrap_or(Rotation3::from_axis_angle(&chord, std::f64::consts::PI));
            let rolled = Rotation3::from_axis_angle(&chord, roll.to_radians() * sign);
            for share in [0.1, 0.25, 0.4, 0.5, 0.7, 0.9] {
                let s = share * stay.length.mm();
                let here = mirror(after(&walked, trim + s));
                let there = stay.front_point + rolled * (lift * (onto * (here - front)));
                prop_assert!((at(s) - there).norm() < 2e-3, "{hand:?} {s}: {}", (at(s) - there).norm());
            }
        }
    }

    #[test]
    fn no_figure_of_a_bent_plan_is_infinite(
        table in proptest::collection::vec((0.0..200.0, -360.0..360.0, 0.0..170.0, 12.0..400.0), 0..6),
        (trim, roll) in (-200.0..600.0, -360.0..360.0),
        butts in proptest::collection::vec(0.2..3.0, 0..4),
    ) {
        let bends: Vec<Bend> = table.iter().map(|(a, b, c, d)| bend(*a, *b, *c, *d)).collect();
        let mut job = bent(&bends, trim, roll);
        let tube = &mut job.chainstays.right.tube;
        tube.length = Length::from_mm(1200.0);
        let butt = |(i, wall)| staywright::model::Butt {
            at: Length::from_mm(100.0 * f64::from(i)),
            wall: Length::from_mm(wall),
        };
        tube.butts.list = (0..).zip(butts).map(butt).collect();
        let Ok(plan) = plan(&job) else { return Ok(()) };
        for (path, number) in support::numbers(&support::json(&plan)) {
            prop_assert!(number.is_finite(), "{}", path);
        }
    }
}

/// A single bend in the clamp plane is a triangle: two legs, each a straight and a tangent, and the chord.
#[test]
fn a_single_bend_is_a_triangle() {
    let (before, angle, radius, trim) = (150.0_f64, 24.0_f64.to_radians(), 140.0, 12.0);
    for (roll, side) in [(0.0, -1.0), (180.0, 1.0)] {
        let plan = plan(&bent(&[bend(before, 0.0, 24.0, radius)], trim, roll)).unwrap();
        let stay = stay(&plan, Hand::Right);
        let lies = stay.bent.as_ref().unwrap();
        let chord = lies.chord.mm();
        let tangent = radius * (angle / 2.0).tan();
        let front_leg = before - trim + tangent;
        // chord² = a² + b² + 2ab cos α, solved for the rear leg.
        let rear_leg = -front_leg * angle.cos() + (chord.powi(2) - (front_leg * angle.sin()).powi(2)).sqrt();
        let length = front_leg + rear_leg - 2.0 * tangent + radius * angle;
        assert!((stay.length.mm() - length).abs() < 1e-9);
        // The front end runs off the chord by the angle opposite the rear leg; the bend bulges to the side it does not turn to.
        let off = (rear_leg * angle.sin() / chord).asin();
        let axis = (stay.rear_point - stay.front_point).normalize();
        let splay = axis.y.asin() + side * off;
        assert!((lies.front_direction.y.asin() - splay).abs() < 1e-12);
        assert!((lies.rear_direction.y.asin() - (splay - side * angle)).abs() < 1e-12);
        assert!((stay.splay.degrees() - axis.y.asin().to_degrees()).abs() < 1e-9);
        // The apex lies on the line from the arc's middle to the legs' corner.
        let place = &lies.bends[0];
        assert!(place.from_plane.mm().abs() < 1e-9);
        let corner = stay.front_point + lies.front_direction * front_leg;
        let inwards = (lies.rear_direction - lies.front_direction).normalize();
        let apex = corner + inwards * (radius / (angle / 2.0).cos() - radius);
        assert!((place.from_centre.mm() - apex.y).abs() < 1e-9);
        assert!((place.apex.mm() - (before - trim + radius * angle / 2.0)).abs() < 1e-9);
    }
}

/// What a bent stay's end is cut to is what a straight stay is cut to that runs as this end does.
#[test]
fn the_front_cut_is_that_of_the_straight_stay_along_the_end() {
    let mut job = bent(&[bend(150.0, 0.0, 9.0, 300.0), bend(60.0, 180.0, 7.0, 300.0)], 10.0, 180.0);
    job.chainstays.right.tube.taper_start = Length::from_mm(200.0);
    let bent_plan = plan(&job).unwrap();
    let direction = stay(&bent_plan, Hand::Right).bent.as_ref().unwrap().front_direction;
    let mut straight = job.clone();
    straight.chainstays.right.tube.bends = Bends::default();
    let (front, rear) = (stay(&bent_plan, Hand::Right).front_point, stay(&bent_plan, Hand::Right).rear_point);
    let along = ((rear - front).x / direction.x, (rear - front).z / direction.z);
    assert!((along.0 - along.1).abs() < 1e-6, "in the clamp plane");
    straight.chainstays.right.rear.half_spacing = Length::from_mm(front.y + direction.y * along.0);
    let straight_plan = plan(&straight).unwrap();
    for hand in Hand::ALL {
        let cut = |plan: &Plan| support::numbers(&serde_json::to_value(&stay(plan, hand).front).unwrap());
        let (bent, straight) = (cut(&bent_plan), cut(&straight_plan));
        assert_eq!(bent.len(), straight.len());
        for ((path, a), (_, b)) in bent.iter().zip(&straight) {
            // Above and below are alike, so that either may hold the long point.
            if path.contains("point_phi") {
                continue;
            }
            assert!((a - b).abs() < 1e-6, "{path}: {a} {b}");
        }
    }
}

#[test]
fn bends_of_angle_0_make_the_straight_stay() {
    let bent_plan =
        plan(&bent(&[bend(150.0, 20.0, 0.0, 300.0), bend(60.0, 180.0, 0.0, 300.0)], 10.0, 35.0)).unwrap();
    let straight_plan = plan(&bent(&[], 10.0, 0.0)).unwrap();
    let (bent, straight) = (support::json(&bent_plan), support::json(&straight_plan));
    assert_eq!(bent["pairs"]["chainstays"]["right"]["bent"]["bends"], json!([]));
    let bent: std::collections::BTreeMap<_, _> = support::numbers(&bent).into_iter().collect();
    for (path, figure) in support::numbers(&straight) {
        assert!((bent[&path] - figure).abs() < 1e-8, "{path}: {} {figure}", bent[&path]);
    }
}

#[test]
fn a_left_stay_with_the_same_table_is_the_mirror() {
    let plan =
        plan(&bent(&[bend(120.0, 30.0, 9.0, 300.0), bend(60.0, 130.0, 12.0, 150.0)], 10.0, 75.0)).unwrap();
    let [right, left] = Hand::ALL.map(|hand| stay(&plan, hand).bent.as_ref().unwrap());
    for s in [0.0, 130.0, 200.0, 260.0, 380.0] {
        let (a, b) = (right.line.at(s).point, left.line.at(s).point);
        assert!((a.x - b.x).abs() + (a.y + b.y).abs() + (a.z - b.z).abs() < 1e-10, "{s}");
    }
    let room = plan.pairs.chainstays.room_between.mm();
    // Mirrored bodies are nearest where each is nearest to the mirror.
    let outline = staywright::plan::stay_outline(&plan.job.chainstays.right.tube);
    let (front, rear) =
        (stay(&plan, Hand::Right).front.long_point(), stay(&plan, Hand::Right).rear.long_point());
    let (front, rear) = (front.unwrap().mm(), rear.unwrap().mm());
    let stations = (0..=40_000).map(|i| front + (rear - front) * f64::from(i) / 40_000.0);
    // A circle square to the tangent reaches across the bicycle by its radius times the sine of the angle between the two.
    let height = |s: f64| {
        let at = right.line.at(s);
        at.point.y - outline.radius(s) * (1.0 - at.tangent.y * at.tangent.y).sqrt()
    };
    let least = stations.map(height).fold(f64::INFINITY, f64::min);
    assert!((room - 2.0 * least).abs() < 1e-5, "{room} {}", 2.0 * least);
}

fn codes(plan: &Plan, place: &str) -> Vec<String> {
    let all = support::json(plan);
    let list = all["warnings"].as_array().unwrap().iter().filter(|warning| warning["where"] == place);
    list.map(|warning| warning["code"].as_str().unwrap().to_owned()).collect()
}

#[test]
fn bends_in_the_wrong_place_are_named() {
    let check = |bends: &[Bend], trim: f64, place: &str, expected: &[&str]| {
        let mut job = bent(bends, trim, 180.0);
        job.fixture.posts = Vec::new();
        job.frame.shell_width = Length::from_mm(100.0);
        assert_eq!(codes(&plan(&job).unwrap(), place), expected, "{place}");
    };
    check(&[bend(150.0, 0.0, 9.0, 300.0)], 10.0, "chainstays.right.front", &[]);
    check(&[bend(25.0, 0.0, 9.0, 300.0)], 10.0, "chainstays.right.front", &["bend_in_cut"]);
    check(&[bend(5.0, 0.0, 9.0, 300.0)], 10.0, "chainstays.right.front", &["bend_in_cut"]);
    check(&[bend(392.0, 0.0, 9.0, 300.0)], 10.0, "chainstays.right.rear", &["bend_in_cut"]);
    check(&[bend(60.0, 0.0, 9.0, 60.0)], 10.0, "chainstays.right", &["tight_bend"]);
    check(&[bend(200.0, 0.0, 9.0, 300.0)], 10.0, "chainstays.right", &["taper_in_bend"]);
    let twice = [bend(200.0, 0.0, 5.0, 300.0), bend(30.0, 180.0, 5.0, 300.0)];
    check(&twice, 10.0, "chainstays.right", &["taper_in_bend"]);
    let mut job = bent(&[bend(60.0, 0.0, 9.0, 300.0)], 10.0, 180.0);
    job.chainstays.right.tube.length = Length::from_mm(380.0);
    assert_eq!(codes(&plan(&job).unwrap(), "chainstays.right.rear"), ["cut_past_tube_end"]);
    assert!(!stay(&plan(&job).unwrap(), Hand::Right).raw.unwrap().long_enough);
}

/// What is said of a bend in a cut of the right chainstay.
fn bend_in_cut(plan: &Plan, end: &str) -> Option<String> {
    let place = format!("chainstays.right.{end}");
    let file = support::json(plan);
    let mut all = file["warnings"].as_array().unwrap().iter();
    let found = all.find(|warning| warning["code"] == "bend_in_cut" && warning["where"] == place.as_str());
    found.map(|warning| warning["message"].as_str().unwrap().to_owned())
}

#[test]
fn a_bend_in_a_cut_is_cleared_as_the_sentence_says() {
    // The bend's own way out, front to rear: less trim at the front and more at the rear move it rearwards.
    let cases = [
        (25.0, 10.0, 9.0, "front", "begins", 1.0),
        (120.0, 125.0, 5.0, "front", "ends", -1.0),
        (362.0, 10.0, 9.0, "rear", "begins", -1.0),
        (392.0, 10.0, 9.0, "rear", "ends", 1.0),
    ];
    for (before, trim, angle, end, word, way) in cases {
        let said = |moved: f64| {
            bend_in_cut(&plan(&bent(&[bend(before + moved, 0.0, angle, 300.0)], trim, 180.0)).unwrap(), end)
        };
        let sentence = said(0.0).unwrap();
        let (side, advice) =
            if word == "begins" { ("before the cut ends", "less") } else { ("after the cut begins", "more") };
        let over = sentence.split(' ').nth(3).unwrap();
        assert_eq!(sentence, format!("a bend {word} {over} mm {side}: move the bend or trim {advice} here"));
        let over: f64 = over.parse().unwrap();
        assert!(over > 0.0, "{sentence}");
        // The ends run a little otherwise where the bend has gone.
        assert!(said(way * (over + 2.5)).is_none(), "{sentence} {:?}", said(way * (over + 2.5)));
        assert!(said(way * (over - 2.5)).is_some(), "{sentence}");
    }
}

/// What is sawn off may be bent: the end is then that of the straight tube behind the bend.
#[test]
fn a_bend_in_the_waste_is_sawn_off() {
    let cases = [(0.0, 20.0, "front"), (400.0, 10.0, "rear")];
    for (before, trim, end) in cases {
        let mut job = bent(&[bend(before, 0.0, 10.0, 150.0)], trim, 0.0);
        if end == "rear" {
            // The mouth is 14 mm before the reference point, and the bend begins between them.
            job = job.with_figure("chainstays.right.rear.end.overhang_mm", -14.0);
        }
        let plan = plan(&job).unwrap();
        assert_eq!(bend_in_cut(&plan, end), None);
        let stay = stay(&plan, Hand::Right);
        let bent = stay.bent.as_ref().unwrap();
        let (arc, cut) = (&bent.bends[0], if end == "front" { &stay.front } else { &stay.rear });
        let long = cut.long_point().unwrap().mm();
        // The bend lies about the reference point and beyond the long point.
        let reference = if end == "front" { 0.0 } else { stay.length.mm() };
        assert!(arc.from.mm() < reference && reference < arc.to.mm(), "{end}");
        assert!(if end == "front" { arc.to.mm() < long } else { long < arc.from.mm() }, "{end}");
        let (direction, angle) = match cut {
            Cut::Cope(cut) => (bent.front_direction, cut.angle),
            Cut::Slot(cut) => (bent.rear_direction, cut.angle),
            _ => panic!(),
        };
        let here = bent.line.at(long).tangent;
        assert!((here - direction).norm() < 1e-12, "{end}");
        // The shell lies along y; the plate stands in the centre plane's direction.
        let expected = if end == "front" { direction.y.acos() } else { direction.y.asin().abs() };
        assert!((angle.radians() - expected).abs() < 1e-9, "{end} {} {expected}", angle.radians());
    }
}

#[test]
fn a_post_on_a_bend_is_named_and_straight_tube_in_a_post_is_measured() {
    let mut job = bent(&[bend(120.0, 0.0, 9.0, 300.0)], 10.0, 180.0);
    job.fixture.posts = [60.0, 130.0, 300.0].map(Length::from_mm).to_vec();
    let plan = plan(&job).unwrap();
    assert_eq!(codes(&plan, "chainstays")[..2], ["post_on_bend", "post_on_bend"]);
    let posts = &plan.pairs.chainstays.posts;
    assert_eq!(posts[1].right_straight, Some([Length::from_mm(0.0); 2]));
    let lies = stay(&plan, Hand::Right).bent.as_ref().unwrap();
    // On the front leg: the station is the way along the fixture over the leg's cosine.
    let cosine = lies.front_direction.dot(&stay(&plan, Hand::Right).clamp.u);
    let station = 60.0 / cosine;
    let [before, behind] = posts[0].right_straight.unwrap().map(Length::mm);
    assert!((behind - (110.0 - station)).abs() < 1e-9);
    let tip = stay(&plan, Hand::Right).front.long_point().unwrap().mm();
    assert!((before - (station - tip)).abs() < 1e-9);
    // Calipers there: the leg's own place, and its diameter seen at its splay.
    let out = 21.0 + station * lies.front_direction.y;
    assert!((posts[0].right.unwrap().mm() - out).abs() < 1e-9);
    assert!((posts[0].outside.unwrap().mm() - 2.0 * (out + 11.1 / cosine)).abs() < 1e-9);
}

/// A slot's faces leave the tube where its surface has the faces' own distance from the centre plane, however the end runs.
#[test]
fn slot_faces_leave_the_tube_on_their_own_planes() {
    let table = [bend(120.0, 0.0, 12.0, 150.0), bend(70.0, 100.0, 14.0, 150.0)];
    let plan = plan(&bent(&table, 10.0, 140.0)).unwrap();
    for hand in Hand::ALL {
        let stay = stay(&plan, hand);
        let bent = stay.bent.as_ref().unwrap();
        let staywright::plan::Cut::Slot(slot) = &stay.rear else { panic!("a slot") };
        let t = bent.rear_direction;
        let first = (stay.clamp.w - t * t.dot(&stay.clamp.w)).normalize();
        assert!((slot.angle.degrees() - t.y.abs().asin().to_degrees()).abs() < 1e-9);
        assert!(t.dot(&stay.clamp.w).abs() > 0.05, "out of the clamp plane");
        for (face, off) in slot.faces.iter().zip([-2.5, 2.5]) {
            for (angles, s) in [(face.mouth_phi, slot.mouth.mm()), (face.root_phi, slot.root.mm())] {
                for phi in angles.unwrap() {
                    let (sin, cos) = phi.radians().sin_cos();
                    let point = bent.line.at(s).point + (first * cos + t.cross(&first) * sin) * 8.0;
                    assert!((point.y * hand.sign() - (74.0 + off)).abs() < 1e-9, "{hand:?} {}", point.y);
                    assert!((0.0..360.0).contains(&phi.degrees()));
                }
            }
        }
    }
}

/// A butted tube has its walls where the butts say, at the cut and in the bore.
#[test]
fn butts_reach_the_bore_and_the_ends() {
    let mut job = Job::default();
    let tube = &mut job.chainstays.right.tube;
    let file = json!({ "format": 1, "chainstays": { "right": { "front": { "end": { "kind": "cope", "onto": "shell" } }, "tube": {
        "od_rear_mm": 22.2, "butts": [
            { "at_mm": 60, "wall_mm": 1.2 }, { "at_mm": 100, "wall_mm": 0.7 },
            { "at_mm": 300, "wall_mm": 0.7 }, { "at_mm": 340, "wall_mm": 1.0 }] } } } });
    *tube = Job::from_json(&file.to_string()).unwrap().chainstays.right.tube;
    let butted = plan(&job).unwrap();
    // At the front the tube is that of a plain wall of 1.2.
    let plain: Value =
        json!({ "format": 1, "chainstays": { "right": { "tube": { "od_rear_mm": 22.2, "wall_mm": 1.2 } } } });
    let plain = plan(&Job::from_json(&plain.to_string()).unwrap()).unwrap();
    let bore = |plan: &Plan| stay(plan, Hand::Right).front.round().unwrap().bore.clone();
    for (a, b) in bore(&butted).iter().zip(bore(&plain)) {
        assert!((a.s.mm() - b.s.mm()).abs() < 1e-9);
    }
    let stay = stay(&butted, Hand::Right);
    let raw = stay.raw.unwrap();
    assert!(raw.long_enough);
    assert!((raw.front_butt.unwrap().mm() - (60.0 - stay.front_waste.unwrap().mm())).abs() < 1e-9);
    let rear = 430.0 - stay.rear_waste.unwrap().mm();
    assert!((raw.rear_butt.unwrap().mm() - (rear - 340.0)).abs() < 1e-9);
    assert_eq!(raw.front_mark.mm(), 10.0);
}
