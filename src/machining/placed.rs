//! A stay and one of its cuts in fixture components: what lies where on the machine.

use crate::geometry::{Line, Nearest, Outline};
use crate::plan::{CutAt, Plan, RoundCut, TableWays, stay_outline, table_ways};
use crate::quantity::Length;
use crate::trade::Hand;
use nalgebra::{Point3, Vector3};

/// Components of a direction below this count as none.
const SQUARE: f64 = 1e-9;

/// A stay as it lies in the fixture, in components `(u, v, w)` from the front datum.
#[derive(Clone, Debug)]
pub struct Placed {
    /// Its axis from the front reference point.
    pub axis: Line,
    /// Its outer radius by station.
    pub outline: Outline,
    /// Stations of the raw tube's two ends.
    pub raw: (f64, f64),
    /// Stations between which it is left when both ends are cut.
    pub finished: (f64, f64),
}

impl Placed {
    /// The stay on that side of a pair, as the pair's own clamp frame sees it.
    pub fn new(plan: &Plan, at: CutAt) -> Self {
        let stay = at.stay(plan);
        let tube = &plan.job.pair(at.pair).side(at.hand).tube;
        let front = Point3::from(stay.clamp.local(&stay.front_point));
        let rear = Point3::from(stay.clamp.local(&stay.rear_point));
        let (axis, length) = Line::between(front, rear);
        let trim = tube.front_trim.mm();
        let raw = (-trim, tube.length.mm() - trim);
        let from = stay.front.long_point().map_or(0.0, Length::mm);
        let to = stay.rear.long_point().map_or(length, Length::mm);
        let finished = if from < to { (from, to) } else { (0.0, length) };
        Self { axis, outline: stay_outline(tube), raw, finished }
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
/// most that: a little less where the axes pass each other. `None` where they are parallel.
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
