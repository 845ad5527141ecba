//! Warnings, gathered as the plan is made.

use super::problem::{Problem, Warning};
use super::which::Which;
use crate::model::{Hand, Location, PairName, Stays};
use crate::units::{Length, Real};

/// The warnings so far, and what the next ones are about.
pub(super) struct Notices<'a> {
    list: &'a mut Vec<Warning>,
    location: Location,
}

impl<'a> Notices<'a> {
    pub(super) const fn new(list: &'a mut Vec<Warning>, pair: PairName) -> Self {
        Self { list, location: Location::Pair(pair) }
    }

    /// The same list, about one stay of the pair.
    pub(super) fn at_stay(&mut self, hand: Hand) -> Notices<'_> {
        let location =
            self.location.pair().map_or(self.location, |pair| Location::Stay(pair, Stays::One(hand)));
        Notices { list: self.list, location }
    }

    /// The same list, about one end of the stay.
    pub(super) fn at_end(&mut self, which: Which) -> Notices<'_> {
        let location = match self.location {
            Location::Stay(pair, stays) => Location::End(pair, stays, which == Which::Front),
            other => other,
        };
        Notices { list: self.list, location }
    }

    pub(super) fn warn(&mut self, problem: Problem) {
        self.list.push(Warning { location: self.location, problem });
    }
}

/// A length of any number type as the plain number that a warning carries.
pub(super) fn length<T: Real>(length: Length<T>) -> Length {
    Length::from_mm(length.mm().value())
}
