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
use staywright::plan::{Plan, solve};
use staywright::quantity::LengthUnit;
use staywright::trade::{Hand, PairName, starters};

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
    for starter in starters() {
        let plan = solve(&starter.job);
        for room in ROOMS {
            for sheet in sheets(&plan, room) {
                let boxes = boxes(&sheet, room);
                for (i, (text, [left, top, right, bottom])) in boxes.iter().enumerate() {
                    let on = sheet.min.x <= *left
                        && *right <= sheet.max.x
                        && sheet.min.y <= *top
                        && *bottom <= sheet.max.y;
                    assert!(on, "{} {}: {text} leaves the sheet", starter.key, sheet.title);
                    for (other, [l, t, r, b]) in boxes.iter().skip(i + 1) {
                        let apart = right <= l || r <= left || bottom <= t || b <= top;
                        assert!(apart, "{} {}: {text} lies on {other}", starter.key, sheet.title);
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
