//! What turns beside the stays, drawn as neighbouring parts are (ISO 128: long dash, double dot).

use super::area::Area;
use super::canvas::Canvas;
use super::frame_part::FramePart;
use super::hull::block_outline;
use super::material::Material;
use super::sheet::{Anchor, Pen, Point, Shape};
use super::solid::Look;
use super::view::View;
use crate::clearance::{Obstacle, ObstacleSolid, obstacles};
use crate::geometry::{ConvexBlock, Turned};
use crate::model::{Hand, PairName};
use crate::plan::Plan;
use std::f64::consts::{FRAC_PI_2, TAU};

/// Chords of a rounded corner.
const CHORDS: i32 = 6;

/// As many places along an outline are tried for its name.
const TRIED: usize = 8;

/// An outline on the sheet, as far as it is drawn, and whose it is.
pub(super) struct Beside {
    pub(super) to: Obstacle,
    /// The whole outline.
    whole: Shape,
    /// What of it is drawn where it is but a neighbour.
    parts: Vec<Shape>,
}

/// The outlines of what a job has beside a pair of stays; none where nothing is entered. The left side's are left out where
/// they are seen to be the `same` as the right side's.
pub(super) fn beside(
    plan: &Plan,
    pair: PairName,
    view: &View,
    within: Area,
    same: impl Fn(Obstacle) -> bool,
) -> Vec<Beside> {
    if plan.job.surroundings.is_none() {
        return Vec::new();
    }
    let sides = Hand::ALL.into_iter().flat_map(|hand| {
        let all = obstacles(plan, pair, hand).into_iter();
        all.filter(|beside| hand == Hand::Right || !same(beside.to)).collect::<Vec<_>>()
    });
    let drawn = |to: Obstacle, body: &ObstacleSolid| {
        let whole = shape(body, view)?;
        Some(Beside { to, parts: within.clipped(whole.clone()), whole })
    };
    sides.filter_map(|beside| drawn(beside.to, &beside.solid)).collect()
}

fn shape(body: &ObstacleSolid, view: &View) -> Option<Shape> {
    match body {
        ObstacleSolid::Turned(body) => turned(body, view),
        ObstacleSolid::Block(block) => {
            let [along, out, across] = block.directions;
            let [a, b, c] = block.halves;
            let block = ConvexBlock { middle: block.middle, halves: [along * a, out * b, across * c] };
            Some(Shape::Path { points: block_outline(&block, view), closed: true })
        }
        // It fills the sheet or none of it.
        ObstacleSolid::Half(_) => None,
    }
}

/// A turned body, seen along its axis or square to it; `None` from elsewhere.
fn turned(body: &Turned, view: &View) -> Option<Shape> {
    let outermost = body.rim + body.rounding;
    let axis = view.direction(&body.axis.direction);
    if axis.x.hypot(axis.y) < 1e-6 {
        return Some(Shape::Circle { at: view.point(&body.axis.point), radius: outermost });
    }
    if body.axis.direction.dot(&view.viewer()).abs() > 1e-6 || !body.low.is_finite() {
        return None;
    }
    let middle = view.point(&body.axis.at(0.5 * (body.low + body.high)));
    let half = 0.5 * (body.high - body.low);
    // A rectangle with rounded corners, a quarter each.
    let corner = |quarter: i32| {
        let (sin, cos) = (f64::from(quarter) * FRAC_PI_2 + 0.5 * FRAC_PI_2).sin_cos();
        let (along, across) = (half * sin.signum(), body.rim * cos.signum());
        let chords = if body.rounding > 0.0 { CHORDS } else { 0 };
        (0..=chords).map(move |i| {
            let turn = (f64::from(quarter) + f64::from(i) / f64::from(chords.max(1))) * FRAC_PI_2;
            let (along, across) = (along + body.rounding * turn.sin(), across + body.rounding * turn.cos());
            middle.plus(axis.x * along - axis.y * across, axis.y * along + axis.x * across)
        })
    };
    Some(Shape::Path { points: (0..4).flat_map(corner).collect(), closed: true })
}

impl Beside {
    fn topic(&self) -> String {
        match self.to {
            Obstacle::Tyre => "wheel.tyre_width_mm".into(),
            to => format!("room.{}", to.key()),
        }
    }

    pub(super) fn draw(&self, canvas: &mut Canvas) {
        for part in &self.parts {
            canvas.put(Pen::Phantom, &self.topic(), part.clone());
        }
    }

    /// Draws it as a part, filled; what only passes by, as crank and heel do, as a neighbouring part.
    pub(super) fn paint(&self, canvas: &mut Canvas, pair: PairName) {
        let part = FramePart::of_obstacle(self.to, pair);
        let topic = self.topic();
        let (Some(material), Some(owner)) = (material(self.to), part) else {
            return canvas.put_part(Pen::Phantom, part, &topic, self.whole.clone());
        };
        let look = Look::new(owner, material, &topic);
        match &self.whole {
            Shape::Circle { at, radius } => canvas.band(look, *at, *radius, radius - depth(self.to)),
            Shape::Path { points, .. } => canvas.solid(look, points.clone()),
            _ => {}
        }
    }

    /// Writes its name beside its outline, where nothing is in the way.
    fn draw_name(&self, canvas: &mut Canvas) {
        write_name(canvas, &self.topic(), self.to.name(), &self.parts);
    }
}

/// What a neighbour is filled with where it is drawn as a part.
const fn material(to: Obstacle) -> Option<Material> {
    match to {
        Obstacle::Tyre => Some(Material::Rubber),
        Obstacle::Chainring(_) | Obstacle::Chain => Some(Material::Ring),
        Obstacle::Rotor => Some(Material::Rotor),
        _ => None,
    }
}

/// How far in from its rim a disc is drawn, mm: so deep that it is seen to be one, and what lies behind can be seen through
/// it. No figure of the job.
const fn depth(to: Obstacle) -> f64 {
    match to {
        Obstacle::Chain => 9.0,
        _ => 13.0,
    }
}

/// Writes each name once, beside the first outline of that name that has the room; not where a figure names it already. Those
/// that find no room are named in the list of rooms.
pub(super) fn draw_names(canvas: &mut Canvas, all: &[Beside]) {
    for beside in all {
        if !canvas.says(beside.to.name()) {
            beside.draw_name(canvas);
        }
    }
}

/// Writes a name beside an outline, where nothing is in the way.
pub(super) fn write_name(canvas: &mut Canvas, topic: &str, name: &str, outline: &[Shape]) {
    let h = canvas.letter;
    let about = outline.iter().flat_map(on).filter(|at| canvas.has(*at)).take(TRIED);
    let places: Vec<(Point, Anchor)> = about
        .flat_map(|at| {
            [
                (at.plus(0.4 * h, 1.1 * h), Anchor::Start),
                (at.plus(0.4 * h, -0.4 * h), Anchor::Start),
                (at.plus(-0.4 * h, 1.1 * h), Anchor::End),
                (at.plus(-0.4 * h, -0.4 * h), Anchor::End),
            ]
        })
        .collect();
    canvas.clear_note(topic, name, &places);
}

/// Places along an outline.
fn on(part: &Shape) -> Vec<Point> {
    match part {
        Shape::Path { points, .. } => {
            let after = points.iter().skip(1).chain(points.first());
            let middles = points.iter().zip(after).map(|(a, b)| a.towards(*b, 0.5));
            middles.chain(points.iter().copied()).collect()
        }
        Shape::Circle { at, radius } => {
            let turns = (0..TRIED).map(|i| i as f64 / TRIED as f64 * TAU);
            turns.map(|turn| at.plus(radius * turn.cos(), radius * turn.sin())).collect()
        }
        _ => Vec::new(),
    }
}
