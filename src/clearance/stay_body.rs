//! A finished stay as a body with room about it.

use crate::geometry::{Centreline, Outline, Pipe};
use crate::model::{Hand, PairName};
use crate::plan::Plan;
use crate::plan::reach_of;
use crate::plan::{stay_line, stay_surface};
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

    pub(super) fn pipe(&self) -> Pipe<'_, T> {
        Pipe { line: &self.line, outline: &self.outline, from: self.from, to: self.to }
    }
}
