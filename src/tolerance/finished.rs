//! The finished stays as they are: what can differ from the plan, and what then is read on them.
//!
//! A finished stay is known by its length, by the angles of its copes, and by where its dropout sits across it. Whatever
//! else a bench gets wrong shows in these, or in no result: a stay whose cope was cut at the right angle and the right
//! place stands right, whatever the posts read when it was cut.

use super::as_cut::{Built, DEGREE, as_cut};
use super::carry::Model;
use super::errors::StayErrors;
use super::measurement::{Measurement, measurements};
use super::outcome::listed;
use super::rear_end::RearEnd;
use super::set_up::{Hinge, StaySetUp};
use crate::model::{Hand, PairName};
use crate::plan::Plan;
use crate::units::{Kind, Real};
use nalgebra::Vector3;

/// What can differ on a finished stay.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// Its length, from where it hangs on the frame to the middle of its dropout, mm.
    Length,
    /// The angle between the stay and what its front end is coped onto, degrees.
    FrontAngle,
    /// The same at its rear end; for a slot, between the stay and the plate, on which no result hangs.
    RearAngle,
    /// How far outboard of its place on the stay the dropout sits, mm.
    Dropout,
}

/// One unknown of the finished stays.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Unknown {
    /// Which pair.
    pub pair: PairName,
    /// Which side.
    pub hand: Hand,
    /// What of it.
    pub part: Part,
}

impl Unknown {
    /// Its identifier: `chainstays.right.length`.
    pub fn id(&self) -> String {
        let part = match self.part {
            Part::Length => "length",
            Part::FrontAngle => "front.angle",
            Part::RearAngle => "rear.angle",
            Part::Dropout => "dropout",
        };
        [self.pair.key(), self.hand.key(), part].join(".")
    }

    /// Whether it is a length or an angle.
    pub const fn quantity(&self) -> Kind {
        match self.part {
            Part::Length | Part::Dropout => Kind::Length,
            Part::FrontAngle | Part::RearAngle => Kind::Angle,
        }
    }
}

/// By how much one finished stay differs, mm and degrees.
#[derive(Clone, Copy, Debug)]
pub(super) struct Differs<T> {
    pub(super) length: T,
    pub(super) front: T,
    pub(super) rear: T,
    pub(super) dropout: T,
}

/// The finished stays of a plan. Its model's results are first the figures that can be read, then the outcomes; its
/// inputs are the unknowns, 0 for stays as planned.
#[derive(Clone, Debug)]
pub struct Finished {
    /// The rear end they belong to; its limits count.
    pub rear: RearEnd,
    /// What can be read on them.
    pub measurements: Vec<Measurement>,
    /// What can differ.
    pub unknowns: Vec<Unknown>,
}

impl Finished {
    /// The stays that a plan asks for.
    pub fn new(plan: &Plan) -> Self {
        let rear = RearEnd::new(plan);
        let measurements = measurements(plan, rear.set_up());
        let stays = rear.set_up().stays.iter();
        let of = |(pair, stay): &(PairName, StaySetUp)| {
            let (pair, hand) = (*pair, stay.hand);
            let parts = [
                (Part::Length, true),
                (Part::FrontAngle, stay.front.is_some()),
                (Part::RearAngle, stay.rear.is_some() || stay.slotted),
                // A stay that swings about the seat tube is taken along by the axle.
                (Part::Dropout, matches!(stay.hinge, Hinge::Across)),
            ];
            parts.map(|(part, wanted)| wanted.then_some(Unknown { pair, hand, part }))
        };
        let unknowns = stays.flat_map(of).flatten().collect();
        Self { rear, measurements, unknowns }
    }

    pub(super) fn differs<T: Real>(&self, unknowns: &[T], pair: PairName, hand: Hand) -> Differs<T> {
        let of = |part| {
            let mut paired = self.unknowns.iter().zip(unknowns);
            let wanted = Unknown { pair, hand, part };
            paired.find(|(unknown, _)| **unknown == wanted).map_or(T::zero(), |(_, value)| *value)
        };
        Differs {
            length: of(Part::Length),
            front: of(Part::FrontAngle),
            rear: of(Part::RearAngle),
            dropout: of(Part::Dropout),
        }
    }

    /// All four stays, each put on the frame where it was planned, moved outboard by as much as `moved` says.
    pub(super) fn built<T: Real>(
        &self,
        unknowns: &[T],
        moved: impl Fn(PairName, Hand) -> T,
    ) -> Vec<Option<Built<T>>> {
        let set_up = self.rear.set_up();
        let build = |(pair, stay): &(PairName, StaySetUp)| {
            let mut built = as_cut(set_up, stay, &StayErrors::none())?;
            differ(stay, &mut built, &self.differs(unknowns, *pair, stay.hand));
            built.foot += moved(*pair, stay.hand);
            if let (Some(beside), Hinge::Across) = (&mut built.beside_tyre, stay.hinge) {
                beside.front += moved(*pair, stay.hand);
            }
            Some(built)
        };
        set_up.stays.iter().map(build).collect()
    }
}

impl Model for Finished {
    fn results<T: Real>(&self, unknowns: &[T]) -> Vec<Option<T>> {
        let set_up = self.rear.set_up();
        let standing = self.rear.standing(&self.built(unknowns, |_, _| T::zero()));
        let mut all: Vec<Option<T>> = self
            .measurements
            .iter()
            .map(|one| one.read(set_up, &|pair, hand| self.differs(unknowns, pair, hand)))
            .collect();
        all.extend(listed(set_up, &standing));
        all
    }
}

/// How far outwards the cope turns the stay, rad: a smaller angle to a line across the frame is more splay. An end that leans out
/// of the stay plane has to turn further for the same angle.
pub(super) fn outwards<T: Real>(stay: &StaySetUp, at_front: bool, angle: T) -> T {
    let way = stay.way(at_front);
    let further = if way.z == 0.0 { 1.0 } else { way.xz().norm() / way.x };
    T::of(if way.y < 0.0 { DEGREE } else { -DEGREE }) * angle * T::of(further)
}

/// How far the angle between the whole stay and an upright hinge opens with that between its front end and the hinge.
fn per_front_angle(stay: &StaySetUp, way: &Vector3<f64>) -> f64 {
    let (Some(_), Some(round)) = (&stay.bent, &stay.front) else { return 1.0 };
    let hinge = round.axis.direction;
    let (end, whole) = (stay.way(true).cross(&hinge), way.cross(&hinge));
    let size = end.norm() * whole.norm();
    if size > 0.0 { end.dot(&whole) / size } else { 1.0 }
}

/// A stay that differs by so much.
fn differ<T: Real>(stay: &StaySetUp, built: &mut Built<T>, by: &Differs<T>) {
    let cosine = built.along_hinge / built.length;
    let longer = built.way + stay_direction(stay).map(T::of) * by.length + Vector3::y() * by.dropout;
    built.length = longer.norm();
    match stay.hinge {
        Hinge::Across => {
            let (sin, cos) = outwards(stay, true, by.front).sin_cos();
            built.along_hinge = longer.y * cos + longer.x * sin;
        }
        Hinge::Upright(_) => {
            let angle = (T::one() - cosine * cosine).sqrt().atan2(cosine);
            // The angle that is read is the sharp one.
            let sharp = if cosine.value() < 0.0 { -DEGREE } else { DEGREE };
            let opens = T::of(sharp * per_front_angle(stay, &built.way.map(T::value)));
            built.along_hinge = built.length * (angle + by.front * opens).cos();
        }
    }
    let turned = outwards(stay, false, by.rear).tan() * longer.x;
    built.along_rear = built.along_rear.map(|_| longer.y + turned);
    if let Some(beside) = &mut built.beside_tyre {
        beside.rear -= by.dropout;
    }
}

fn stay_direction(stay: &StaySetUp) -> Vector3<f64> {
    let [a, b] = stay.chord;
    Vector3::new(b.x - a.x, b.y - a.y, 0.0).normalize()
}
