//! The rear triangle from the drive side.

use super::area::Area;
use super::canvas::{Canvas, Margins};
use super::gaps::{GapLine, draw_figures, draw_lines, gaps_said};
use super::neighbours::{beside, draw_names};
use super::sheet::{Pen, Point, Sheet, Viewport};
use super::tube::Drawn;
use super::view::View;
use crate::clearance::Obstacle;
use crate::model::{Hand, PairName};
use crate::plan::Plan;
use crate::units::fixed;
use nalgebra::Point3;
use std::f64::consts::PI;

/// Beyond the seat stays' place the seat tube goes on by this much, mm.
const TUBE_OVER: f64 = 50.0;

/// Shell, seat tube, stays, axle, tyre, all to one scale, with the frame's dimensions.
pub fn side_view(plan: &Plan, viewport: Viewport) -> Sheet {
    side_view_with_gaps(plan, &[], viewport)
}

/// The same with the room to what turns beside the stays, where that is known.
pub fn side_view_with_gaps(plan: &Plan, gaps: &[GapLine], viewport: Viewport) -> Sheet {
    let view = View::side();
    let margins = Margins { left: 0.6, right: 2.4, top: 1.0, bottom: 2.0 };
    let mut canvas = Canvas::new("Side view", Area::of(corners(plan, view)), margins, viewport);
    let beside = beside(plan, PairName::Chainstays, &view, canvas.area(), |to| {
        !matches!(to, Obstacle::Rotor | Obstacle::Caliper)
    });
    wheel(plan, view, &mut canvas, beside.is_empty());
    for beside in &beside {
        beside.draw(&mut canvas);
    }
    triangle(plan, view, &mut canvas);
    draw_lines(&mut canvas, &view, gaps);
    dimensions(plan, view, &mut canvas);
    draw_figures(&mut canvas, &view, gaps, true);
    draw_figures(&mut canvas, &view, gaps, false);
    draw_names(&mut canvas, &beside);
    let text = sentence(plan, &canvas, gaps);
    canvas.finish(text)
}

/// From the axle to the tread.
fn tyre_radius(plan: &Plan) -> f64 {
    0.5 * plan.job.wheel.bead_seat.mm() + plan.job.wheel.tyre_height.mm()
}

/// Station on the seat tube to which it is drawn.
fn tube_top(plan: &Plan) -> f64 {
    plan.job.seatstay_node.front_station.mm() + TUBE_OVER
}

fn on_seat_tube(plan: &Plan, view: View, station: f64) -> Point {
    view.point(&(plan.seat_tube_foot + plan.seat_tube_direction * station))
}

/// What the sheet must hold.
fn corners(plan: &Plan, view: View) -> [Point; 5] {
    let frame = &plan.job.frame;
    let (axle, tyre, shell) = (view.point(&plan.axle), tyre_radius(plan), 0.5 * frame.shell_od.mm());
    [
        axle.plus(-tyre, -tyre),
        axle.plus(tyre, tyre),
        on_seat_tube(plan, view, tube_top(plan)),
        Point::new(shell, shell),
        Point::new(frame.seat_tube_od.mm(), 0.0),
    ]
}

/// The bead seat, and the tyre where it is not drawn among what turns.
fn wheel(plan: &Plan, view: View, canvas: &mut Canvas, with_tyre: bool) {
    let axle = view.point(&plan.axle);
    if with_tyre {
        canvas.circle(Pen::Hidden, "wheel.tyre_height_mm", axle, tyre_radius(plan));
    }
    canvas.circle(Pen::Thin, "wheel.bead_seat_mm", axle, 0.5 * plan.job.wheel.bead_seat.mm());
}

/// Seat tube, stays, shell and axle.
fn triangle(plan: &Plan, view: View, canvas: &mut Canvas) {
    seat_tube(plan, view, canvas, tube_top(plan));
    for name in PairName::ALL {
        let tube = &plan.job.pair(name).side(Hand::Right).tube;
        Drawn::new(&plan.pair(name).right, tube, view).draw(canvas, name.key());
    }
    let (origin, axle) = (view.point(&Point3::origin()), view.point(&plan.axle));
    let shell = 0.5 * plan.job.frame.shell_od.mm();
    canvas.circle(Pen::Visible, "frame.shell_od_mm", origin, shell);
    canvas.cross("", origin, shell + 8.0);
    canvas.circle(Pen::Visible, "frame.axle_spacing_mm", axle, 6.0);
    canvas.cross("", axle, 16.0);
}

fn sentence(plan: &Plan, canvas: &Canvas, gaps: &[GapLine]) -> String {
    let said = |length| canvas.said(length);
    let frame = &plan.job.frame;
    format!(
        "The rear triangle from the drive side, to scale: chainstay length {}, bottom bracket drop {}, seat angle {}°, seat \
         stays {} up the seat tube, tyre {} wide.{}",
        said(frame.chainstay_length),
        said(frame.bb_drop),
        fixed(frame.seat_angle.degrees(), 1),
        said(plan.job.seatstay_node.front_station),
        said(plan.job.wheel.tyre_width),
        gaps_said(canvas, gaps),
    )
}

fn seat_tube(plan: &Plan, view: View, canvas: &mut Canvas, top: f64) {
    let half = 0.5 * plan.job.frame.seat_tube_od.mm();
    let e = view.direction(&plan.seat_tube_direction);
    let at = |station: f64, side: f64| {
        on_seat_tube(plan, view, station).plus(-e.y * half * side, e.x * half * side)
    };
    let foot = 0.5 * plan.job.frame.shell_od.mm();
    for side in [-1.0, 1.0] {
        canvas.line(Pen::Visible, "frame.seat_tube_od_mm", at(foot, side), at(top, side));
    }
    canvas.line(Pen::Axis, "frame.seat_angle_deg", at(-30.0, 0.0), at(top + 15.0, 0.0));
}

fn dimensions(plan: &Plan, view: View, canvas: &mut Canvas) {
    let frame = &plan.job.frame;
    let (shell, axle) = (view.point(&Point3::origin()), view.point(&plan.axle));
    let row = 2.2 * canvas.letter;
    let text = canvas.figure(frame.chainstay_length);
    let below = 0.5 * frame.shell_od.mm() + row;
    let length = shell.distance(axle).max(1.0);
    let square = Point::new(-(axle.y - shell.y) / length * below, (axle.x - shell.x) / length * below);
    let square = if square.y < 0.0 { Point::new(-square.x, -square.y) } else { square };
    canvas.dimension("frame.chainstay_length_mm", &text, axle, shell, square);
    let text = canvas.figure(frame.bb_drop);
    let beside = Point::new(axle.x, shell.y);
    canvas.line(Pen::Thin, "frame.bb_drop_mm", shell, beside.plus(-row, 0.0));
    canvas.dimension("frame.bb_drop_mm", &text, axle, beside, Point::new(-row, 0.0));
    let foot = view.point(&plan.seat_tube_foot);
    // On the sheet the seat tube leans to the left; its angle is taken from the level line behind the shell.
    let tube = PI + frame.seat_angle.radians();
    let radius = (0.5 * frame.shell_od.mm() + 4.0 * canvas.letter).min(200.0);
    canvas.angle("frame.seat_angle_deg", frame.seat_angle, foot, PI, tube, radius);
    let node = plan.seat_tube_foot + plan.seat_tube_direction * plan.job.seatstay_node.front_station.mm();
    let text = canvas.figure(plan.job.seatstay_node.front_station);
    let e = view.direction(&plan.seat_tube_direction);
    let off = 0.5 * frame.seat_tube_od.mm() + 1.5 * canvas.letter;
    let square = Point::new(-e.y * off, e.x * off);
    canvas.dimension("seatstays.front_station_mm", &text, foot, view.point(&node), square);
}
