//! Dropouts as plain plates: what a job says of them, and the least that joins it to the axle.

use super::shapes::{rounded_prism, turned};
use super::solid::Solid;
use crate::drawing::Point;
use crate::drawing::hull::hull;
use crate::geometry::Line;
use crate::model::{End, Hand, PairName, Side};
use crate::plan::{CutAt, Plan};
use nalgebra::{Point3, Vector3};
use std::f64::consts::TAU;

/// Radius of a dropout about the axle, mm. The picture's own: a job does not say.
const ABOUT_AXLE: f64 = 13.0;

/// Thickness of the web between a round dropout or a socket and the axle, mm. The picture's own.
const WEB: f64 = 6.0;

/// A plate stands this far out of its slot on both sides of the tube, mm. The picture's own.
const PROUD: f64 = 0.5;

/// A round dropout is this many times as long as its stay is thick. The picture's own.
const BOSS_LENGTH: f64 = 1.15;

/// Facets round a boss, and corners of a plate's rounding.
const SIDES: u32 = 24;

/// The bodies of the dropout on one side: a plate or web for each stay, and the round part where a stay has one.
pub(super) fn dropout_solids(plan: &Plan, hand: Hand) -> Vec<Solid> {
    PairName::ALL.into_iter().flat_map(|pair| Joint::new(plan, pair, hand).solids()).collect()
}

/// Where one stay's rear end meets the dropout.
struct Joint<'a> {
    plan: &'a Plan,
    side: &'a Side,
    at: CutAt,
    /// Its rear reference point, and the way its axis runs there.
    end: Line,
}

/// A flat plate: a place on its middle, the way from the stay to the axle in it, and the way square to it.
struct Plate {
    at: Point3<f64>,
    along: Vector3<f64>,
    out: Vector3<f64>,
    thickness: f64,
}

impl<'a> Joint<'a> {
    fn new(plan: &'a Plan, pair: PairName, hand: Hand) -> Self {
        let at = CutAt { pair, hand, at_front: false };
        let stay = at.stay(plan);
        let axis = stay.rear_point - stay.front_point;
        let direction = stay.bent.as_ref().map_or_else(|| axis.normalize(), |bent| bent.rear_direction);
        Self {
            plan,
            side: plan.job.pair(pair).side(hand),
            at,
            end: Line { point: stay.rear_point, direction },
        }
    }

    fn solids(&self) -> Vec<Solid> {
        match &self.side.rear_end {
            End::Slot(slot) => {
                let reach = slot.depth.mm() - slot.overhang.mm();
                let splay = slot.plate_splay.radians();
                vec![self.plate(splay, slot.plate.mm()).solid(self, reach, 0.5 * self.diameter() + PROUD)]
            }
            End::Boss(boss) => {
                let radius = boss.diameter.mm() / 2.0;
                let half = 0.5 * BOSS_LENGTH * self.diameter();
                let axis = Line { point: self.end.point, direction: Vector3::y() };
                let round = turned(&axis, &[(-half, radius), (half, radius)], SIDES);
                vec![round, self.web().solid(self, 0.0, 0.8 * radius)]
            }
            End::Square | End::Cope(_) => vec![self.web().solid(self, 0.0, 0.4 * self.diameter())],
        }
    }

    /// Diameter of the stay at its rear end, mm.
    fn diameter(&self) -> f64 {
        self.side.tube.od_rear.mm()
    }

    /// The plate in a stay's slot: through its rear reference point, upright on the stay plane.
    fn plate(&self, splay: f64, thickness: f64) -> Plate {
        let clamp = self.at.stay(self.plan).clamp;
        let (sin, cos) = splay.sin_cos();
        let sign = self.at.hand.sign();
        let (along, out) = (clamp.u * cos + clamp.v * (sin * sign), clamp.v * cos - clamp.u * (sin * sign));
        Plate { at: self.end.point, along, out, thickness }
    }

    /// A web outside the hub's face.
    fn web(&self) -> Plate {
        let mut plate = self.plate(0.0, WEB);
        plate.at.y = self.at.hand.sign() * (self.plan.job.frame.axle_spacing.mm() + WEB) / 2.0;
        plate
    }
}

impl Plate {
    /// The plate's body: all round the axle, and a tongue as wide as twice `half` that reaches `reach` into the stay.
    fn solid(&self, joint: &Joint<'_>, reach: f64, half: f64) -> Solid {
        let up = self.out.cross(&self.along);
        let flat = |point: &Point3<f64>| {
            let off = point - self.at;
            Point::new(off.dot(&self.along), off.dot(&up))
        };
        let axle = flat(&joint.plan.axle);
        let rim = (0..SIDES).map(|step| {
            let (sin, cos) = (f64::from(step) / f64::from(SIDES) * TAU).sin_cos();
            axle.plus(ABOUT_AXLE * cos, ABOUT_AXLE * sin)
        });
        let way = Point::new(joint.end.direction.dot(&self.along), joint.end.direction.dot(&up));
        let root = Point::new(0.0, 0.0).plus(-way.x * reach, -way.y * reach);
        let tongue = [1.0, -1.0].map(|side| root.plus(-way.y * half * side, way.x * half * side));
        let outline = hull(rim.chain(tongue).collect());
        let foot = self.at - self.out * (self.thickness / 2.0);
        let corners: Vec<Point3<f64>> =
            outline.iter().map(|point| foot + self.along * point.x + up * point.y).collect();
        rounded_prism(&corners, self.out * self.thickness)
    }
}
