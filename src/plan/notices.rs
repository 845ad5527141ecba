//! Warnings, gathered as the plan is made.

use super::result::Warning;
use super::warn::Code;
use crate::units::{Length, Real, said};

/// The warnings so far, and the place that the next ones are about.
pub(super) struct Notices<'a> {
    list: &'a mut Vec<Warning>,
    place: String,
}

impl<'a> Notices<'a> {
    pub(super) fn new(list: &'a mut Vec<Warning>, place: impl Into<String>) -> Self {
        Self { list, place: place.into() }
    }

    /// The same list, one word further into the place.
    pub(super) fn at(&mut self, word: &str) -> Notices<'_> {
        Notices { list: self.list, place: format!("{}.{word}", self.place) }
    }

    pub(super) fn warn(&mut self, code: Code, message: String) {
        self.list.push(Warning { code, place: self.place.clone(), message });
    }
}

/// A length as a warning writes it, to a hundredth of a millimetre.
pub(super) fn mm<T: Real>(length: Length<T>) -> String {
    said(length.mm().value(), 2)
}
