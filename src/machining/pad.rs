//! Facing a flat on a stay for a brake mount.

use super::placed::Placed;
use crate::plan::{CutAt, Plan};
use crate::quantity::Length;
use crate::trade::BrakePad;
use crate::trade::shop::EndMill;
use nalgebra::{Point3, Vector3};

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

/// The flat on the stay of `at`; `None` where the pad leaves the tube or lies on a bend, or its plane nowhere meets it. An oval
/// counts as a round tube that is as high as it.
pub fn pad_face(plan: &Plan, at: CutAt, pad: &BrakePad) -> Option<PadFace> {
    let middle = at.stay(plan).slide.mm() - pad.ahead.mm();
    let half = pad.length.mm() / 2.0;
    let stay = under_pad(plan, at, middle)?;
    let along = stay.axis.direction.x;
    let station = |u: f64| (u - stay.axis.point.x) / along;
    let (from, to) = (station(middle - half), station(middle + half));
    let stretch = stay.line.stretch(station(middle))?;
    if from < stay.raw.0.max(stretch.from) || to > stay.raw.1.min(stretch.to) {
        return None;
    }
    let wall = plan.job.pair(at.pair).side(at.hand).tube.wall.mm();
    let second = stay.axis.direction.cross(&stay.first);
    let outline = stay.outline.seen((stay.first.z, second.z));
    // A bent stay need not lie level: its axis climbs towards the plane or away from it.
    let (side, upright) = (if pad.above.mm() < 0.0 { -1.0 } else { 1.0 }, stay.axis.direction.xy().norm());
    let height = |station: f64| (pad.above.mm().abs() - side * stay.axis.at(station).z) / upright;
    let radius = |station: f64| outline.radius(station);
    let width = |station: f64| {
        let (radius, height) = (radius(station), height(station));
        2.0 * ((radius - height) * (radius + height)).max(0.0).sqrt()
    };
    let taken = |station: f64| (radius(station) - height(station)) * upright;
    // Between its knots the outline is straight, so every extreme lies at an end or a knot.
    let knots = outline.knots().filter(|knot| from < *knot && *knot < to);
    let places: Vec<f64> = [from, to].into_iter().chain(knots).collect();
    let most =
        |of: &dyn Fn(f64) -> f64| places.iter().map(|place| of(*place)).fold(f64::NEG_INFINITY, f64::max);
    let least = |of: &dyn Fn(f64) -> f64| places.iter().map(|place| of(*place)).fold(f64::INFINITY, f64::min);
    let deepest = most(&taken);
    if deepest <= 0.0 {
        return None;
    }
    let hole = |side: f64| width(station(middle + side * pad.holes.mm() / 2.0)) / 2.0;
    let to_end = half - pad.holes.mm() / 2.0;
    Some(PadFace {
        front: Length::from_mm(middle - half),
        rear: Length::from_mm(middle + half),
        deepest: Length::from_mm(deepest),
        at_middle: Length::from_mm(taken(station(middle))),
        width: (Length::from_mm(least(&width)), Length::from_mm(most(&width))),
        left: Length::from_mm(least(&|at| height(at) - (radius(at) - wall))),
        hole_to_edge: Length::from_mm(hole(-1.0).min(hole(1.0)).min(to_end)),
    })
}

/// The stay as it lies under the middle of the pad.
fn under_pad(plan: &Plan, at: CutAt, middle: f64) -> Option<Placed> {
    let stay = Placed::new(plan, at);
    let station = stay.line.level(stay.raw, &Point3::origin(), &Vector3::x(), middle)?;
    let placed = Placed::seen_at(plan, at, station);
    (placed.axis.direction.x > 0.0).then_some(placed)
}

/// The slimmest end mill on hand that faces the flat in one pass, by its place in the list.
pub fn facing_mill(face: &PadFace, mills: &[EndMill]) -> Option<usize> {
    let wide = mills.iter().enumerate().filter(|(_, mill)| mill.diameter >= face.width.1);
    wide.min_by(|a, b| a.1.diameter.mm().total_cmp(&b.1.diameter.mm())).map(|(i, _)| i)
}
