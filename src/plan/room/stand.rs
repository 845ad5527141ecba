//! A finished stay as a body with room about it.

use super::super::bed::Bed;
use super::super::lay::surface_from;
use super::super::result::{Plan, Stay};
use crate::geometry::{Centreline, Outline, Pipe};
use crate::quantity::{Length, Real};
use crate::trade::{Hand, PairName};
use std::borrow::Cow;

/// A stay of a plan: its middle line, its radius and where it ends.
pub(super) struct Standing<'a, T: Real> {
    line: Cow<'a, Centreline<T>>,
    outline: Outline<T>,
    from: T,
    to: T,
    sign: f64,
}

impl<'a, T: Real> Standing<'a, T> {
    pub(super) fn new(plan: &'a Plan<T>, pair: PairName, hand: Hand) -> Self {
        let stay = plan.pair(pair).stay(hand);
        let tube = &plan.job.pair(pair).side(hand).tube;
        let trim = stay.bent.as_ref().map_or(tube.front_trim, |bent| bent.trim);
        let line = match &stay.bent {
            Some(bent) => Cow::Borrowed(&bent.line),
            None => Cow::Owned(straight(stay)),
        };
        let from = stay.front.long_point().map_or(T::zero(), Length::mm);
        let to = stay.rear.long_point().map_or(stay.length.mm(), Length::mm);
        let (from, to) = if from.value() < to.value() { (from, to) } else { (T::zero(), stay.length.mm()) };
        Self { line, outline: surface_from(tube, trim.mm()), from, to, sign: hand.sign() }
    }

    /// The stay as the one across from it sees it: an oval counts as round, as wide as it is across the bicycle.
    pub(super) fn across(&self) -> Outline<T> {
        let middle = (self.from + self.to) * T::of(0.5);
        let (mark, tangent) = (self.line.mark(middle), self.line.at(middle).tangent);
        let height = tangent.cross(&mark) * T::of(self.sign);
        self.outline.seen((mark.y, height.y))
    }

    pub(super) fn pipe(&self) -> Pipe<'_, T> {
        Pipe { line: &self.line, outline: &self.outline, from: self.from, to: self.to }
    }
}

fn straight<T: Real>(stay: &Stay<T>) -> Centreline<T> {
    Bed::new(stay.front_point, stay.rear_point, stay.hand.sign()).straight()
}
