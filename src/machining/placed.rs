//! A stay and one of its cuts in fixture components: what lies where on the machine.

use crate::geometry::{Centreline, Convex, ConvexRod, Line, Nearest, Outline, Part};
use crate::model::Hand;
use crate::plan::{CutAt, Plan, RoundCut, StayPose, TableWays, stay_pose, stay_pose_at, table_ways};
use crate::units::Length;
use nalgebra::{Point3, Vector3};

/// Components of a direction below this count as none.
const SQUARE: f64 = 1e-9;

/// A stay as it lies in the fixture, in components `(u, v, w)` from the front datum. Stations run along its middle line from
/// the front reference point.
#[derive(Clone, Debug)]
pub struct Placed {
    /// The axis of the straight stay that touches it at the cut or where it is seen from, with the same stations there.
    pub axis: Line,
    /// Where φ = 0 points round that axis.
    pub first: Vector3<f64>,
    /// The outer surface about that axis.
    pub outline: Outline,
    /// The middle line of the whole stay.
    pub line: Centreline,
    /// The outer surface about that line.
    pub surface: Outline,
    /// Stations of the raw tube's two ends.
    pub raw: (f64, f64),
    /// Stations between which it is left when both ends are cut.
    pub finished: (f64, f64),
}

impl Placed {
    /// The stay on that side of a pair at that end, as the pair's own clamp frame sees it.
    pub fn new(plan: &Plan, at: CutAt) -> Self {
        Self::of(plan, at, stay_pose(plan, at))
    }

    /// The same, seen from a station of the stay and not from its cut.
    pub fn seen_at(plan: &Plan, at: CutAt, station: f64) -> Self {
        Self::of(plan, at, stay_pose_at(plan, at, station))
    }

    fn of(plan: &Plan, at: CutAt, lie: StayPose) -> Self {
        let stay = at.stay(plan);
        let point = |point: &Point3<f64>| Point3::from(stay.clamp.local(point));
        let direction = |direction: &Vector3<f64>| stay.clamp.local_direction(direction);
        let StayPose { line, surface, raw, axis, first, outline, .. } = lie;
        let length = stay.length.mm();
        let from = stay.front.long_point().map_or(0.0, Length::mm);
        let to = stay.rear.long_point().map_or(length, Length::mm);
        Self {
            axis: Line { point: point(&axis.point), direction: direction(&axis.direction) },
            first: direction(&first),
            outline,
            line: line.seen(point, direction),
            surface,
            raw,
            finished: if from < to { (from, to) } else { (0.0, length) },
        }
    }

    /// The finished tube in parts: cones where it is straight and round, and the stretches that are not.
    pub fn parts(&self) -> Vec<Part> {
        let (from, to) = self.finished;
        let mut parts = Vec::new();
        for stretch in self.line.stretches() {
            for piece in self.surface.pieces() {
                let low = from.max(stretch.from).max(piece.from);
                let high = to.min(stretch.to).min(piece.to);
                if low >= high {
                    continue;
                }
                let (from_radius, to_radius) = (piece.radius(low), piece.radius(high));
                if stretch.radius.is_none() && piece.oval.is_none() {
                    let axis = self.line.tangent((low + high) / 2.0);
                    let rod = ConvexRod { axis, from: low, to: high, from_radius, to_radius };
                    parts.push(Part::Convex(Convex::Rod(rod)));
                } else {
                    // A bent part is sharp but for its flat ends: these go into its neighbours, where there are any.
                    let ends = ((low - from_radius).max(from), (high + to_radius).min(to));
                    parts.push(Part::Bent(self.line.clone(), self.surface.clone(), ends));
                }
            }
        }
        parts
    }
}

/// A cutter's axis in fixture components, pointing out of the work to the spindle.
pub fn cutter_axis(plan: &Plan, at: CutAt, cut: &RoundCut, side_to_spindle: Hand) -> Line {
    let clamp = at.stay(plan).clamp;
    let direction = clamp.local_direction(&cut.axis_direction);
    let direction = if points_out(&direction, side_to_spindle) { direction } else { -direction };
    Line { point: Point3::from(clamp.local(&cut.axis_point)), direction }
}

/// The base face stays away from the spindle; an upright fixture has its front end to it, and one on its side the side
/// that the shop has chosen.
fn points_out(direction: &Vector3<f64>, side_to_spindle: Hand) -> bool {
    if direction.z.abs() >= SQUARE {
        direction.z > 0.0
    } else if direction.x.abs() >= SQUARE {
        direction.x < 0.0
    } else {
        direction.y * side_to_spindle.sign() > 0.0
    }
}

/// The mill's two directions square to a cutter's axis, in fixture components.
pub fn ways(axis: &Line) -> TableWays {
    table_ways(&axis.direction)
}

/// The part of a raw stay that goes into a saw, along the saw's axis: how deep the saw must be to cut through it. At
/// most that: a little less where the axes pass each other. A bend in what is cut off is taken as straight. `None` where
/// they are parallel.
pub fn stub_extent(stay: &Placed, cutter: &Line, radius: f64) -> Option<Length> {
    let Nearest::Skew { station, distance, .. } = stay.axis.nearest(cutter) else { return None };
    let along = stay.axis.direction.dot(&cutter.direction).abs();
    let across = stay.axis.direction.cross(&cutter.direction).norm();
    let tube = stay.outline.radius(station);
    let aside = (distance.abs() - tube).max(0.0).min(radius);
    let half = ((radius - aside) * (radius + aside)).sqrt() / across;
    let (from, to) = (station - half, station + half);
    let lean = tube * along / across;
    let (from, to) = ((from - lean).max(stay.raw.0), (to + lean).min(stay.raw.1));
    Some(Length::from_mm((to - from).max(0.0) * along + 2.0 * tube * across))
}
