//! What comes how near to what while the saw goes in.

use super::bodies::{Standing, Turning, TurningBody, standing, turning};
use super::stroke::Stroke;
use crate::geometry::Part;
use crate::plan::Plan;
use crate::quantity::Length;
use crate::trade::shop::{HoleSaw, Shop};

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
    let mut found = Vec::new();
    for part in turning(stroke, saw, &shop.mill.body) {
        for (body, parts) in still.iter().filter(|(body, _)| counts(stroke, &part, *body)) {
            found.push(near(stroke, &part, *body, parts));
        }
    }
    found.sort_by(|a, b| a.gap.mm().total_cmp(&b.gap.mm()).then(goes(a).total_cmp(&goes(b))));
    found
}

fn goes(near: &Near) -> f64 {
    near.goes.map_or(f64::INFINITY, Length::mm)
}

fn counts(stroke: &Stroke, part: &TurningBody, body: Standing) -> bool {
    let own = stroke.cuts.iter().any(|at| body == Standing::Stay(at.hand));
    !own || part.radius > stroke.radius
}

fn near(stroke: &Stroke, part: &TurningBody, body: Standing, parts: &[Part]) -> Near {
    let whole = stroke.length().mm();
    let gap = part.swept(&stroke.axis, whole, 0.0).distance(parts);
    let touches = |gone: f64| part.swept(&stroke.axis, gone, whole - gone).distance(parts) == 0.0;
    let goes = (gap == 0.0).then(|| {
        let (mut free, mut met) = (0.0, whole);
        for _ in 0..HALVINGS {
            let middle = (free + met) / 2.0;
            if touches(middle) { met = middle } else { free = middle }
        }
        Length::from_mm(if touches(0.0) { 0.0 } else { free })
    });
    Near { part: part.part, body, gap: Length::from_mm(gap), goes }
}
