//! The fixture on the machine, spindle upright, as whoever stands at the machine sees it.

use super::along_spindle::table_way;
use super::area::Area;
use super::canvas::{Canvas, Margins};
use super::sheet::{Anchor, Pen, Point, Sheet, Viewport};
use super::view::View;
use crate::plan::{CutAt, EndUp, Plan, RoundCut};
use crate::units::{Angle, fixed};
use nalgebra::Vector3;
use std::f64::consts::PI;

/// How far the fixture is drawn before the front datum and behind the last post, mm.
const OVER: f64 = 35.0;

/// A tilt less than this, in degrees, is no angle on a sheet.
const SEEN: f64 = 0.5;

/// What a drawing of the fixture must know of the machine that it stands on.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct OnMachine {
    /// Whether the rear ends point to the left of whoever stands at the machine.
    pub rear_left: bool,
    /// What the gauge shows when the fixture is tilted; `None` for one that shows 0 on the table.
    pub gauge: Option<Angle>,
}

/// How the fixture stands for one round cut: stay plane, base, posts, spindle, tilt, and what the gauge on it shows. An end of
/// another kind gives an empty sheet that says so.
pub fn fixture_tilt(plan: &Plan, place: CutAt, machine: OnMachine, viewport: Viewport) -> Sheet {
    match place.cut(plan).round() {
        Some(cut) if cut.setting.on_side => on_side(plan, place, cut, viewport),
        Some(cut) => tilted(plan, place, (cut, machine), viewport),
        None => {
            let margins = Margins { left: 1.0, right: 1.0, top: 1.0, bottom: 1.0 };
            let text = format!("The {} needs no tilt.", place.name());
            // As low as a line of text.
            let ends = [Point::new(-1.0, 0.0), Point::new(1.0, 0.05)];
            let mut canvas = Canvas::new(title(place), Area::of(ends), margins, viewport);
            canvas.note("", "needs no tilt", &[(Point::new(0.0, 0.0), Anchor::Middle)]);
            canvas.finish(text)
        }
    }
}

fn title(place: CutAt) -> String {
    let end = if place.at_front { "front" } else { "rear" };
    format!("Fixture on the table, {end} ends of the {}", place.pair.name())
}

/// Half a rectangle of the fixture's body, as corners along `u` and `w`.
fn body(plan: &Plan, place: CutAt) -> [(f64, f64); 4] {
    let fixture = &plan.job.fixture;
    let high = fixture.bench.clamp_height.mm();
    let last = fixture.posts.iter().map(|post| post.mm()).fold(0.0, f64::max);
    let end = last.min(place.stay(plan).length.mm()) + OVER;
    [(-OVER, 0.0), (end, 0.0), (end, -high), (-OVER, -high)]
}

/// The gauge's reading.
fn reading(cut: &RoundCut, machine: OnMachine) -> Angle {
    machine.gauge.unwrap_or_else(|| cut.setting.tilt.complement())
}

fn tilted(plan: &Plan, place: CutAt, (cut, machine): (&RoundCut, OnMachine), viewport: Viewport) -> Sheet {
    let clamp = &place.stay(plan).clamp;
    let up = upwards(clamp.w, cut.axis_direction);
    // The view's own right is where the front ends point.
    let rearwards = table_way(plan, place, &cut.axis_direction);
    let view = View::upright(clamp, if machine.rear_left { rearwards } else { -rearwards }, up);
    let at = |u: f64, w: f64| view.point(&(clamp.origin + clamp.u * u + clamp.w * w));
    let corners = body(plan, place).map(|(u, w)| at(u, w));
    let middle = view.point(&cut.axis_point);
    let radius = 0.5 * cut.cutter.mm();
    let plane_y = at(0.0, 0.0).y;
    let nose = Point::new(middle.x, plane_y - 90.0);
    let mut extent = corners.to_vec();
    extent.extend([nose.plus(radius, -10.0), nose.plus(-radius, -10.0)]);
    let margins = Margins { left: 2.5, right: 2.5, top: 1.5, bottom: 2.6 };
    let mut canvas = Canvas::new(title(place), Area::of(extent), margins, viewport);
    let table = corners.iter().map(|corner| corner.y).fold(f64::NEG_INFINITY, f64::max);
    canvas.line(Pen::Visible, "", Point::new(canvas.left(), table), Point::new(canvas.right(), table));
    canvas.path(Pen::Visible, "", corners.to_vec(), true);
    for post in &plan.job.fixture.posts {
        canvas.line(
            Pen::Thin,
            "fixture.posts_u_mm",
            at(post.mm(), -plan.job.fixture.bench.clamp_height.mm()),
            at(post.mm(), 14.0),
        );
    }
    let [a, b] = [-OVER - 15.0, place.stay(plan).length.mm().min(260.0)].map(|u| at(u, 0.0));
    canvas.line(Pen::Axis, "tilt_deg", a, b);
    cutter(&mut canvas, middle.x, nose.y, plane_y, radius);
    let (front, rear) = (at(0.0, 0.0), at(1.0, 0.0));
    let toward = Point::new(rear.x - front.x, rear.y - front.y);
    tilt_figures(&mut canvas, (cut, machine), toward, Point::new(middle.x, plane_y), table);
    canvas.finish(sentence(place, cut, machine))
}

/// Where the table's level and the stay plane run on the sheet, both to the rear: angles clockwise from its right.
fn sides(rearwards: Point) -> (f64, f64) {
    let plane = rearwards.y.atan2(rearwards.x);
    if rearwards.x >= 0.0 {
        (0.0, plane)
    } else if plane > 0.0 {
        (PI, plane)
    } else {
        (-PI, plane)
    }
}

/// A spindle points away from the table on the side of the stay plane's upper face.
fn upwards(w: Vector3<f64>, axis: Vector3<f64>) -> Vector3<f64> {
    if axis.dot(&w) < 0.0 { -axis } else { axis }
}

/// The hole saw, coming down.
fn cutter(canvas: &mut Canvas, x: f64, top: f64, plane: f64, radius: f64) {
    let mouth = plane - 30.0;
    let points = [(-radius, mouth), (-radius, top + 20.0), (radius, top + 20.0), (radius, mouth)];
    canvas.path(Pen::Cutter, "cutter_mm", points.map(|(dx, y)| Point::new(x + dx, y)).to_vec(), true);
    canvas.line(Pen::Axis, "tilt_deg", Point::new(x, top), Point::new(x, plane + 40.0));
}

/// The angle that the gauge shows, at the crossing of spindle and stay plane, and its reading below the table. `rearwards` is the
/// stay plane's direction on the sheet.
fn tilt_figures(
    canvas: &mut Canvas,
    (cut, machine): (&RoundCut, OnMachine),
    rearwards: Point,
    crossing: Point,
    table: f64,
) {
    let h = canvas.letter;
    let setting = &cut.setting;
    let shown = reading(cut, machine);
    if setting.tilt.complement().degrees() >= SEEN {
        let radius = (5.0 * h).max(60.0);
        let (level, plane) = sides(rearwards);
        let end = crossing.plus(radius * level.cos(), radius * level.sin());
        canvas.line(Pen::Thin, "tilt_deg", crossing, end);
        canvas.angle("tilt_deg", shown, crossing, level, plane, radius);
    }
    let words = format!("gauge along the fixture {}°", fixed(shown.degrees(), 2));
    let short = format!("gauge {}°", fixed(shown.degrees(), 2));
    let centre = 0.5 * (canvas.left() + canvas.right());
    let below = [(Point::new(centre, table + 1.3 * h), Anchor::Middle)];
    if canvas.note("tilt_deg", &words, &below).is_none() {
        canvas.note("tilt_deg", &short, &below);
    }
    let up = match setting.end_up {
        EndUp::Front => "front end up",
        EndUp::Rear => "rear end up",
        EndUp::Level => "level",
        EndUp::Either => "either end up",
    };
    let places = [
        (Point::new(canvas.right() - 0.3 * h, table - 0.5 * h), Anchor::End),
        (Point::new(canvas.left() + 0.3 * h, table - 0.5 * h), Anchor::Start),
        (Point::new(centre, table + 2.4 * h), Anchor::Middle),
    ];
    canvas.note("end_up", up, &places);
}

/// On its side the fixture is seen from its front: centre plane level, base face upright.
fn on_side(plan: &Plan, place: CutAt, cut: &RoundCut, viewport: Viewport) -> Sheet {
    let bench = &plan.job.fixture.bench;
    let (high, half) = (bench.clamp_height.mm(), 0.5 * bench.block_width.mm());
    let above = cut.setting.dro_across.mm() - high;
    let radius = 0.5 * cut.cutter.mm();
    let top = -half - 90.0;
    let extent = [Point::new(-high, half), Point::new(above + radius, top - 10.0), Point::new(30.0, 0.0)];
    let margins = Margins { left: 3.0, right: 3.0, top: 1.5, bottom: 2.8 };
    let mut canvas = Canvas::new(title(place), Area::of(extent), margins, viewport);
    let h = canvas.letter;
    canvas.line(Pen::Visible, "", Point::new(canvas.left(), half), Point::new(canvas.right(), half));
    let block = [(-high, -half), (-0.35 * high, -half), (-0.35 * high, half), (-high, half)];
    canvas.path(Pen::Visible, "fixture.block_width_mm", block.map(|(x, y)| Point::new(x, y)).to_vec(), true);
    canvas.line(Pen::Axis, "", Point::new(-high - 8.0, 0.0), Point::new(above.max(0.0) + 40.0, 0.0));
    canvas.line(Pen::Axis, "", Point::new(0.0, -half - 12.0), Point::new(0.0, half - 3.0));
    cutter(&mut canvas, above, top, -half + 4.0, radius);
    let text = canvas.figure(cut.setting.dro_across);
    let row = Point::new(0.0, half + 1.5 * h);
    canvas.dimension("dro_across_mm", &text, Point::new(-high, 0.0), Point::new(above, 0.0), row);
    let right = (Point::new(canvas.right() - 0.3 * h, half - 0.5 * h), Anchor::End);
    canvas.note("on_side", "on its side", &[right]);
    canvas.finish(sentence(place, cut, OnMachine::default()))
}

fn sentence(place: CutAt, cut: &RoundCut, machine: OnMachine) -> String {
    let setting = &cut.setting;
    let up = match setting.end_up {
        EndUp::Front => "its front end up",
        EndUp::Rear => "its rear end up",
        EndUp::Level => "level",
        EndUp::Either => "upright, either end up",
    };
    if setting.on_side {
        return format!(
            "For the {} the fixture stands on its side, its centre plane square to the spindle.",
            place.name()
        );
    }
    format!(
        "For the {} the fixture tilts, {up}, until the gauge reads {}°: {}° are then between stay plane and spindle.",
        place.name(),
        fixed(reading(cut, machine).degrees(), 2),
        fixed(setting.tilt.degrees(), 2)
    )
}
