//! Where everything belongs, from a job's figures by the contract's formulas.

use nalgebra::{Matrix3, Vector3};
use staywright::model::{End, Hand, Job, Member, PairName, Side};

type V = Vector3<f64>;

/// A line: a point and a direction of length 1.
#[derive(Clone, Copy, Debug)]
pub struct Axis {
    pub point: V,
    pub along: V,
}

impl Axis {
    pub fn at(&self, s: f64) -> V {
        self.point + self.along * s
    }

    pub fn distance(&self, point: &V) -> f64 {
        let to = point - self.point;
        (to - self.along * to.dot(&self.along)).norm()
    }
}

/// Unsigned angle between two lines' directions, radians.
pub fn angle_between(a: &V, b: &V) -> f64 {
    a.cross(b).norm().atan2(a.dot(b).abs())
}

/// Station on `a` of its point nearest to `b`, and their distance; `None` where they are parallel.
pub fn nearest(a: &Axis, b: &Axis) -> Option<(f64, f64)> {
    let normal = a.along.cross(&b.along);
    if normal.norm() < 1e-7 {
        return None;
    }
    // a + s·ta − b − r·tb is along the normal: three equations.
    let system = Matrix3::from_columns(&[a.along, -b.along, -normal]);
    let solution = system.lu().solve(&(b.point - a.point))?;
    Some((solution.x, (normal * solution.z).norm()))
}

/// A slot in clamp coordinates.
pub struct Slot {
    pub across: V,
    pub middle: f64,
    pub plate: f64,
    pub root: V,
}

/// One stay in its clamp frame.
pub struct Truth {
    side: Side,
    hand: Hand,
    origin: V,
    axes: Matrix3<f64>,
    front: V,
    rear: V,
    axle: V,
    rear_middle: V,
    seat_tube: Axis,
}

impl Truth {
    pub fn new(job: &Job, name: PairName, hand: Hand) -> Self {
        let frame = &job.frame;
        let (l, d) = (frame.chainstay_length.mm(), frame.bb_drop.mm());
        let axle = V::new((l * l - d * d).sqrt(), 0.0, d);
        let alpha = frame.seat_angle.degrees().to_radians();
        let e = V::new(alpha.cos(), 0.0, alpha.sin());
        let seat = V::new(alpha.sin(), 0.0, -alpha.cos()) * frame.seat_tube_setback.mm();
        let f0 = match name {
            PairName::Chainstays => V::zeros(),
            PairName::Seatstays => {
                let foot = seat - e * seat.dot(&e);
                foot + e * job.seatstay_node.front_station.mm()
            }
        };
        let u0 = (axle - f0).normalize();
        let w0 = u0.cross(&V::y());
        let pair = job.pair(name);
        let side = match (hand, &pair.left) {
            (Hand::Left, Some(left)) => *left,
            _ => pair.right,
        };
        let sigma = if hand == Hand::Right { 1.0 } else { -1.0 };
        let front_middle = f0 + w0 * side.front.rise.mm();
        let rear_middle = axle - u0 * side.rear.reach.mm() + w0 * side.rear.rise.mm();
        let u = (rear_middle - front_middle).normalize();
        let v = V::y();
        let w = u.cross(&v);
        Self {
            side,
            hand,
            origin: front_middle,
            axes: Matrix3::from_columns(&[u, v, w]),
            front: front_middle + v * (sigma * side.front.half_spacing.mm()),
            rear: rear_middle + v * (sigma * side.rear.half_spacing.mm()),
            axle,
            rear_middle,
            seat_tube: Axis { point: seat, along: e },
        }
    }

    fn local(&self, point: &V) -> V {
        self.axes.transpose() * (point - self.origin)
    }

    /// The stay's axis in clamp coordinates.
    pub fn stay(&self) -> Axis {
        let (a, b) = (self.local(&self.front), self.local(&self.rear));
        Axis { point: a, along: (b - a).normalize() }
    }

    /// The axle's middle in clamp coordinates.
    pub fn axle_local(&self) -> V {
        self.local(&self.axle)
    }

    /// How far out the stay's axis is at a station along the fixture.
    pub fn spacing_at(&self, u: f64) -> f64 {
        let stay = self.stay();
        stay.at((u - stay.point.x) / stay.along.x).y.abs()
    }

    /// The axis of what a round end is cut to, in clamp coordinates.
    pub fn member(&self, _job: &Job, at_front: bool) -> Option<Axis> {
        let end = if at_front { self.side.front_end } else { self.side.rear_end };
        let axis = match end {
            End::Cope(cope) if cope.onto == Member::Shell => Axis { point: V::zeros(), along: V::y() },
            End::Cope(_) => self.seat_tube,
            End::Boss(_) => Axis { point: self.rear_middle, along: V::y() },
            End::Slot(_) | End::Square => return None,
        };
        Some(Axis { point: self.local(&axis.point), along: self.axes.transpose() * axis.along })
    }

    /// A slot: the direction across its plate and outboard, where its middle lies along that, its width, and its root.
    pub fn slot(&self) -> Slot {
        let End::Slot(slot) = self.side.rear_end else { panic!("a slot") };
        let sigma = if self.hand == Hand::Right { 1.0 } else { -1.0 };
        let (sin, cos) = slot.plate_splay.degrees().to_radians().sin_cos();
        // A plate that splays runs outwards to the rear.
        let across = V::new(-sin, sigma * cos, 0.0);
        let length = (self.rear - self.front).norm();
        let root = self.stay().at(length + slot.overhang.mm() - slot.depth.mm());
        let middle = self.local(&self.rear).dot(&across);
        Slot { across, middle, plate: slot.plate.mm() + slot.clearance.mm(), root }
    }

    /// From the touched edge to where the cutter meets the stay, in the plane in which the fixture tilts.
    pub fn arm(&self, job: &Job, at_front: bool) -> f64 {
        let stay = self.stay();
        let member = self.member(job, at_front).unwrap();
        let Some((station, _)) = nearest(&stay, &member) else { return 0.0 };
        let seat = stay.at(station);
        let bench = &job.fixture.bench;
        (seat.x - bench.touch_u.mm()).hypot(seat.z - bench.touch_w.mm())
    }
}
