//! What comes how near to what while the saw goes in.

use super::bodies::{Standing, Turning, TurningBody, standing, turning};
use super::stroke::Stroke;
use crate::geometry::{Drum, Part};
use crate::model::shop::{HoleSaw, Shop};
use crate::plan::Plan;
use crate::units::Length;
use std::cmp::Ordering;

/// Halvings to find where two bodies first touch; a stroke shrinks below a millionth of a millimetre.
const HALVINGS: u32 = 40;

/// The smallest gap between one turning part and one standing body over the whole stroke.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Near {
    /// What turns.
    pub part: Turning,
    /// What stands.
    pub body: Standing,
    /// The gap; 0 where they meet.
    pub gap: Length,
    /// Where they meet: how far the saw goes before they do.
    pub goes: Option<Length>,
}

/// Every gap between what turns and what stands over the stroke, the smallest first.
///
/// The way in is straight and what turns is round about it, so a part sweeps a longer cylinder: the gap is exact for the
/// cylinders, stumps, boxes and bent tubes that the figures make, and to 0.01 mm for an oval stretch. What the saw is there to cut does not count against the
/// saw, nor against anything that is no thicker than the saw.
pub fn nearest(plan: &Plan, shop: &Shop, stroke: &Stroke, saw: &HoleSaw) -> Vec<Near> {
    let Some(first) = stroke.cuts.first() else { return Vec::new() };
    let still = standing(plan, shop, *first);
    let whole = stroke.length().mm();
    let mut found = Vec::new();
    for part in turning(stroke, saw, &shop.mill.body) {
        let sweep = |gone: f64| part.swept(&stroke.axis, gone, whole - gone);
        for (body, parts) in still.iter().filter(|(body, _)| counts(stroke, &part, *body)) {
            found.push(near((part.part, *body), parts, whole, sweep));
        }
    }
    found.sort_by(Near::order);
    found
}

impl Near {
    /// The smallest gap first; of those that meet, the first to.
    pub(super) fn order(&self, other: &Self) -> Ordering {
        self.gap.mm().total_cmp(&other.gap.mm()).then(goes(self).total_cmp(&goes(other)))
    }
}

fn goes(near: &Near) -> f64 {
    near.goes.map_or(f64::INFINITY, Length::mm)
}

fn counts(stroke: &Stroke, part: &TurningBody, body: Standing) -> bool {
    let own = stroke.cuts.iter().any(|at| body == Standing::Stay(at.hand));
    !own || part.radius > stroke.radius
}

/// The gap between a body and what `sweep` says a part goes through on its way in, of which so much is gone.
pub(super) fn near(
    (part, body): (Turning, Standing),
    parts: &[Part],
    whole: f64,
    sweep: impl Fn(f64) -> Drum,
) -> Near {
    let gap = sweep(whole).distance(parts);
    let touches = |gone: f64| sweep(gone).distance(parts) == 0.0;
    let goes = (gap == 0.0).then(|| {
        let (mut free, mut met) = (0.0, whole);
        for _ in 0..HALVINGS {
            let middle = (free + met) / 2.0;
            if touches(middle) { met = middle } else { free = middle }
        }
        Length::from_mm(if touches(0.0) { 0.0 } else { free })
    });
    Near { part, body, gap: Length::from_mm(gap), goes }
}
