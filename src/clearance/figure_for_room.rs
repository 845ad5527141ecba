//! The other direction: the figure of a job at which a stay just has the clearance that is wanted.

use super::clearances::{obstacles_of_job, surroundings_of};
use super::obstacle::Obstacle;
use super::stay_body::StayBody;
use crate::geometry::{Asked, gap, near_below};
use crate::model::{Hand, Job, PairName};
use crate::plan::{Axes, Plan, as_placed, faults, stays_apart};
use crate::units::Bounds;

/// Steps in which a figure is followed either way until the clearance is no longer too little, or no longer enough.
const STEPS: u16 = 10;

/// Values tried between two of these, at most.
const TRIES: usize = 24;

/// A clearance that differs from its limit by less is just what is wanted, mm, unless it is not known so exactly.
const JUST: f64 = 2e-6;

/// What shows whether a clearance is enough need not be more exact, mm.
const COARSE: f64 = 0.01;

/// The value of the plan's job's figure at `path`, nearest to the one entered and no further than `reach` from it, at which the
/// stay has just the clearance to `to` that is wanted: the least spacing or the most bend for this tyre, or any other. Bent tubes keep
/// the placement that they have now. `None` where no such value lies within reach, or the job has no such figure, stay or
/// neighbour. A range of values that is narrower than a tenth of `reach` may be passed over.
pub fn figure_for_room(
    plan: &Plan,
    (pair, hand): (PairName, Hand),
    to: Obstacle,
    path: &str,
    reach: f64,
) -> Option<f64> {
    let job = as_placed(plan);
    let (start, bounds) = (job.figure(path)?, job.spec(path)?.bounds);
    let bounds = Bounds::new(bounds.min.max(start - reach), bounds.max.min(start + reach));
    let margin = |value: f64, how: Accuracy| margin(&job.with_figure(path, value), (pair, hand), to, how);
    let over = |value: f64| Some((value, margin(value, Accuracy::Coarse)?.0));
    let begin = over(start)?;
    let mut ends = [-1.0, 1.0].map(|way| (way, Some(begin)));
    for step in 1..=STEPS {
        for (way, near) in &mut ends {
            let Some(last) = *near else { continue };
            let value = bounds.nearest(start + *way * reach * f64::from(step) / f64::from(STEPS));
            // A figure that reaches the end of its range, or puts the stay nowhere, goes no further that way.
            *near = if value == last.0 { None } else { over(value) };
            if let Some(next) = near.filter(|next| (next.1 >= 0.0) != (begin.1 >= 0.0)) {
                return Some(crossing(last, next, |value| margin(value, Accuracy::Told)));
            }
        }
    }
    None
}

/// How exactly a clearance is worked out.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Accuracy {
    /// On the right side of its limit.
    Coarse,
    /// As it is told of a plan.
    Told,
}

/// The place between two where a function crosses 0, from its values there, which differ in sign: false position, and halving after
/// a turn that left more than half. The function tells how far off it may be, too.
fn crossing(near: (f64, f64), far: (f64, f64), at: impl Fn(f64) -> Option<(f64, f64)>) -> f64 {
    let (mut low, mut high, mut halve) = (near, far, false);
    for _ in 0..TRIES {
        let (width, share) = (high.0 - low.0, if halve { 0.5 } else { low.1 / (low.1 - high.1) });
        let value = low.0 + width * share;
        let Some((found, error)) = at(value) else { break };
        if (found >= 0.0) == (low.1 >= 0.0) {
            low = (value, found);
        } else {
            high = (value, found);
        }
        if found.abs() < error.max(JUST) {
            break;
        }
        halve = (high.0 - low.0).abs() > 0.5 * width.abs();
    }
    if low.1.abs() <= high.1.abs() { low.0 } else { high.0 }
}

/// What a stay has over the clearance that is wanted to an obstacle, and how far off that may be, mm; `None` for a faulty job.
fn margin(job: &Job, (pair, hand): (PairName, Hand), to: Obstacle, how: Accuracy) -> Option<(f64, f64)> {
    if !faults(job).is_empty() {
        return None;
    }
    let axes = Axes::new(&job.frame);
    let (stay, clamp) = StayBody::of_job(&axes, job, pair, hand);
    let (closest, limit) = if to == Obstacle::Other {
        let (across, _) = StayBody::of_job(&axes, job, pair, hand.other());
        (stays_apart(&stay.pipe(), &across.pipe())?.0, surroundings_of(job).limits.other)
    } else {
        let all = obstacles_of_job(job, &clamp, (pair, hand));
        let beside = all.into_iter().find(|beside| beside.to == to)?;
        let closest = match how {
            Accuracy::Coarse => near_below(&stay.pipe(), &beside.solid, is_enough(beside.limit.mm()), None)?,
            Accuracy::Told => gap(&stay.pipe(), &beside.solid)?,
        };
        (closest, beside.limit)
    };
    let margin = closest.distance - limit.mm();
    margin.is_finite().then_some((margin, closest.error_bound))
}

/// Asks whether a clearance reaches its limit.
const fn is_enough(limit: f64) -> Asked {
    Asked { sure: COARSE, ceiling: limit, floor: limit - COARSE }
}
