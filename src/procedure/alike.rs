//! Settings that no scale can tell apart.

use crate::model::shop::{Axis, Shop};
use crate::plan::{Cut, RoundCut, SlotCut};

/// Figures are written to a hundredth, of a millimetre or a degree: no scale is set finer.
const FINEST: f64 = 0.01;

/// How fine a shop's scales are, mm and degrees.
#[derive(Clone, Copy)]
pub(super) struct Fineness<'a> {
    pub(super) shop: &'a Shop,
}

impl Fineness<'_> {
    fn readout(self, axis: Axis) -> f64 {
        self.shop.mill.readout(axis).0.division.mm().max(FINEST)
    }

    /// Of the readout along the fixture.
    pub(super) fn along(self) -> f64 {
        self.readout(self.shop.mill.lies_along)
    }

    /// Of the readout across the fixture.
    pub(super) fn across(self) -> f64 {
        self.readout(self.shop.mill.lies_across())
    }

    fn tilt(self) -> f64 {
        self.shop.fixture.tilt.figures.division.degrees().max(FINEST)
    }

    fn swivel(self) -> f64 {
        self.shop.fixture.swivel.figures.division.degrees().max(FINEST)
    }

    /// Of the clamp posts' scale.
    pub(super) fn post(self) -> f64 {
        self.shop.fixture.half_spacing.figures.division.mm().max(FINEST)
    }

    /// Whether two ends can be cut in one setting: each figure set in the middle between what they want, none is off by as
    /// much as half of what its scale shows.
    pub(super) fn alike(self, a: &Cut, b: &Cut) -> bool {
        match (a, b) {
            (Cut::Cope(a), Cut::Cope(b)) | (Cut::Boss(a), Cut::Boss(b)) => self.round(a, b),
            (Cut::Slot(a), Cut::Slot(b)) => self.slots(a, b),
            (Cut::Square(a), Cut::Square(b)) => near(a.long_point.mm(), b.long_point.mm(), FINEST),
            _ => false,
        }
    }

    fn round(self, a: &RoundCut, b: &RoundCut) -> bool {
        let (one, other) = (&a.setting, &b.setting);
        near(a.cutter.mm(), b.cutter.mm(), FINEST)
            && (one.on_side, one.end_up) == (other.on_side, other.end_up)
            && near(one.tilt.degrees(), other.tilt.degrees(), self.tilt())
            && near(one.swivel.degrees(), other.swivel.degrees(), self.swivel())
            && near(one.dro_along.mm(), other.dro_along.mm(), self.along())
            && near(one.dro_across.mm(), other.dro_across.mm(), self.across())
    }

    /// Each slot has a height of its own in any case.
    fn slots(self, a: &SlotCut, b: &SlotCut) -> bool {
        near(a.width.mm(), b.width.mm(), FINEST)
            && near(a.swivel.degrees(), b.swivel.degrees(), self.swivel())
            && near(a.dro_along.mm(), b.dro_along.mm(), self.along())
    }
}

/// Whether two figures are one on a scale that shows so much.
pub(super) fn near(a: f64, b: f64, shows: f64) -> bool {
    (a - b).abs() < shows
}

/// The mean of some figures; 0 of none.
pub(super) fn mean(figures: impl Iterator<Item = f64>) -> f64 {
    let (sum, count) = figures.fold((0.0, 0.0), |(sum, count), figure| (sum + figure, count + 1.0));
    if count > 0.0 { sum / count } else { 0.0 }
}

/// Whether two lists hold the same figures but for rounding in the arithmetic.
pub(super) fn same(a: &[f64], b: &[f64]) -> bool {
    a.len() == b.len() && a.iter().zip(b).all(|(a, b)| near(*a, *b, 1e-6))
}
