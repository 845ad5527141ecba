//! Drawings: legible, true to scale, and never a coordinate that is not a number.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    reason = "a test may fail"
)]

mod support;

use proptest::prelude::*;
use staywright::drawing::{
    Anchor, Differs, Place, Point, Room, Shape, Sheet, along_spindle, as_found, clamp_plane, fixture_tilt,
    profile, side_view,
};
use staywright::plan::{Plan, faults, solve};
use staywright::quantity::{Angle, Length, LengthUnit};
use staywright::trade::{Bend, Bends, Hand, Job, Ovals, PairName, Press, Surroundings, Tube, starters};

const ROOMS: [(f64, f64); 2] = [(342.0, 440.0), (840.0, 480.0)];

fn sheets(plan: &Plan, (width, height): (f64, f64)) -> Vec<Sheet> {
    let room = Room { width, height, lettering: 16.0, unit: LengthUnit::Millimetre };
    let mut sheets = vec![side_view(plan, room)];
    for pair in PairName::ALL {
        sheets.push(clamp_plane(plan, pair, room));
        let long = Differs { length: 1.5, front_angle: -0.2, dropout: 0.4 };
        for differs in [[long, Differs::default()], [Differs { length: 1e9, ..long }, long]] {
            sheets.push(as_found(plan, pair, differs, room));
        }
        for hand in Hand::ALL {
            for at_front in [true, false] {
                let place = Place { pair, hand, at_front };
                let all = [along_spindle, profile, fixture_tilt];
                sheets.extend(all.map(|draw| draw(plan, place, room)));
            }
        }
    }
    sheets
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
            Shape::Text { at, .. } => found.push(*at),
        }
    }
    found.extend(sheet.handles.iter().flat_map(|handle| [handle.at, handle.along]));
    found
}

/// The boxes of a sheet's texts, from the estimate of 0.6 of the lettering's height a letter: left, top, right, bottom.
fn boxes(sheet: &Sheet, (width, height): (f64, f64)) -> Vec<(String, [f64; 4])> {
    let per_dot = ((sheet.max.x - sheet.min.x) / width).max((sheet.max.y - sheet.min.y) / height);
    let h = 16.0 * per_dot;
    let text = |mark: &staywright::drawing::Mark| {
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
                    let on = sheet.min.x <= *left
                        && *right <= sheet.max.x
                        && sheet.min.y <= *top
                        && *bottom <= sheet.max.y;
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
        let room = Room { width: 840.0, height: 480.0, lettering: 16.0, unit: LengthUnit::Millimetre };
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
    let room = Room { width: 840.0, height: 480.0, lettering: 16.0, unit: LengthUnit::Millimetre };
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
            let room = Room { width, height: 480.0, lettering: 16.0, unit: LengthUnit::Millimetre };
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
            let outline = sheet.marks.iter().find_map(|mark| match &mark.shape {
                Shape::Path { points, closed: true } if mark.topic == topic => Some(points.clone()),
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

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn no_coordinate_is_ever_lost(job in support::good_job()) {
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
