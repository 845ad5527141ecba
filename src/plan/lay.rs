//! The stays of a job or of a plan, laid between their reference points.

use super::axes::Axes;
use super::bed::{Bed, entered};
use super::bent::BentStay;
use super::clamp::ClampFrame;
use super::placements::{BestPlacement, Placement};
use super::result::Plan;
use super::stay_geometry::{Bent, StayGeometry};
use super::tips::tips;
use super::which::Which;
use crate::geometry::{Line, Outline};
use crate::model::{Hand, Job, PairName, Side};
use crate::units::Real;
use nalgebra::{Point3, Vector3};

/// The stay of `job`. A bent tube is laid as `found`, or as its own figures say.
pub(crate) fn lay<T: Real>(
    axes: &Axes<T>,
    job: &Job<T>,
    pair: PairName,
    hand: Hand,
    found: Option<BestPlacement>,
) -> StayGeometry<T> {
    let of = |placement: Placement| Placement { trim: T::of(placement.trim), roll: T::of(placement.roll) };
    let tube = &job.pair(pair).side(hand).tube;
    let placement = found.map_or_else(|| entered(tube), |found| of(found.placement));
    placed(axes, job, pair, hand, (placement, found))
}

/// A stay of `plan` as it lies there.
pub(crate) fn lay_again<T: Real>(
    axes: &Axes<T>,
    plan: &Plan<T>,
    pair: PairName,
    hand: Hand,
) -> StayGeometry<T> {
    let lies = |bent: &BentStay<T>| Placement { trim: bent.trim.mm(), roll: bent.roll.radians() };
    let bent = plan.pair(pair).stay(hand).bent.as_ref();
    let placement = bent.map_or_else(|| entered(&plan.job.pair(pair).side(hand).tube), lies);
    placed(axes, &plan.job, pair, hand, (placement, None))
}

fn placed<T: Real>(
    axes: &Axes<T>,
    job: &Job<T>,
    pair: PairName,
    hand: Hand,
    (placement, found): (Placement<T>, Option<BestPlacement>),
) -> StayGeometry<T> {
    let side = job.pair(pair).side(hand);
    let (front_middle, rear_middle) = middles(axes, job, pair, side);
    let across = |half_spacing: T| Vector3::y() * (half_spacing * T::of(hand.sign()));
    let front = front_middle + across(side.front.half_spacing.mm());
    let rear = rear_middle + across(side.rear.half_spacing.mm());
    let (axis, length) = Line::between(front, rear);
    let mut laid = StayGeometry {
        hand,
        clamp: ClampFrame::new(front_middle, rear_middle - front_middle),
        axis,
        length,
        rear_middle,
        bore: Outline::level(T::zero()),
        outer: Outline::level(T::zero()),
        wall: side.tube.wall.mm(),
        raw: (T::zero(), T::zero()),
        bent: None,
    };
    if side.tube.bends.list.is_empty() {
        laid.put_tube(&side.tube, side.tube.front_trim.mm());
    } else {
        let bed = Bed::new(front, rear, hand.sign());
        laid.bend(&bed, &side.tube, placement, found);
        let ends = [Which::Front, Which::Rear].map(|which| tips(&laid, (axes, &job.frame), side, which).on);
        laid.bent = laid.bent.map(|bent| Bent { ends, ..bent });
    }
    laid
}

/// The two reference points of a side, brought onto the centre plane.
pub(crate) fn middles<T: Real>(
    axes: &Axes<T>,
    job: &Job<T>,
    pair: PairName,
    side: &Side<T>,
) -> (Point3<T>, Point3<T>) {
    let datum = axes.front_datum(job, pair);
    let straight = ClampFrame::new(datum, axes.axle - datum);
    (
        datum + straight.w * side.front.rise.mm(),
        axes.axle - straight.u * side.rear.reach.mm() + straight.w * side.rear.rise.mm(),
    )
}
