//! Drawings: legible, true to scale, and never a coordinate that is not a number.

use crate::support;

use nalgebra::{Point3, Vector3};
use proptest::prelude::*;
use staywright::clearance::{Obstacle, StayClearances, clearances, clearances_along, tip_diameter};
use staywright::drawing::{
    Anchor, Body, Differs, FramePart, GapLine, Mark, Material, OnMachine, Part, Pen, Point, Pull, Shape,
    Sheet, Strip, Viewport, WayIn, along_spindle, as_found, clamp_plane, clamp_plane_with_gaps, fixture_tilt,
    profile, room_strip, side_view, side_view_with_gaps, way_in,
};
use staywright::geometry::{Convex, ConvexBlock, ConvexRod, Line};
use staywright::model::{Bend, Bends, Hand, Job, Ovals, PairName, Press, Surroundings, Tube, starters};
use staywright::placement::solve;
use staywright::plan::{CutAt, Plan, faults};
use staywright::units::{Angle, Length, LengthUnit};

const ROOMS: [(f64, f64); 2] = [(342.0, 440.0), (840.0, 480.0)];

const fn room((width, height): (f64, f64)) -> Viewport {
    Viewport { width, height, lettering: 16.0, unit: LengthUnit::Millimetre }
}

fn sheets(plan: &Plan, size: (f64, f64)) -> Vec<Sheet> {
    let room = room(size);
    let found = if plan.job.surroundings.is_some() { clearances(plan) } else { Vec::new() };
    let mut sheets = vec![side_view(plan, room), side_view_with_gaps(plan, &gaps(&found), room)];
    for pair in PairName::ALL {
        let about: Vec<StayClearances> = found.iter().filter(|room| room.pair == pair).cloned().collect();
        sheets.push(clamp_plane(plan, pair, room));
        sheets.push(clamp_plane_with_gaps(plan, pair, &gaps(&about), room));
        let long = Differs { length: 1.5, front_angle: -0.2, dropout: 0.4 };
        for differs in [[long, Differs::default()], [Differs { length: 1e9, ..long }, long]] {
            sheets.push(as_found(plan, pair, differs, room));
        }
        for hand in Hand::ALL {
            sheets.push(room_strip(plan, pair, hand, &strips(plan, &about, hand), room));
            for at_front in [true, false] {
                let at = CutAt { pair, hand, at_front };
                sheets.extend([along_spindle, profile].map(|draw| draw(plan, at, room)));
                for rear_left in [true, false] {
                    let machine = OnMachine { rear_left, gauge: None };
                    sheets.push(fixture_tilt(plan, at, machine, room));
                }
                sheets.push(way_in(at, &way(plan, at), room));
            }
        }
    }
    sheets
}

/// The gaps of a plan's rooms as they are drawn.
fn gaps(rooms: &[StayClearances]) -> Vec<GapLine> {
    let line = |gap: &staywright::clearance::Clearance| GapLine {
        name: gap.to.name().into(),
        topic: format!("room.{}", gap.to.key()),
        from: gap.here,
        to: gap.there,
        gap: gap.distance,
        limit: gap.limit,
    };
    rooms.iter().flat_map(|room| room.clearances.iter().map(line)).collect()
}

fn strips(plan: &Plan, rooms: &[StayClearances], hand: Hand) -> Vec<Strip> {
    let of = |room: &StayClearances| {
        let pair = room.pair;
        let one = move |gap: &staywright::clearance::Clearance| Strip {
            name: gap.to.name().into(),
            topic: format!("room.{}", gap.to.key()),
            limit: gap.limit,
            points: clearances_along(plan, pair, hand, gap.to, 40),
            least: Some((gap.station, gap.distance)),
        };
        room.clearances.iter().map(one).collect::<Vec<_>>()
    };
    rooms.iter().filter(|room| room.hand == hand).flat_map(of).collect()
}

/// A saw of 40 mm by 45 mm on a stepped arbor at the end of a stroke of 60 mm along the spindle of a cut, or along the stay where
/// it is not round; two pieces of a tube and a post beside it.
fn way(plan: &Plan, at: CutAt) -> WayIn {
    let (stay, cut) = (at.stay(plan), at.cut(plan));
    let (point, direction) =
        cut.round().map_or((stay.rear_point, Vector3::y()), |cut| (cut.axis_point, cut.axis_direction));
    let (point, direction) = (Point3::from(stay.clamp.local(&point)), stay.clamp.local_direction(&direction));
    let axis = Line { point, direction };
    let back = if cut.round().is_some() { direction * 60.0 } else { Vector3::x() * 60.0 };
    let rod = |name: &str, part, axis, from, to, radius| Body {
        name: name.into(),
        part,
        solid: Convex::Rod(ConvexRod::cylinder(axis, from, to, radius)),
    };
    let tube = Line { point, direction: Vector3::new(0.8, 0.0, 0.6) };
    let post = ConvexBlock::between(
        point + Vector3::new(30.0, -12.0, -40.0),
        point + Vector3::new(50.0, 12.0, 10.0),
    );
    let bodies = vec![
        rod("saw", Part::Cutter, axis, -5.0, 40.0, 20.0),
        rod("", Part::Hollow, axis, -5.0, 36.0, 18.0),
        rod("arbor", Part::Carrier, axis, 40.0, 160.0, 9.5),
        rod("spindle nose", Part::Carrier, axis, 160.0, 220.0, 40.0),
        rod("right stay", Part::Work, tube, 20.0, 120.0, 11.0),
        rod("", Part::Work, tube, 120.0, 200.0, 11.0),
        Body { name: "post 1".into(), part: Part::Fixture, solid: Convex::Block(post) },
    ];
    let line = |name: &str, a: f64, b: f64, limit: f64| GapLine {
        name: name.into(),
        topic: name.into(),
        from: axis.at(a),
        to: axis.at(b),
        gap: mm(b - a),
        limit: mm(limit),
    };
    let left = vec![line("reach left", 30.0, 160.0, 0.0), line("depth left", 36.0, 30.0, 0.0)];
    WayIn { axis, bodies, back, gap: Some(line("saw to post", 1.0, 2.5, 2.0)), left }
}

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

fn bends(table: &[[f64; 4]]) -> Bends {
    let bend = |[before, rotation, angle, radius]: &[f64; 4]| Bend {
        before: mm(*before),
        rotation: Angle::from_degrees(*rotation),
        angle: Angle::from_degrees(*angle),
        radius: mm(*radius),
    };
    Bends::of(table.iter().map(bend))
}

/// Rear ends with bent stays and all that turns beside them: an S in the clamp plane, one with an oval stretch that leaves the
/// plane and a left side of its own, and seat stays with two bends beside straight chainstays.
fn bent_jobs() -> Vec<(&'static str, Job)> {
    let mut plain = starters()[1].job.clone();
    plain.chainstays.left = None;
    plain.surroundings = Some(Surroundings::starting());
    (plain.wheel.tyre_width, plain.wheel.tyre_height) = (mm(45.0), mm(45.0));
    let (mut flat, mut odd, mut high) = (plain.clone(), plain.clone(), plain);
    flat.chainstays.right.tube.bends = bends(&[[110.0, 0.0, 9.0, 160.0], [90.0, 180.0, 14.0, 160.0]]);
    let tube = &mut odd.chainstays.right.tube;
    tube.bends = bends(&[[90.0, 0.0, 12.0, 150.0], [60.0, 150.0, 20.0, 140.0], [60.0, 60.0, 8.0, 200.0]]);
    tube.bends.roll = Some(Angle::from_degrees(25.0));
    let mut left = odd.chainstays.right;
    left.tube.bends = bends(&[[120.0, 180.0, 10.0, 150.0]]);
    let oval = [mm(70.0), mm(110.0), mm(30.0), mm(15.0), mm(28.0)];
    let [from, to, blend, width, height] = oval;
    let press = Press { from, to, blend, width, height, roll: Angle::from_degrees(20.0) };
    left.tube.ovals = Ovals { list: [press].into_iter().collect() };
    odd.chainstays.left = Some(left);
    high.seatstays.right.tube.bends = bends(&[[60.0, 180.0, 25.0, 90.0], [120.0, 180.0, 22.0, 150.0]]);
    let jobs = vec![("flat", flat), ("odd", odd), ("high", high)];
    assert!(jobs.iter().all(|(_, job)| faults(job).is_empty()));
    jobs
}

fn points(sheet: &Sheet) -> Vec<Point> {
    let mut found = vec![sheet.min, sheet.max];
    for mark in &sheet.marks {
        match &mark.shape {
            Shape::Line { a, b } => found.extend([*a, *b]),
            Shape::Path { points, .. } => found.extend(points),
            Shape::Circle { at, radius } => found.extend([*at, Point::new(*radius, 0.0)]),
            Shape::Ring { at, radius, hole } => found.extend([*at, Point::new(*radius, *hole)]),
            Shape::Pill { min, max } => found.extend([*min, *max]),
            Shape::Text { at, .. } => found.push(*at),
        }
    }
    for handle in &sheet.handles {
        found.extend([handle.at, handle.pull.0]);
    }
    found
}

/// The boxes of a sheet's texts, from the estimate of 0.6 of the lettering's height a letter: left, top, right, bottom.
fn boxes(sheet: &Sheet, (width, height): (f64, f64)) -> Vec<(String, [f64; 4])> {
    let per_dot = ((sheet.max.x - sheet.min.x) / width).max((sheet.max.y - sheet.min.y) / height);
    let h = 16.0 * per_dot;
    let text = |mark: &Mark| {
        let Shape::Text { at, text, anchor } = &mark.shape else { return None };
        let wide = 0.6 * h * text.chars().count() as f64;
        let left = match anchor {
            Anchor::Start => at.x,
            Anchor::Middle => at.x - wide / 2.0,
            Anchor::End => at.x - wide,
        };
        Some((text.clone(), [left, at.y - 0.8 * h, left + wide, at.y + 0.2 * h]))
    };
    sheet.marks.iter().filter_map(text).collect()
}

#[test]
fn no_two_texts_overlap_and_all_lie_on_the_sheet() {
    let straight = starters().map(|starter| (starter.key, starter.job));
    for (key, job) in straight.into_iter().chain(bent_jobs()) {
        let plan = solve(&job);
        for room in ROOMS {
            for sheet in sheets(&plan, room) {
                let boxes = boxes(&sheet, room);
                for (i, (text, [left, top, right, bottom])) in boxes.iter().enumerate() {
                    // Both are sums of the same lengths, in another order.
                    let same = 1e-9;
                    let on = sheet.min.x <= *left + same
                        && *right <= sheet.max.x + same
                        && sheet.min.y <= *top + same
                        && *bottom <= sheet.max.y + same;
                    assert!(on, "{key} {}: {text} leaves the sheet", sheet.title);
                    for (other, [l, t, r, b]) in boxes.iter().skip(i + 1) {
                        let apart = right <= l || r <= left || bottom <= t || b <= top;
                        assert!(apart, "{key} {}: {text} lies on {other}", sheet.title);
                    }
                }
            }
        }
    }
}

/// The handles of the two rear points lie twice the rear half spacing apart, those of front and rear as the plan says.
#[test]
fn the_clamp_plane_is_true_to_scale() {
    for starter in starters() {
        let plan = solve(&starter.job);
        let room = Viewport { width: 840.0, height: 480.0, lettering: 16.0, unit: LengthUnit::Millimetre };
        let sheet = clamp_plane(&plan, PairName::Chainstays, room);
        let at = |name: &str| sheet.handles.iter().find(|handle| handle.name == name).unwrap().at;
        let (right, left) = (at("right rear half spacing"), at("left rear half spacing"));
        let side = &starter.job.chainstays.right;
        assert!((right.y - left.y - 2.0 * side.rear.half_spacing.mm()).abs() < 1e-9);
        let front = at("right front half spacing");
        let length = (right.x - front.x).hypot(right.y - front.y);
        assert!((length - plan.pairs.chainstays.right.length.mm()).abs() < 1e-9);
    }
}

/// A dropout that sits 2 mm further out is drawn further out by 2 mm times the factor that the sheet tells.
#[test]
fn stays_as_found_are_drawn_by_the_factor_that_is_told() {
    let plan = solve(&starters()[0].job);
    let room = Viewport { width: 840.0, height: 480.0, lettering: 16.0, unit: LengthUnit::Millimetre };
    let by = Differs { dropout: 2.0, ..Differs::default() };
    let sheet = as_found(&plan, PairName::Chainstays, [by, Differs::default()], room);
    let factor: f64 = sheet.text.split("drawn ").nth(1).unwrap().split(' ').next().unwrap().parse().unwrap();
    assert!(factor > 1.0);
    let found = sheet.marks.iter().filter_map(|mark| match &mark.shape {
        Shape::Circle { at, .. } => Some(*at),
        _ => None,
    });
    let stays = &plan.pairs.chainstays;
    let planned = [stays.right.rear_point.y, stays.left.rear_point.y];
    let moved: Vec<f64> = found.zip(planned).map(|(at, planned)| at.y - planned).collect();
    assert!((moved[0] - 2.0 * factor).abs() < 1e-9 && moved[1].abs() < 1e-9, "{moved:?}");
}

/// A tube's radius by the way from the front reference point, by its own taper.
fn radius(tube: &Tube, trim: f64, station: f64) -> f64 {
    let raw = station + trim;
    let share = ((raw - tube.taper_start.mm()) / (tube.taper_end - tube.taper_start).mm()).clamp(0.0, 1.0);
    0.5 * (tube.od_front.mm() + (tube.od_rear - tube.od_front).mm() * share)
}

/// Between its ends, each corner of a bent stay's outline lies as far from the middle line as the tube is thick there, and so
/// does the middle of each of its lines, but for 0.05 mm on a sheet lettered 16 points high.
#[test]
fn a_bent_outline_lies_one_radius_off_the_middle_line() {
    for (key, job) in bent_jobs() {
        let plan = solve(&job);
        let name = if key == "high" { PairName::Seatstays } else { PairName::Chainstays };
        let stay = &plan.pair(name).right;
        let (bent, clamp) = (stay.bent.as_ref().unwrap(), stay.clamp);
        for width in [342.0, 840.0] {
            let room = Viewport { width, height: 480.0, lettering: 16.0, unit: LengthUnit::Millimetre };
            let sheet = clamp_plane(&plan, name, room);
            let fine = 0.05 * (sheet.max.x - sheet.min.x) / (width * 25.4 / 96.0);
            // The middle line as it is seen, every twentieth of a millimetre.
            let end = stay.length.mm();
            let line: Vec<(f64, f64, f64)> = (0..=(20.0 * end) as u32)
                .map(|i| f64::from(i) / 20.0)
                .map(|s| (s, clamp.local(&bent.line.at(s).point)))
                .map(|(s, at)| (s, -at.x, at.y))
                .collect();
            let near = |p: Point| {
                let off = |(_, x, y): &(f64, f64, f64)| (p.x - x).hypot(p.y - y);
                let best = line.iter().min_by(|a, b| off(a).total_cmp(&off(b))).unwrap();
                (best.0, off(best))
            };
            let topic = Some(format!("{}.right", name.key()));
            let tube = Pen::Fill(Material::Tube);
            let outline = sheet.marks.iter().find_map(|mark| match &mark.shape {
                Shape::Path { points, closed: true } if mark.topic == topic && tube == mark.pen => {
                    Some(points.clone())
                }
                _ => None,
            });
            let outline = outline.unwrap();
            let mut looked_at = 0;
            for (a, b) in outline.iter().zip(&outline[1..]) {
                let middle = Point::new(0.5 * (a.x + b.x), 0.5 * (a.y + b.y));
                for (p, slack) in [(*a, 2e-3), (middle, fine)] {
                    let (station, off) = near(p);
                    if station < 30.0 || end - 12.0 < station {
                        continue;
                    }
                    looked_at += 1;
                    let wanted = radius(&job.pair(name).right.tube, bent.trim.mm(), station);
                    assert!((off - wanted).abs() < slack, "{key} {station}: {off} for {wanted}, {slack}");
                }
            }
            assert!(looked_at > 12, "{looked_at}");
            assert!(outline.len() < 180, "{}", outline.len());
        }
    }
}

/// A job with everything beside it, and chainstays of one bend where such a tube can be planned.
fn with_all(job: &Job) -> Job {
    let mut straight = job.clone();
    straight.surroundings = Some(Surroundings::starting());
    let mut bent = straight.clone();
    bent.chainstays.right.tube.bends = bends(&[[80.0, 30.0, 15.0, 120.0]]);
    if faults(&bent).is_empty() { bent } else { straight }
}

fn marks<'a>(sheet: &'a Sheet, pen: Pen, topic: &'a str) -> impl Iterator<Item = &'a Shape> {
    let found =
        sheet.marks.iter().filter(move |mark| mark.pen == pen && mark.topic.as_deref() == Some(topic));
    found.map(|mark| &mark.shape)
}

/// Seen from the side a chainring is a circle over its tips about the shell; without surroundings there is none.
#[test]
fn neighbours_are_drawn_as_large_as_they_are() {
    let mut job = starters()[0].job.clone();
    let sheet = side_view(&solve(&job), room(ROOMS[1]));
    assert!(sheet.marks.iter().all(|mark| mark.pen != Pen::Phantom));
    job.surroundings = Some(Surroundings::starting());
    let all = job.surroundings.unwrap();
    let sheet = side_view(&solve(&job), room(ROOMS[1]));
    let rings: Vec<&Shape> = marks(&sheet, Pen::Visible, "room.chainring[0]").collect();
    let [Shape::Ring { at, radius, .. }] = *rings.as_slice() else { panic!("{rings:?}") };
    let ring = all.rings.iter().next().unwrap();
    assert!((radius - 0.5 * tip_diameter(ring.teeth.number()).mm()).abs() < 1e-9);
    assert!(at.x.abs() < 1e-9 && at.y.abs() < 1e-9);
    // From above it is as thick as it is, and as far off the centre line.
    let sheet = clamp_plane(&solve(&job), PairName::Chainstays, room(ROOMS[1]));
    let edges: Vec<f64> = marks(&sheet, Pen::Phantom, "room.chainring[0]")
        .flat_map(|shape| match shape {
            Shape::Path { points, .. } => points.iter().map(|p| p.y).collect(),
            _ => Vec::new(),
        })
        .collect();
    let (low, high) =
        edges.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), y| (l.min(*y), h.max(*y)));
    let (middle, half) = (ring.chainline.mm(), 0.5 * ring.thickness.mm());
    assert!((low - middle + half).abs() < 1e-9 && (high - middle - half).abs() < 1e-9, "{low} {high}");
}

/// What is filled says which part it is, and every part of the rear triangle with its surroundings is there; in a clamp plane
/// no part of the other pair.
#[test]
fn what_is_filled_can_be_selected() {
    let mut job = starters()[0].job.clone();
    job.surroundings = Some(Surroundings::starting());
    let plan = solve(&job);
    let owners = |sheet: &Sheet| {
        let filled = sheet.marks.iter().filter(|mark| matches!(mark.pen, Pen::Fill(_)));
        filled.map(|mark| mark.part.unwrap()).collect::<std::collections::BTreeSet<_>>()
    };
    let all = owners(&side_view(&plan, room(ROOMS[1])));
    let missing = FramePart::ALL.into_iter().filter(|part| !all.contains(part));
    assert_eq!(missing.collect::<Vec<_>>(), [FramePart::Frame, FramePart::Crank]);
    let clamped = owners(&clamp_plane(&plan, PairName::Chainstays, room(ROOMS[1])));
    assert!(clamped.contains(&FramePart::Chainstays) && !clamped.contains(&FramePart::SeatStays));
}

/// What lies nearer is painted later: stays over the seat tube and the far rotor, the shell's face over the stays, the
/// chainring over the shell. The order follows from where each lies across the bicycle (the shell's face 36.5 mm out, the
/// chainring at 45 mm, the chainstay's front end at about 20 mm).
#[test]
fn the_near_side_is_painted_over_the_far_side() {
    let mut job = starters()[0].job.clone();
    job.surroundings = Some(Surroundings::starting());
    let sheet = side_view(&solve(&job), room(ROOMS[1]));
    let places = |part: FramePart| {
        let filled = |mark: &&Mark| matches!(mark.pen, Pen::Fill(_)) && mark.part == Some(part);
        let marks = sheet.marks.iter().enumerate();
        marks.filter(move |(_, mark)| filled(mark)).map(|(place, _)| place).collect::<Vec<_>>()
    };
    let order =
        [FramePart::Rotor, FramePart::Tire, FramePart::SeatTube, FramePart::Chainstays, FramePart::Shell];
    for pair in order.windows(2).chain([[FramePart::Shell, FramePart::Chainring].as_slice()]) {
        let (far, near) = (places(pair[0]), places(pair[1]));
        assert!(far.iter().max() < near.iter().min(), "{pair:?}");
    }
}

/// A gap is drawn from point to point; one that is less than is wanted is marked in its own way, and its figure says both.
#[test]
fn a_gap_lies_between_its_two_points() {
    let plan = solve(&starters()[0].job);
    let clamp = plan.pairs.chainstays.right.clamp;
    let at = |u: f64, v: f64| clamp.origin + clamp.u * u + clamp.v * v;
    let gap = |topic: &str, u: f64, room: f64| GapLine {
        name: "tyre".into(),
        topic: topic.into(),
        from: at(u, 20.0),
        to: at(u + 3.0, 24.0),
        gap: mm(room),
        limit: mm(6.0),
    };
    let all = [gap("wide", 200.0, 6.5), gap("tight", 250.0, 5.25)];
    let sheet = clamp_plane_with_gaps(&plan, PairName::Chainstays, &all, room((2400.0, 1400.0)));
    for (topic, pen, u) in [("wide", Pen::Thin, 200.0), ("tight", Pen::Tight, 250.0)] {
        let line = marks(&sheet, pen, topic).find_map(|shape| match shape {
            Shape::Line { a, b } if ((b.x - a.x).hypot(b.y - a.y) - 5.0).abs() < 1e-9 => Some((*a, *b)),
            _ => None,
        });
        let (a, b) = line.unwrap();
        assert!((a.x + u).abs() < 1e-9 && (a.y - 20.0).abs() < 1e-9 && (b.x + u + 3.0).abs() < 1e-9);
    }
    assert_eq!(marks(&sheet, Pen::Tight, "wide").count(), 0);
    let rings = marks(&sheet, Pen::Tight, "tight").filter(|shape| matches!(shape, Shape::Circle { .. }));
    assert_eq!(rings.count(), 1);
    let said = |words: &str| {
        sheet.marks.iter().any(|mark| matches!(&mark.shape, Shape::Text { text, .. } if text == words))
    };
    let texts: Vec<&Mark> = sheet.marks.iter().filter(|mark| mark.pen == Pen::Text).collect();
    assert!(said("tyre 5.25 < 6.00") && said("tyre 6.50"), "{texts:?}");
}

/// The strip is as wide as the clamp plane, and the place of the least room lies below its own place there, at its room's height
/// over the line of no room.
#[test]
fn the_strip_lines_up_with_the_clamp_plane() {
    for (key, job) in bent_jobs() {
        let plan = solve(&job);
        let found = clearances(&plan);
        for size in ROOMS {
            let above = clamp_plane(&plan, PairName::Chainstays, room(size));
            let about: Vec<StayClearances> =
                found.iter().filter(|room| room.pair == PairName::Chainstays).cloned().collect();
            for hand in Hand::ALL {
                let sheet =
                    room_strip(&plan, PairName::Chainstays, hand, &strips(&plan, &about, hand), room(size));
                assert_eq!((sheet.min.x, sheet.max.x), (above.min.x, above.max.x));
                let gaps = &about.iter().find(|room| room.hand == hand).unwrap().clearances;
                let tyre = gaps.iter().find(|gap| gap.to == Obstacle::Tyre).unwrap();
                let ring = marks(&sheet, Pen::Thin, "room.tyre").find_map(|shape| match shape {
                    Shape::Circle { at, .. } => Some(*at),
                    _ => None,
                });
                let Some(ring) = ring else {
                    assert!(tyre.distance.mm() > 12.0, "{key}");
                    continue;
                };
                let stay = plan.pairs.chainstays.stay(hand);
                let line = staywright::plan::stay_line(stay);
                let place = plan.pairs.chainstays.right.clamp.local(&line.at(tyre.station.mm()).point);
                assert!((ring.x + place.x).abs() < 1e-9, "{key}");
                assert_eq!(ring.y < 0.0, tyre.distance.mm() > 0.0, "{key}");
            }
        }
    }
}

/// Seen square to its axis the saw is as wide and as long as it is; two pieces of a tube have no line between them.
#[test]
fn the_way_in_is_true_to_scale() {
    let plan = solve(&starters()[0].job);
    let at = CutAt::FIRST;
    let sheet = way_in(at, &way(&plan, at), room(ROOMS[1]));
    let size = |points: &[Point]| {
        let extent = |of: fn(&Point) -> f64| {
            points.iter().map(of).fold(f64::NEG_INFINITY, f64::max)
                - points.iter().map(of).fold(f64::INFINITY, f64::min)
        };
        (extent(|p| p.x), extent(|p| p.y))
    };
    let saw = marks(&sheet, Pen::Cutter, "cutter_mm").next().unwrap();
    let Shape::Path { points, closed: true } = saw else { panic!("{saw:?}") };
    assert_eq!(points.len(), 4);
    let (wide, high) = size(points);
    assert!((wide - 40.0).abs() < 1e-9 && (high - 45.0).abs() < 1e-9, "{wide} {high}");
    let stroke = marks(&sheet, Pen::Text, "stroke_mm").next().unwrap();
    assert!(matches!(stroke, Shape::Text { text, .. } if text == "60.00"));
    let short = marks(&sheet, Pen::Tight, "depth left").count();
    assert_eq!((short, marks(&sheet, Pen::Tight, "reach left").count()), (1, 0));
    assert_eq!(sheet.text.matches("saw to post").count(), 1);
}

/// Each apex is told with its way off the centre line and off the clamp plane.
#[test]
fn bends_are_marked_with_what_levels_them() {
    for (key, job) in bent_jobs() {
        let name = if key == "high" { PairName::Seatstays } else { PairName::Chainstays };
        let plan = solve(&job);
        let sheet = clamp_plane(&plan, name, room((1600.0, 900.0)));
        let bent = plan.pair(name).right.bent.as_ref().unwrap();
        for bend in &bent.bends {
            let (off, up) = (bend.from_centre.mm(), bend.from_plane.mm());
            let way = if up < -0.005 { '↓' } else { '↑' };
            let words = format!("{off:.2} {way}{:.2}", up.abs());
            let told =
                |mark: &Mark| matches!(&mark.shape, Shape::Text { text, .. } if text.ends_with(&words));
            assert!(sheet.marks.iter().any(told), "{key}: {words}");
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn no_coordinate_is_ever_lost(job in support::good_job()) {
        for job in [with_all(&job), job] {
            let plan = solve(&job);
            for room in ROOMS {
                for sheet in sheets(&plan, room) {
                    for point in points(&sheet) {
                        prop_assert!(point.x.is_finite() && point.y.is_finite(), "{}", sheet.title);
                    }
                }
            }
        }
    }
}

#[test]
fn a_bent_tube_is_turned_by_its_furthest_apex_and_a_straight_one_not_at_all() {
    let handles = |job: &Job| {
        let sheet = clamp_plane(&solve(job), PairName::Chainstays, room(ROOMS[0]));
        let turns = sheet.handles.into_iter().filter(|handle| handle.path.ends_with("tube.roll_deg"));
        turns.collect::<Vec<_>>()
    };
    let mut job = Job::default();
    assert_eq!(handles(&job), []);
    // The second bend turns further, so that its apex stands further off the chord.
    let tube = &mut job.chainstays.right.tube;
    tube.bends = bends(&[[90.0, 0.0, 4.0, 150.0], [150.0, 180.0, 12.0, 150.0]]);
    tube.bends.roll = Some(Angle::from_degrees(30.0));
    let plan = solve(&job);
    let [right, left] = <[_; 2]>::try_from(handles(&job)).unwrap();
    let apex = plan.pairs.chainstays.right.bent.as_ref().unwrap().bends[1];
    for (handle, sign) in [(&right, 1.0), (&left, -1.0)] {
        // Left mirrors right: both turn the same figure, outwards on either side.
        assert_eq!(handle.path, "chainstays.right.tube.roll_deg");
        assert!((handle.value - 30.0).abs() < 1e-9);
        assert!((handle.at.x + apex.along.mm()).abs() < 1e-9);
        assert!((handle.at.y - sign * apex.from_centre.mm()).abs() < 1e-9);
        let Pull(along) = handle.pull;
        let stay = plan.pairs.chainstays.stay(if sign > 0.0 { Hand::Right } else { Hand::Left });
        let chord = stay.rear_point - stay.front_point;
        // Square to the chord; a degree for each dot of a sheet whose lettering is sixteen dots high.
        let sheet = clamp_plane(&plan, PairName::Chainstays, room(ROOMS[0]));
        let dot = (sheet.max.x - sheet.min.x) / ROOMS[0].0;
        assert!((along.x.hypot(along.y) / dot - 1.0).abs() < 1e-9);
        assert!(stay.clamp.local_direction(&chord).dot(&Vector3::new(-along.x, along.y, 0.0)).abs() < 1e-9);
    }
}

/// On either side, with the bend's apex above the chord or below it; flat, it comes up where it is pulled inwards.
#[test]
fn a_bent_tube_is_seen_to_turn_the_way_it_is_pulled() {
    let mut job = Job::default();
    job.chainstays.right.tube.bends = bends(&[[120.0, 0.0, 18.0, 150.0]]);
    let at = |job: &Job, which: usize| {
        let sheet = clamp_plane(&solve(job), PairName::Chainstays, room(ROOMS[0]));
        let mut turns = sheet.handles.into_iter().filter(|handle| handle.path.ends_with("tube.roll_deg"));
        turns.nth(which).unwrap()
    };
    for roll in [60.0, 100.0, -75.0, 250.0, -5.0, 175.0] {
        job.chainstays.right.tube.bends.roll = Some(Angle::from_degrees(roll));
        for (which, by) in [(0, 0.3), (0, -0.2), (1, 0.3), (1, -0.05)] {
            let before = at(&job, which);
            let Pull(along) = before.pull;
            let mut turned = job.clone();
            let to = before.value + before.pull.pulled(Point::new(along.x * by, along.y * by));
            assert!((to - before.value - by).abs() < 1e-9);
            turned.chainstays.right.tube.bends.roll = Some(Angle::from_degrees(to));
            let after = at(&turned, which).at;
            let goes = (after.x - before.at.x) * along.x + (after.y - before.at.y) * along.y;
            assert!(goes * by > 0.0, "{roll} {which} {by}");
        }
    }
    job.chainstays.right.tube.bends.roll = Some(Angle::from_degrees(0.0));
    assert!(at(&job, 0).pull.0.y < 0.0 && at(&job, 1).pull.0.y > 0.0);
}

/// What turns beside the stays is named once, by its figure or beside its outline.
#[test]
fn no_neighbour_is_named_twice() {
    for (key, job) in bent_jobs() {
        let plan = solve(&job);
        let found = clearances(&plan);
        for room in ROOMS {
            let about: Vec<StayClearances> =
                found.iter().filter(|one| one.pair == PairName::Chainstays).cloned().collect();
            let sheet = clamp_plane_with_gaps(&plan, PairName::Chainstays, &gaps(&about), self::room(room));
            let texts: Vec<String> = boxes(&sheet, room).into_iter().map(|(text, _)| text).collect();
            for name in texts.iter().filter(|text| text.chars().all(|c| c.is_alphabetic() || c == ' ')) {
                let times = texts
                    .iter()
                    .filter(|text| *text == name || text.starts_with(&format!("{name} ")))
                    .count();
                assert_eq!(times, 1, "{key}: {name} in {texts:?}");
            }
        }
    }
}

/// The tightest place of all has its figure on the sheet, however full that is.
#[test]
fn the_tightest_place_has_its_figure() {
    let file = Job::from_json(include_str!("../bench/bent_all_round.json")).unwrap();
    let mut seen = 0;
    for (key, job) in bent_jobs().into_iter().chain([("file", file)]) {
        let plan = solve(&job);
        let found = clearances(&plan);
        for (pair, room) in PairName::ALL.into_iter().flat_map(|pair| ROOMS.map(|room| (pair, room))) {
            let about: Vec<StayClearances> = found.iter().filter(|one| one.pair == pair).cloned().collect();
            let all = gaps(&about);
            let spare = |gap: &&GapLine| gap.gap.mm() - gap.limit.mm();
            let Some(least) = all.iter().min_by(|a, b| spare(a).total_cmp(&spare(b))) else { continue };
            let sheet = clamp_plane_with_gaps(&plan, pair, &all, self::room(room));
            let texts: Vec<String> = boxes(&sheet, room).into_iter().map(|(text, _)| text).collect();
            let words = format!("{} {:.2}", least.name, least.gap.mm()).replace('-', "−");
            assert!(
                !least.is_tight() || texts.iter().any(|text| text.starts_with(&words)),
                "{key}, {room:?}: {words} in {texts:?}"
            );
            seen += usize::from(least.is_tight());
        }
    }
    assert!(seen > 4);
}
