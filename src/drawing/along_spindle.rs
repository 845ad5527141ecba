//! What is seen looking down the cutter.

use super::area::Area;
use super::canvas::{Canvas, Margins};
use super::frame_part::FramePart;
use super::sheet::{Anchor, Pen, Point, Sheet, Viewport};
use super::tube::Drawn;
use super::view::View;
use crate::model::Hand;
use crate::plan::{Cut, CutAt, Plan, RoundCut, Setting, SlotCut};
use nalgebra::Vector3;

/// The cutter's circle, the tubes it meets, the touched edge and the two table moves of one cut.
pub fn along_spindle(plan: &Plan, place: CutAt, viewport: Viewport) -> Sheet {
    match place.cut(plan) {
        Cut::Cope(cut) | Cut::Boss(cut) => round(plan, place, cut, viewport),
        Cut::Slot(cut) => slot(plan, place, cut, viewport),
        Cut::Square(_) => square(plan, place, viewport),
    }
}

const TITLE: &str = "Along the spindle";

fn drawn<'a>(plan: &'a Plan, place: CutAt, hand: Hand, view: View) -> Drawn<'a> {
    Drawn::new(plan.pair(place.pair).stay(hand), &plan.job.pair(place.pair).side(hand).tube, view)
}

/// The unit vector of the table's long way, rearwards and square to the spindle.
pub(super) fn table_way(plan: &Plan, place: CutAt, axis: &Vector3<f64>) -> Vector3<f64> {
    let clamp = &place.stay(plan).clamp;
    let a = clamp.local_direction(axis);
    if a.x.abs() < 1e-9 {
        return clamp.u;
    }
    if a.z.abs() < 1e-9 {
        return clamp.w;
    }
    let way = (clamp.u * a.z - clamp.w * a.x).normalize();
    if way.dot(&clamp.u) < 0.0 { -way } else { way }
}

fn round(plan: &Plan, place: CutAt, cut: &RoundCut, viewport: Viewport) -> Sheet {
    let stay = place.stay(plan);
    let setting = &cut.setting;
    let view = if setting.on_side {
        View::fixture_side(&stay.clamp)
    } else {
        View::along(&stay.clamp, table_way(plan, place, &cut.axis_direction))
    };
    let middle = view.point(&cut.axis_point);
    let datum = touched(setting, middle);
    let radius = 0.5 * cut.cutter.mm().max(cut.member.mm());
    let tube = drawn(plan, place, place.hand, view);
    let mut corners = vec![
        middle.plus(radius, radius),
        middle.plus(-radius, -radius),
        datum,
        Point::new(middle.x, datum.y),
    ];
    corners.extend(near_end(&tube, place, radius));
    let margins = Margins { left: 2.5, right: 2.5, top: 2.2, bottom: 3.4 };
    let mut canvas = Canvas::new(TITLE, Area::of(corners.iter().copied()), margins, viewport);
    if !setting.on_side {
        let other = if place.hand == Hand::Right { Hand::Left } else { Hand::Right };
        drawn(plan, place, other, view).draw(&mut canvas, FramePart::of_pair(place.pair), "");
        canvas.line(Pen::Axis, "", Point::new(canvas.left(), middle.y), Point::new(canvas.right(), middle.y));
    }
    tube.draw(
        &mut canvas,
        FramePart::of_pair(place.pair),
        &format!("{}.{}", place.pair.key(), place.hand.key()),
    );
    circles(&mut canvas, cut, middle);
    let low = corners.iter().map(|corner| corner.y).fold(f64::NEG_INFINITY, f64::max);
    edge_lines(&mut canvas, datum.x, datum.y, low);
    table_moves(&mut canvas, cut, middle, datum, low);
    cutter_size(&mut canvas, cut, middle, radius);
    let text = round_text(&canvas, place, cut);
    canvas.finish(text)
}

/// Where the touched edge stands along the table, and the touched face across it. Along the spindle every place of its axis is the
/// same; the sheet has its own zero there.
fn touched(setting: &Setting, middle: Point) -> Point {
    let across = setting.dro_across.mm();
    middle.plus(setting.dro_along.mm(), if setting.on_side { across } else { -across })
}

/// The cutter, and what it is to fit where that is of another size.
fn circles(canvas: &mut Canvas, cut: &RoundCut, middle: Point) {
    let [cutter, member] = [cut.cutter, cut.member].map(|diameter| 0.5 * diameter.mm());
    if cutter != member {
        canvas.circle(Pen::Hidden, "member_mm", middle, member);
    }
    canvas.circle(Pen::Cutter, "cutter_mm", middle, cutter);
    canvas.cross("", middle, cutter.max(member) + 6.0);
}

/// From the touched datum to the cutter's middle, along the table below everything and across it beside the cutter.
fn table_moves(canvas: &mut Canvas, cut: &RoundCut, middle: Point, datum: Point, low: f64) {
    let h = canvas.letter;
    let radius = 0.5 * cut.cutter.mm().max(cut.member.mm());
    let text = canvas.figure(cut.setting.dro_along);
    let row = Point::new(0.0, low - middle.y + 1.6 * h);
    canvas.dimension("dro_along_mm", &text, Point::new(datum.x, middle.y), middle, row);
    let text = canvas.figure(cut.setting.dro_across);
    let off = Point::new(-radius - 1.2 * h, 0.0);
    canvas.dimension("dro_across_mm", &text, Point::new(middle.x, datum.y), middle, off);
}

fn cutter_size(canvas: &mut Canvas, cut: &RoundCut, middle: Point, radius: f64) {
    let h = canvas.letter;
    let size = format!("⌀ {}", canvas.figure(cut.cutter));
    let places = [
        (middle.plus(0.0, -radius - 0.5 * h), Anchor::Middle),
        (middle.plus(radius + 0.5 * h, -0.5 * h), Anchor::Start),
        (middle.plus(0.0, radius + 1.1 * h), Anchor::Middle),
    ];
    canvas.note("cutter_mm", &size, &places);
}

fn round_text(canvas: &Canvas, place: CutAt, cut: &RoundCut) -> String {
    let side = if cut.setting.on_side { "the base face" } else { "the touched side of the block" };
    format!(
        "Looking down the spindle at the {}: the cutter, {} across, stands {} from the touched datum edge along the table and {} \
         from {side}.",
        place.name(),
        canvas.said(cut.cutter),
        canvas.said(cut.setting.dro_along),
        canvas.said(cut.setting.dro_across),
    )
}

/// The part of the stay near its cut that must be on the sheet.
fn near_end(tube: &Drawn<'_>, place: CutAt, radius: f64) -> Vec<Point> {
    let tip = tube.tip(place.at_front);
    let inwards = if place.at_front { 1.0 } else { -1.0 };
    [0.0, 2.0 * radius + 20.0].map(|s| tube.on_axis(tip + inwards * s)).to_vec()
}

/// The touched datum edge and the face that the other way is counted from.
fn edge_lines(canvas: &mut Canvas, datum_x: f64, across_y: f64, low: f64) {
    let h = canvas.letter;
    let high = across_y.min(low) - 0.5 * h;
    canvas.line(
        Pen::Visible,
        "fixture.touch_u_mm",
        Point::new(datum_x, high),
        Point::new(datum_x, low.max(across_y)),
    );
    canvas.line(Pen::Visible, "", Point::new(canvas.left(), across_y), Point::new(canvas.right(), across_y));
}

fn slot(plan: &Plan, place: CutAt, cut: &SlotCut, viewport: Viewport) -> Sheet {
    let stay = place.stay(plan);
    let view = View::fixture_side(&stay.clamp);
    let tube = drawn(plan, place, place.hand, view);
    let root = tube.on_axis(cut.root.mm());
    let mouth = tube.on_axis(cut.mouth.mm());
    let datum_x = root.x + cut.dro_along.mm();
    let corners = [root.plus(0.0, -20.0), mouth.plus(0.0, 20.0), Point::new(datum_x, root.y)];
    let margins = Margins { left: 1.5, right: 1.5, top: 1.5, bottom: 3.4 };
    let mut canvas = Canvas::new(TITLE, Area::of(corners), margins, viewport);
    tube.draw(
        &mut canvas,
        FramePart::of_pair(place.pair),
        &format!("{}.{}", place.pair.key(), place.hand.key()),
    );
    let h = canvas.letter;
    canvas.line(Pen::Cutter, "root_s_mm", root.plus(0.0, -16.0), root.plus(0.0, 16.0));
    canvas.line(
        Pen::Visible,
        "fixture.touch_u_mm",
        Point::new(datum_x, root.y - 20.0),
        Point::new(datum_x, root.y + 20.0),
    );
    let text = canvas.figure(cut.dro_along);
    let row = Point::new(0.0, 20.0 + 1.6 * h);
    canvas.dimension("dro_along_mm", &text, Point::new(datum_x, root.y), root, row);
    let text = format!(
        "Looking along the spindle at the {}: the saw comes from the open end and stops at the slot's root, {} from the touched \
         datum edge; its middle runs {} from the centre plane.",
        place.name(),
        canvas.said(cut.dro_along),
        canvas.said(cut.from_centre),
    );
    canvas.finish(text)
}

fn square(plan: &Plan, place: CutAt, viewport: Viewport) -> Sheet {
    let view = View::clamp_plane(&place.stay(plan).clamp);
    let tube = drawn(plan, place, place.hand, view);
    let margins = Margins { left: 1.5, right: 1.5, top: 1.5, bottom: 1.5 };
    let mut canvas = Canvas::new("Square end", Area::of(near_end(&tube, place, 30.0)), margins, viewport);
    tube.draw(
        &mut canvas,
        FramePart::of_pair(place.pair),
        &format!("{}.{}", place.pair.key(), place.hand.key()),
    );
    let text = format!("The {} is cut square to the tube, at its reference point.", place.name());
    canvas.finish(text)
}
