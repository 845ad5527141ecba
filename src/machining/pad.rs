//! Facing a flat on a stay for a brake mount.

use super::placed::Placed;
use crate::plan::{CutAt, Plan};
use crate::quantity::Length;
use crate::trade::BrakePad;
use crate::trade::shop::EndMill;

/// A flat on a stay. The fixture lies level, the flat's side to the spindle.
#[derive(Clone, Debug, PartialEq)]
pub struct PadFace {
    /// Its front end along the fixture, from the front datum line.
    pub front: Length,
    /// Its rear end.
    pub rear: Length,
    /// What is taken off at the deepest place.
    pub deepest: Length,
    /// What is taken off at its middle, from the top of the tube: how far the end mill goes down after it touches there.
    pub at_middle: Length,
    /// The flat's width where it is narrowest and where it is widest; 0 where the plane passes the tube by.
    pub width: (Length, Length),
    /// What is left over the bore at the thinnest place; negative where the bore is opened.
    pub left: Length,
    /// From either hole to the nearest edge of the flat.
    pub hole_to_edge: Length,
}

/// The flat on the stay of `at`; `None` where the pad leaves the tube or its plane nowhere meets it.
pub fn pad_face(plan: &Plan, at: CutAt, pad: &BrakePad) -> Option<PadFace> {
    let stay = Placed::new(plan, at);
    let along = stay.axis.direction.x;
    let middle = at.stay(plan).slide.mm() - pad.ahead.mm();
    let half = pad.length.mm() / 2.0;
    let station = |u: f64| (u - stay.axis.point.x) / along;
    let (from, to) = (station(middle - half), station(middle + half));
    if from < stay.raw.0 || to > stay.raw.1 {
        return None;
    }
    let wall = plan.job.pair(at.pair).side(at.hand).tube.wall.mm();
    let height = pad.above.mm().abs();
    let radius = |station: f64| stay.outline.radius(station);
    let width =
        |station: f64| 2.0 * ((radius(station) - height) * (radius(station) + height)).max(0.0).sqrt();
    // Between its knots the outline is straight, so every extreme lies at an end or a knot.
    let knots = stay.outline.knots().filter(|knot| from < *knot && *knot < to);
    let places: Vec<f64> = [from, to].into_iter().chain(knots).collect();
    let most =
        |of: &dyn Fn(f64) -> f64| places.iter().map(|place| of(*place)).fold(f64::NEG_INFINITY, f64::max);
    let least = |of: &dyn Fn(f64) -> f64| places.iter().map(|place| of(*place)).fold(f64::INFINITY, f64::min);
    let deepest = most(&radius) - height;
    if deepest <= 0.0 {
        return None;
    }
    let hole = |side: f64| width(station(middle + side * pad.holes.mm() / 2.0)) / 2.0;
    let to_end = half - pad.holes.mm() / 2.0;
    Some(PadFace {
        front: Length::from_mm(middle - half),
        rear: Length::from_mm(middle + half),
        deepest: Length::from_mm(deepest),
        at_middle: Length::from_mm(radius(station(middle)) - height),
        width: (Length::from_mm(least(&width)), Length::from_mm(most(&width))),
        left: Length::from_mm(height - (most(&radius) - wall)),
        hole_to_edge: Length::from_mm(hole(-1.0).min(hole(1.0)).min(to_end)),
    })
}

/// The slimmest end mill on hand that faces the flat in one pass, by its place in the list.
pub fn facing_mill(face: &PadFace, mills: &[EndMill]) -> Option<usize> {
    let wide = mills.iter().enumerate().filter(|(_, mill)| mill.diameter >= face.width.1);
    wide.min_by(|a, b| a.1.diameter.mm().total_cmp(&b.1.diameter.mm())).map(|(i, _)| i)
}
