//! The other direction: the widest tyre that the stays leave room for.

use super::clearances::surroundings_of;
use super::obstacle::ObstacleSolid;
use super::stay_body::StayBody;
use super::wheel::tyre;
use crate::geometry::{Line, SURE, gap_below};
use crate::model::{Hand, PairName, Wheel};
use crate::plan::Plan;
use crate::units::Length;
use nalgebra::Vector3;

/// Halvings of a bracket of some hundred millimetres: down to a millionth.
const HALVINGS: usize = 28;

/// The widest tyre that has its room beside every stay as it is laid, and how high it is taken to be: as much higher than
/// the job's as it is wider. `None` where no tyre that can be entered has room. Nothing else of the frame stands nearer the wheel
/// than the stays, so that no other check of the plan knows the tyre.
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
    let limit = all.limits.tyre.mm();
    let fits = |wide: f64| {
        let solid = ObstacleSolid::Turned(tyre(&wheel(wide), &all, axle));
        let clears = |stay: &StayBody<'_, f64>| {
            gap_below(&stay.pipe(), &solid, SURE, limit).is_none_or(|gap| gap.distance >= limit)
        };
        stays.iter().all(clears)
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
