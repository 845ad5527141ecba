//! The other way round: how close each input must be held for a result to stay within a limit.

use super::carry::{Budget, Input};
use crate::units::ranked;

/// How many standard uncertainties the limit stands for when errors are added as squares: about 95 in 100 results
/// then lie within it (JCGM 100, 6.3.3).
pub const COVERAGE: f64 = 2.0;

/// How close one input must be held. All are largest errors, ± in the input's unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ToleranceAllocation {
    /// Which input, by its place.
    pub input: usize,
    /// All inputs take equal shares, added as squares.
    pub by_squares: f64,
    /// All inputs take equal shares, at their worst together.
    pub by_worst: f64,
    /// This input takes the whole limit, all others being right.
    pub alone: f64,
}

/// What to hold each input of a budget to, so that the result moves by no more than `limit`. Inputs that do not move it
/// are left out; those that must be held closest come first.
pub fn allocations(budget: &Budget, inputs: &[Input], limit: f64) -> Vec<ToleranceAllocation> {
    let moving = || budget.shares.iter().filter(|share| share.slope.abs() > 1e-12);
    let count = moving().count() as f64;
    let held = moving().filter_map(|share| {
        let alone = limit / share.slope.abs();
        let standard = alone / (COVERAGE * count.sqrt());
        let spread = inputs.get(share.input)?.spread.with_standard(standard);
        Some(ToleranceAllocation {
            input: share.input,
            by_squares: spread.worst(),
            by_worst: alone / count,
            alone,
        })
    });
    ranked(held, |a, b| a.alone <= b.alone)
}
