//! Bodies as they are drawn: solids alone, and the two points that a smallest gap lies between.

use super::bodies::{TurningBody, standing, turning};
use super::collide::Near as Nearest;
use super::slotting::SlotEnd;
use super::stroke::Stroke;
use crate::geometry::{Convex, ConvexRod, Drum, Line, Near, Part as Piece, Pipe, Solid, Turned, gap};
use crate::model::shop::{HoleSaw, Shop};
use crate::plan::{CutAt, Plan};
use crate::units::Bounds;
use nalgebra::Point3;

/// Steps to and fro between two bodies: what is left after them does not show in a drawing.
const FEET: u32 = 200;

/// A bent stay is drawn as so many stumps.
const STUMPS: u32 = 32;

impl TurningBody {
    /// It alone, at the end of the stroke.
    pub const fn solid(&self, axis: &Line) -> Convex {
        Convex::Rod(ConvexRod::cylinder(*axis, self.from, self.to, self.radius))
    }
}

/// The parts of a body, bent ones as chains of stumps.
pub fn solids(parts: &[Piece]) -> Vec<Convex> {
    parts.iter().flat_map(stumps).collect()
}

/// A piece of a body as it is drawn: a bent one as a chain of stumps.
fn stumps(piece: &Piece) -> Vec<Convex> {
    match piece {
        Piece::Convex(solid) => vec![solid.clone()],
        Piece::Bent(line, outline, (from, to)) => {
            let station = |i: u32| from + (to - from) * f64::from(i) / f64::from(STUMPS);
            let stump = |i| {
                let (start, end) = (station(i), station(i + 1));
                let (axis, length) = Line::between(line.at(start).point, line.at(end).point);
                let (from_radius, to_radius) = (outline.radius(start), outline.radius(end));
                Convex::Rod(ConvexRod { axis, from: 0.0, to: length, from_radius, to_radius })
            };
            (0..STUMPS).map(stump).collect()
        }
    }
}

/// The two points that a gap of a stroke lies between, on what turns and on what stands; `None` where the two meet.
pub fn nearest_points(
    plan: &Plan,
    shop: &Shop,
    stroke: &Stroke,
    saw: &HoleSaw,
    near: &Nearest,
) -> Option<(Point3<f64>, Point3<f64>)> {
    let first = stroke.cuts.first().filter(|_| near.goes.is_none())?;
    let turns = turning(stroke, saw, &shop.mill.body).into_iter().find(|body| body.part == near.part)?;
    let drum = turns.swept(&stroke.axis, stroke.length().mm(), 0.0);
    let (_, pieces) = standing(plan, shop, *first).into_iter().find(|(body, _)| *body == near.body)?;
    let apart = |piece: &Piece| drum.distance(std::slice::from_ref(piece));
    let piece = pieces.iter().min_by(|a, b| apart(a).total_cmp(&apart(b)))?;
    ends(&drum, piece)
}

/// The same for a slitting saw on its way into a slot.
pub fn slot_points(
    plan: &Plan,
    shop: &Shop,
    at: CutAt,
    end: &SlotEnd,
    near: &Nearest,
) -> Option<(Point3<f64>, Point3<f64>)> {
    let turns = end.turning.iter().filter(|body| body.part == near.part && near.goes.is_none());
    let (_, pieces) = standing(plan, shop, at).into_iter().find(|(body, _)| *body == near.body)?;
    // A collar is on either side of the saw, and a body may have several pieces.
    let drums = turns.map(|body| body.run(&end.axis, end.back));
    let pairs = drums.flat_map(|drum| pieces.iter().map(move |piece| (drum, piece)));
    let apart = |(drum, piece): &(Drum, &Piece)| drum.distance(std::slice::from_ref(*piece));
    let (drum, piece) = pairs.min_by(|a, b| apart(a).total_cmp(&apart(b)))?;
    ends(&drum, piece)
}

/// Where the two are nearest: from foot to foot, to and fro, until neither moves.
fn ends(drum: &Drum, piece: &Piece) -> Option<(Point3<f64>, Point3<f64>)> {
    let body = match piece {
        Piece::Bent(line, outline, (from, to)) => {
            let closest = gap(&Pipe { line, outline, from: *from, to: *to }, drum)?;
            return Some((closest.there, closest.here));
        }
        Piece::Convex(body) => body,
    };
    let mut there = foot(body, &drum.axis.at((drum.from + drum.to) / 2.0));
    let mut here = there;
    for _ in 0..FEET {
        here = outside(drum.near(&there), &there);
        there = foot(body, &here);
    }
    Some((here, there))
}

/// The point of a body nearest to a place; of a stump, that of the cylinder which is as thick there.
fn foot(body: &Convex, place: &Point3<f64>) -> Point3<f64> {
    match body {
        Convex::Block(block) => block.halves.iter().fold(block.middle, |at, half| {
            let share = (place - block.middle).dot(half) / half.norm_squared().max(f64::MIN_POSITIVE);
            at + half * Bounds::new(-1.0, 1.0).nearest(share)
        }),
        Convex::Rod(rod) | Convex::Swept(rod, _) => {
            let along = (place - rod.axis.point).dot(&rod.axis.direction).max(rod.from).min(rod.to);
            let share = (along - rod.from) / (rod.to - rod.from).max(f64::MIN_POSITIVE);
            let rim = rod.from_radius + (rod.to_radius - rod.from_radius) * share;
            let turned =
                Turned { axis: rod.axis, hole: 0.0, rim, low: rod.from, high: rod.to, rounding: 0.0 };
            outside(turned.near(place), place)
        }
    }
}

/// The foot of a place outside a body; the place itself inside it.
fn outside(near: Near, place: &Point3<f64>) -> Point3<f64> {
    if near.distance > 0.0 { near.foot(place) } else { *place }
}
