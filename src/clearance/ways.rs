//! Both directions: what these stays have room for, and what would give the room.

use super::clearances::{nearest_between, obstacles, surroundings_of};
use super::obstacle::{Obstacle, ObstacleSolid};
use super::stay_body::StayBody;
use super::wheel::tyre;
use crate::geometry::{Line, gap};
use crate::model::{Hand, Job, PairName, Wheel};
use crate::plan::Plan;
use crate::plan::as_placed;
use crate::plan::{Placements, faults, solve_placed};
use crate::units::{Bounds, Length};
use nalgebra::Vector3;

/// Halvings of a bracket of at most some hundred millimetres: down to rounding.
const HALVINGS: usize = 50;

/// Steps in which a figure is followed either way until the room is no longer too little, or no longer enough.
const STEPS: u16 = 60;

/// The widest tyre that has its room beside every stay as it is laid, and how high it is taken to be: as much higher than
/// the job's as it is wider. `None` where no tyre that can be entered has room.
pub fn widest_tyre(plan: &Plan) -> Option<Wheel> {
    let width = plan.job.wheel.tyre_width;
    let bounds = plan.job.spec("wheel.tyre_width_mm")?.bounds;
    let heights = plan.job.spec("wheel.tyre_height_mm")?.bounds;
    let stays: Vec<StayBody<'_, f64>> = PairName::ALL
        .iter()
        .flat_map(|pair| Hand::ALL.map(|hand| StayBody::new(plan, *pair, hand)))
        .collect();
    let wheel = |wide: f64| {
        let height = heights.nearest(plan.job.wheel.tyre_height.mm() + wide - width.mm());
        Wheel { tyre_width: Length::from_mm(wide), tyre_height: Length::from_mm(height), ..plan.job.wheel }
    };
    let mut all = surroundings_of(&plan.job);
    all.measured_width = None;
    let axle = Line { point: plan.axle, direction: Vector3::y() };
    let fits = |wide: f64| {
        let solid = ObstacleSolid::Turned(tyre(&wheel(wide), &all, axle));
        stays
            .iter()
            .all(|stay| gap(&stay.pipe(), &solid).is_none_or(|gap| gap.distance >= all.limits.tyre.mm()))
    };
    fits(bounds.min)
        .then(|| wheel(if fits(bounds.max) { bounds.max } else { last(bounds.min, bounds.max, fits) }))
}

/// The last place on the way from `yes` to `no` where `holds` still does.
fn last(mut yes: f64, mut no: f64, holds: impl Fn(f64) -> bool) -> f64 {
    for _ in 0..HALVINGS {
        let middle = 0.5 * (yes + no);
        if holds(middle) { yes = middle } else { no = middle }
    }
    yes
}

/// The value of the plan's job's figure at `path`, nearest to the one entered and no further than `reach` from it, at which the
/// stay has just the room to `to` that is wanted: the least spacing or the most bend for this tyre, or any other. Bent tubes keep
/// the place that they have now. `None` where no such value lies within reach, or the job has no such figure, stay or
/// neighbour.
pub fn figure_for_room(
    plan: &Plan,
    (pair, hand): (PairName, Hand),
    to: Obstacle,
    path: &str,
    reach: f64,
) -> Option<f64> {
    let job = &as_placed(plan);
    let (start, bounds) = (job.figure(path)?, job.spec(path)?.bounds);
    let margin = |value: f64| margin(&job.with_figure(path, value), pair, hand, to);
    let enough = margin(start)? >= 0.0;
    let bounds = Bounds::new(bounds.min.max(start - reach), bounds.max.min(start + reach));
    let changed = |value: f64| margin(value).is_some_and(|margin| (margin >= 0.0) != enough);
    let step = reach / f64::from(STEPS);
    let mut found = (1..=STEPS).flat_map(|i| [-1.0, 1.0].map(|way| (start, way, step * f64::from(i))));
    let (start, way, far) = found.find(|(start, way, far)| changed(bounds.nearest(start + way * far)))?;
    let (near, far) = (bounds.nearest(start + way * (far - step)), bounds.nearest(start + way * far));
    Some(last(near, far, |value| !changed(value)))
}

/// What a stay has over the clearance that is wanted from an obstacle; `None` for a faulty job.
fn margin(job: &Job, pair: PairName, hand: Hand, to: Obstacle) -> Option<f64> {
    if !faults(job).is_empty() {
        return None;
    }
    let plan = solve_placed(job, &Placements::default());
    let standing = StayBody::new(&plan, pair, hand);
    if to == Obstacle::Other {
        let across = StayBody::new(&plan, pair, hand.other());
        let (closest, _) = nearest_between(&standing, &across)?;
        return Some(closest.distance - surroundings_of(&plan.job).limits.other.mm());
    }
    let beside = obstacles(&plan, pair, hand).into_iter().find(|beside| beside.to == to)?;
    Some(gap(&standing.pipe(), &beside.solid)?.distance - beside.limit.mm())
}
