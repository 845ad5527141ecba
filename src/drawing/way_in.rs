//! The cutter's way in, seen square to the spindle.

use super::area::Area;
use super::canvas::{Canvas, Margins};
use super::gaps::{GapLine, draw_figures, draw_lines, gaps_said};
use super::hull::outline;
use super::neighbours::write_name;
use super::sheet::{Pen, Point, Shape, Sheet, Viewport};
use super::view::View;
use crate::geometry::{Convex, Line};
use crate::plan::{CutAt, table_ways};
use crate::units::Length;
use nalgebra::{Point3, Vector3};

/// What a body on the machine is there for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// It cuts.
    Cutter,
    /// The inside of a hollow cutter: within it nothing is cut.
    Hollow,
    /// It carries the cutter: arbor, holder, spindle nose.
    Carrier,
    /// It is cut, or will be: a stay.
    Work,
    /// It holds the work: post, block, bed, dummy axle.
    Fixture,
}

/// A body on the machine, the cutter's at the end of the stroke.
#[derive(Clone, Debug, PartialEq)]
pub struct Body {
    /// What the trade calls it; empty where another of its name is named already.
    pub name: String,
    /// What it is there for.
    pub part: Part,
    /// Where it is, in fixture components `(u, v, w)` from the front datum.
    pub solid: Convex,
}

/// The way of a cutter into the work: plain data in fixture components, whoever worked it out.
#[derive(Clone, Debug, PartialEq)]
pub struct WayIn {
    /// The cutter's axis, pointing out of the work to the spindle.
    pub axis: Line,
    /// Everything on the machine.
    pub bodies: Vec<Body>,
    /// From where the cutter ends back to where it begins, mm.
    pub back: Vector3<f64>,
    /// The smallest gap of the whole stroke.
    pub gap: Option<GapLine>,
    /// What reach is left, each between two places along the spindle; a `gap` below its `limit` of 0 falls short.
    pub left: Vec<GapLine>,
}

/// Round the cutter this much of the rest is drawn, mm.
const ABOUT: f64 = 45.0;

/// Two pieces whose ends lie nearer than this are one, mm.
const JOINT: f64 = 0.01;

/// The cutter at the end of its stroke with all that carries it, the work, what holds it, the smallest gap of the stroke, and
/// the reach that is left.
pub fn way_in(place: CutAt, way: &WayIn, viewport: Viewport) -> Sheet {
    let view = View::beside_spindle(&way.axis, table_ways(&way.axis.direction).along);
    let drawn: Vec<(&Body, Vec<Point>)> =
        way.bodies.iter().map(|body| (body, outline(&body.solid, &view))).collect();
    let back = view.direction(&way.back);
    let moved = |points: &[Point]| points.iter().map(|point| point.plus(back.x, back.y)).collect::<Vec<_>>();
    let moving = drawn.iter().filter(|(body, _)| body.part.moves());
    let start =
        drawn.iter().filter(|(body, _)| body.part == Part::Cutter).flat_map(|(_, points)| moved(points));
    let seen = Area::of(moving.flat_map(|(_, points)| points.iter().copied()).chain(start.clone()));
    let margins = Margins { left: 1.0, right: 1.0, top: 1.0, bottom: 1.0 };
    let mut canvas = Canvas::new("The way in", seen.grown(ABOUT), margins, viewport);
    for (body, points) in &drawn {
        draw_body(&mut canvas, (body, points), way, &view);
        if body.part == Part::Cutter {
            canvas.path(Pen::Phantom, body.part.topic(), moved(points), true);
        }
    }
    let ends = [seen.min.y - ABOUT, seen.max.y + ABOUT].map(|y| Point::new(0.0, y));
    let [top, bottom] = ends;
    canvas.line(Pen::Axis, "", top, bottom);
    let gap: Vec<GapLine> = way.gap.iter().cloned().collect();
    draw_lines(&mut canvas, &view, &gap);
    draw_figures(&mut canvas, &view, &gap, true);
    draw_figures(&mut canvas, &view, &gap, false);
    left(&mut canvas, &view, way, seen);
    stroke(&mut canvas, &view, way, seen);
    for (body, points) in drawn.iter().filter(|(body, _)| !body.name.is_empty()) {
        let shape = Shape::Path { points: points.clone(), closed: true };
        let parts = canvas.area().clipped(shape);
        write_name(&mut canvas, body.part.topic(), &body.name, &parts);
    }
    let text = said(&canvas, place, way);
    canvas.finish(text)
}

fn draw_body(canvas: &mut Canvas, (body, points): (&Body, &[Point]), way: &WayIn, view: &View) {
    let topic = body.part.topic();
    if body.part == Part::Work {
        for run in without_joints(body, points, way, view) {
            canvas.path(Pen::Visible, topic, run, false);
        }
    } else {
        canvas.path(body.part.pen(), topic, points.to_vec(), true);
    }
}

/// The outline of a piece of a stay, open where the next piece goes on.
fn without_joints(body: &Body, outline: &[Point], way: &WayIn, view: &View) -> Vec<Vec<Point>> {
    let others = way.bodies.iter().filter(|other| other.part == Part::Work && !std::ptr::eq(*other, body));
    let others: Vec<Point3<f64>> = others.flat_map(|other| ends(&other.solid)).map(|(end, _)| end).collect();
    let joints: Vec<(Point, f64)> = ends(&body.solid)
        .filter(|(end, _)| others.iter().any(|other| (end - other).norm() < JOINT))
        .map(|(end, radius)| (view.point(&end), radius + JOINT))
        .collect();
    let mut runs: Vec<Vec<Point>> = Vec::new();
    for (a, b) in outline.iter().zip(outline.iter().skip(1).chain(outline.first())) {
        if joints.iter().any(|(end, reach)| end.distance(*a) < *reach && end.distance(*b) < *reach) {
            continue;
        }
        match runs.last_mut() {
            Some(run) if run.last() == Some(a) => run.push(*b),
            _ => runs.push(vec![*a, *b]),
        }
    }
    runs
}

/// The middles of a rod's ends, and its radii there.
fn ends(solid: &Convex) -> impl Iterator<Item = (Point3<f64>, f64)> {
    let rod = if let Convex::Rod(rod) = solid { Some(*rod) } else { None };
    rod.into_iter()
        .flat_map(|rod| [(rod.axis.at(rod.from), rod.from_radius), (rod.axis.at(rod.to), rod.to_radius)])
}

impl Part {
    const fn moves(self) -> bool {
        matches!(self, Self::Cutter | Self::Hollow | Self::Carrier)
    }

    const fn pen(self) -> Pen {
        match self {
            Self::Cutter => Pen::Cutter,
            Self::Hollow => Pen::Hidden,
            Self::Carrier | Self::Work => Pen::Visible,
            Self::Fixture => Pen::Thin,
        }
    }

    const fn topic(self) -> &'static str {
        if matches!(self, Self::Cutter | Self::Hollow) { "cutter_mm" } else { "" }
    }
}

/// What reach is left, dimensioned to the left of the cutter.
fn left(canvas: &mut Canvas, view: &View, way: &WayIn, seen: Area) {
    let h = canvas.letter;
    for (i, left) in way.left.iter().enumerate() {
        let (a, b) = (view.point(&left.from), view.point(&left.to));
        let x = seen.min.x - (0.9 + 1.6 * i as f64) * h;
        let (a, b, off) = (Point::new(0.0, a.y), Point::new(0.0, b.y), Point::new(x, 0.0));
        let figure = canvas.figure(left.gap);
        if !canvas.clear_dimension(&left.topic, &format!("{} {figure}", left.name), a, b, off) {
            canvas.dimension(&left.topic, &figure, a, b, off);
        }
        if left.is_tight() {
            canvas.line(Pen::Tight, &left.topic, a.plus(x, 0.0), b.plus(x, 0.0));
        }
    }
}

/// How far the cutter goes, dimensioned beside its edge.
fn stroke(canvas: &mut Canvas, view: &View, way: &WayIn, seen: Area) {
    let back = view.direction(&way.back);
    let cutters = way.bodies.iter().filter(|body| body.part == Part::Cutter);
    let corners = cutters.flat_map(|body| outline(&body.solid, view));
    let edge = Area::of(corners);
    let text = canvas.figure(Length::from_mm(way.back.norm()));
    if back.y.abs() > back.x.abs() {
        let (a, b) = (Point::new(edge.max.x, edge.max.y + back.y), edge.max);
        canvas.dimension(
            "stroke_mm",
            &text,
            a,
            b,
            Point::new(seen.max.x - edge.max.x + 0.9 * canvas.letter, 0.0),
        );
    } else {
        let (a, b) = (Point::new(edge.max.x + back.x, edge.max.y), edge.max);
        canvas.dimension("stroke_mm", &text, a, b, Point::new(0.0, 1.4 * canvas.letter));
    }
}

fn said(canvas: &Canvas, place: CutAt, way: &WayIn) -> String {
    let left = way.left.iter().map(|left| format!(" {}: {}.", left.name, canvas.said(left.gap)));
    let gap: Vec<GapLine> = way.gap.iter().cloned().collect();
    format!(
        "The cutter at the end of its way into the {}, {} long, seen square to the spindle.{}{}",
        place.name(),
        canvas.said(Length::from_mm(way.back.norm())),
        gaps_said(canvas, &gap),
        left.collect::<String>(),
    )
}
