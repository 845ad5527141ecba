//! The rear triangle from the drive side.

use super::area::Area;
use super::canvas::{Canvas, Margins};
use super::gaps::{GapLine, draw_figures, draw_lines, gaps_said};
use super::neighbours::{beside, draw_names};
use super::sheet::{Pen, Point, Sheet, Viewport};
use super::side_parts::{SideParts, on_seat_tube, tube_top, tyre_radius};
use super::view::View;
use crate::clearance::Obstacle;
use crate::model::PairName;
use crate::plan::Plan;
use crate::units::fixed;
use nalgebra::Point3;
use std::f64::consts::PI;

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
    SideParts { plan, view, beside: &beside }.draw(&mut canvas);
    draw_lines(&mut canvas, &view, gaps);
    dimensions(plan, view, &mut canvas);
    draw_figures(&mut canvas, &view, gaps, true);
    draw_figures(&mut canvas, &view, gaps, false);
    draw_names(&mut canvas, &beside);
    let text = sentence(plan, &canvas, gaps);
    canvas.finish(text)
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
