//! Facing a flat on a stay for a brake mount.

use super::placed::Placed;
use crate::geometry::Outline;
use crate::model::BrakeMountFlat;
use crate::model::shop::EndMill;
use crate::plan::{CutAt, Plan};
use crate::units::Length;
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
pub fn pad_face(plan: &Plan, at: CutAt, pad: &BrakeMountFlat) -> Option<PadFace> {
    let middle = at.stay(plan).slide.mm() - pad.ahead.mm();
    let half = pad.length.mm() / 2.0;
    let under = Under::new(plan, at, pad, middle)?;
    let (from, to) = (under.station(middle - half), under.station(middle + half));
    if !under.holds(from, to) {
        return None;
    }
    let wall = plan.job.pair(at.pair).side(at.hand).tube.wall.mm();
    // Between its knots the outline is straight, so every extreme lies at an end or a knot.
    let knots = under.outline.knots().filter(|knot| from < *knot && *knot < to);
    let places: Vec<f64> = [from, to].into_iter().chain(knots).collect();
    let each = |of: &dyn Fn(f64) -> f64| places.iter().map(|place| of(*place)).collect::<Vec<_>>();
    let most = |of: &dyn Fn(f64) -> f64| each(of).into_iter().fold(f64::NEG_INFINITY, f64::max);
    let least = |of: &dyn Fn(f64) -> f64| each(of).into_iter().fold(f64::INFINITY, f64::min);
    let (taken, width) = (|station| under.taken(station), |station| under.width(station));
    let deepest = most(&taken);
    if deepest <= 0.0 {
        return None;
    }
    let hole = |side: f64| width(under.station(middle + side * pad.holes.mm() / 2.0)) / 2.0;
    let to_end = half - pad.holes.mm() / 2.0;
    Some(PadFace {
        front: Length::from_mm(middle - half),
        rear: Length::from_mm(middle + half),
        deepest: Length::from_mm(deepest),
        at_middle: Length::from_mm(taken(under.station(middle))),
        width: (Length::from_mm(least(&width)), Length::from_mm(most(&width))),
        left: Length::from_mm(least(&|at| under.height(at) - (under.outline.radius(at) - wall))),
        hole_to_edge: Length::from_mm(hole(-1.0).min(hole(1.0)).min(to_end)),
    })
}

/// The stay as it lies under the middle of a pad.
struct Under {
    stay: Placed,
    outline: Outline,
    /// The pad's plane above the stay plane, and on which side of it.
    above: f64,
    side: f64,
}

impl Under {
    fn new(plan: &Plan, at: CutAt, pad: &BrakeMountFlat, middle: f64) -> Option<Self> {
        let whole = Placed::new(plan, at);
        let station = whole.line.level(whole.raw, &Point3::origin(), &Vector3::x(), middle)?;
        let stay = Placed::seen_at(plan, at, station);
        let second = stay.axis.direction.cross(&stay.first);
        let outline = stay.outline.seen((stay.first.z, second.z));
        let side = if pad.above.mm() < 0.0 { -1.0 } else { 1.0 };
        (stay.axis.direction.x > 0.0).then_some(Self { stay, outline, above: pad.above.mm().abs(), side })
    }

    fn station(&self, along: f64) -> f64 {
        (along - self.stay.axis.point.x) / self.stay.axis.direction.x
    }

    /// Whether it is straight tube between two stations.
    fn holds(&self, from: f64, to: f64) -> bool {
        let (start, end) = self.stay.raw;
        let stretch = self.stay.line.stretch(f64::midpoint(from, to));
        stretch.is_some_and(|stretch| start.max(stretch.from) <= from && to <= end.min(stretch.to))
    }

    /// How level it lies: a bent stay can climb.
    fn level(&self) -> f64 {
        self.stay.axis.direction.xy().norm()
    }

    /// From its axis to the pad's plane, square to the axis.
    fn height(&self, station: f64) -> f64 {
        (self.above - self.side * self.stay.axis.at(station).z) / self.level()
    }

    fn taken(&self, station: f64) -> f64 {
        (self.outline.radius(station) - self.height(station)) * self.level()
    }

    fn width(&self, station: f64) -> f64 {
        let (radius, height) = (self.outline.radius(station), self.height(station));
        2.0 * ((radius - height) * (radius + height)).max(0.0).sqrt()
    }
}

/// The slimmest end mill on hand that faces the flat in one pass, by its place in the list.
pub fn facing_mill(face: &PadFace, mills: &[EndMill]) -> Option<usize> {
    let wide = mills.iter().enumerate().filter(|(_, mill)| mill.diameter >= face.width.1);
    wide.min_by(|a, b| a.1.diameter.mm().total_cmp(&b.1.diameter.mm())).map(|(i, _)| i)
}
