//! A finished stay as a body with room about it.

use crate::geometry::{Centreline, Outline, Pipe};
use crate::model::{Hand, Job, PairName};
use crate::plan::{Axes, ClampFrame, Plan, Which, lay, reach, reach_of, stay_line, stay_surface, tips};
use crate::units::Real;
use std::borrow::Cow;

/// A stay of a plan: its middle line, its radius and where it ends.
pub(super) struct StayBody<'a, T: Real> {
    line: Cow<'a, Centreline<T>>,
    outline: Outline<T>,
    from: T,
    to: T,
}

impl<'a, T: Real> StayBody<'a, T> {
    pub(super) fn new(plan: &'a Plan<T>, pair: PairName, hand: Hand) -> Self {
        let stay = plan.pair(pair).stay(hand);
        let tube = &plan.job.pair(pair).side(hand).tube;
        let (from, to) = reach_of([stay.front.long_point(), stay.rear.long_point()], stay.length);
        let (line, outline) = (stay_line(stay), stay_surface(stay, tube));
        Self { line, outline, from, to }
    }

    /// The stay of a job that leaves no placement to a search, and its clamp frame.
    pub(super) fn of_job(axes: &Axes<T>, job: &Job<T>, pair: PairName, hand: Hand) -> (Self, ClampFrame<T>) {
        let side = job.pair(pair).side(hand);
        let laid = lay(axes, job, pair, hand, None);
        let cuts = [Which::Front, Which::Rear].map(|which| tips(&laid, (axes, &job.frame), side, which).long);
        let (from, to) = reach(cuts, laid.length);
        let line = Cow::Owned(laid.line().into_owned());
        (Self { line, outline: laid.outer, from, to }, laid.clamp)
    }

    pub(super) fn pipe(&self) -> Pipe<'_, T> {
        Pipe { line: &self.line, outline: &self.outline, from: self.from, to: self.to }
    }
}
