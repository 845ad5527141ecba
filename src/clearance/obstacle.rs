//! What a stay has beside it, as solids.

use super::wheel::{chain, disc, tip_diameter, towards, tyre};
use crate::geometry::{Block, HalfSpace, Line, Near, Solid, Turned};
use crate::model::{Crank, Hand, Job, PairName, Ring, Rotor, Surroundings};
use crate::plan::{Axes, ClampFrame, hub_face};
use crate::units::{Length, Real};
use nalgebra::{Point3, Vector3};
use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// How far a crank arm and a foot reach outwards, mm: further than any stay.
const OUTWARDS: f64 = 200.0;

/// Something beside a stay.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Obstacle {
    /// The tyre, run-out included.
    Tyre,
    /// A chainring, by its place in the list.
    Chainring(usize),
    /// What the crank arm sweeps.
    Crank,
    /// What the heel sweeps.
    Heel,
    /// The chain on the smallest sprocket.
    Chain,
    /// The disc rotor.
    Rotor,
    /// The brake caliper.
    Caliper,
    /// The stay on the other side.
    Other,
    /// A post's column, by its place in the list.
    Post(usize),
}

impl Obstacle {
    /// What the trade calls it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Tyre => "tyre",
            Self::Chainring(_) => "chainring",
            Self::Crank => "crank arm",
            Self::Heel => "heel",
            Self::Chain => "chain",
            Self::Rotor => "rotor",
            Self::Caliper => "caliper",
            Self::Other => "other stay",
            Self::Post(_) => "post",
        }
    }

    /// The word in files: `tyre`, `chainring[0]`.
    pub fn key(self) -> String {
        match self {
            Self::Chainring(place) => format!("chainring[{place}]"),
            Self::Post(place) => format!("post[{place}]"),
            Self::Crank => "crank".into(),
            Self::Other => "other_stay".into(),
            plain => plain.name().into(),
        }
    }

    /// The key, below `surroundings`, of the clearance that it must have.
    pub const fn limit_key(self) -> &'static str {
        match self {
            Self::Tyre => "limits.tyre_mm",
            Self::Chainring(_) => "limits.chainring_mm",
            Self::Crank => "limits.crank_mm",
            Self::Heel => "limits.heel_mm",
            Self::Chain => "limits.chain_mm",
            Self::Rotor => "limits.rotor_mm",
            Self::Caliper => "limits.caliper_mm",
            Self::Other => "limits.other_mm",
            Self::Post(_) => "limits.post_mm",
        }
    }

    fn from_key(key: &str) -> Option<Self> {
        let plain =
            [Self::Tyre, Self::Crank, Self::Heel, Self::Chain, Self::Rotor, Self::Caliper, Self::Other];
        let numbered = |name: &str| key.strip_prefix(name)?.strip_suffix(']')?.parse().ok();
        let listed =
            || numbered("chainring[").map(Self::Chainring).or_else(|| numbered("post[").map(Self::Post));
        plain.into_iter().find(|one| one.key() == key).or_else(listed)
    }
}

impl Serialize for Obstacle {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.key())
    }
}

impl<'de> Deserialize<'de> for Obstacle {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let key = String::deserialize(deserializer)?;
        Self::from_key(&key).ok_or_else(|| Error::custom("no obstacle"))
    }
}

/// The solid of an obstacle, in frame axes.
#[derive(Clone, Copy, Debug)]
pub enum ObstacleSolid<T: nalgebra::Scalar = f64> {
    /// A body of revolution.
    Turned(Turned<T>),
    /// A box.
    Block(Block<T>),
    /// All beyond a plane.
    Half(HalfSpace<T>),
}

impl<T: Real> Solid<T> for ObstacleSolid<T> {
    fn near(&self, point: &Point3<T>) -> Near<T> {
        match self {
            Self::Turned(solid) => solid.near(point),
            Self::Block(solid) => solid.near(point),
            Self::Half(solid) => solid.near(point),
        }
    }

    fn dip(&self, point: &Point3<T>, reach: f64) -> f64 {
        match self {
            Self::Turned(solid) => solid.dip(point, reach),
            Self::Block(solid) => solid.dip(point, reach),
            Self::Half(solid) => solid.dip(point, reach),
        }
    }

    fn out_of_plane(&self) -> Option<Vector3<T>> {
        match self {
            Self::Half(solid) => solid.out_of_plane(),
            Self::Turned(_) | Self::Block(_) => None,
        }
    }
}

/// An obstacle where it stands, and the clearance that it must have.
#[derive(Clone, Copy, Debug)]
pub struct PlacedObstacle<T: nalgebra::Scalar = f64> {
    /// What it is.
    pub to: Obstacle,
    /// The clearance that it must have.
    pub limit: Length<T>,
    /// Its solid.
    pub solid: ObstacleSolid<T>,
}

/// What a stay has beside it, the other stay and the posts left out. With another `side` than the stay's own, the obstacles
/// of its mirror as they would stand on that side.
pub(crate) fn obstacles_beside<T: Real>(
    axes: &Axes<T>,
    job: &Job<T>,
    surroundings: &Surroundings<T>,
    (pair, hand): (PairName, Hand),
    side: Hand,
) -> Vec<PlacedObstacle<T>> {
    let limits = &surroundings.limits;
    let sign = side.sign();
    let axle = towards(Line { point: axes.axle, direction: Vector3::y() }, sign);
    let shell = towards(axes.shell, sign);
    let face = hub_face(&job.frame, hand).mm();
    let mut found = Vec::new();
    let mut add = |to, limit, solid| found.push(PlacedObstacle { to, limit, solid });
    add(Obstacle::Tyre, limits.tyre, ObstacleSolid::Turned(tyre(&job.wheel, surroundings, axle)));
    if pair == PairName::Chainstays {
        let rings = surroundings.rings.iter().enumerate().filter(|_| hand == Hand::Right);
        for (i, ring) in rings {
            add(Obstacle::Chainring(i), limits.chainring, ObstacleSolid::Turned(tip_disc(ring, shell)));
        }
        if let Some(crank) = &surroundings.crank {
            add(Obstacle::Crank, limits.crank, ObstacleSolid::Turned(arm_sweep(crank, shell)));
            add(Obstacle::Heel, limits.heel, ObstacleSolid::Turned(heel_sweep(crank, shell)));
        }
    }
    if let Some(sprocket) = surroundings.sprocket.as_ref().filter(|_| hand == Hand::Right) {
        add(Obstacle::Chain, limits.chain, ObstacleSolid::Turned(chain(sprocket, axle, face)));
    }
    if let Some(rotor) = surroundings.rotor.as_ref().filter(|_| hand == Hand::Left) {
        let middle = face - rotor.from_dropout.mm();
        let solid = disc(axle, rotor.diameter.mm(), middle, rotor.thickness.mm());
        add(Obstacle::Rotor, limits.rotor, ObstacleSolid::Turned(solid));
        if rotor.caliper_length.mm().value() > 0.0 {
            add(Obstacle::Caliper, limits.caliper, ObstacleSolid::Block(caliper(rotor, &axle, middle)));
        }
    }
    found
}

/// The disc of a ring's teeth.
fn tip_disc<T: Real>(ring: &Ring<T>, shell: Line<T>) -> Turned<T> {
    disc(shell, tip_diameter(ring.teeth.number()).mm(), ring.chainline.mm(), ring.thickness.mm())
}

fn arm_sweep<T: Real>(crank: &Crank<T>, shell: Line<T>) -> Turned<T> {
    let half = T::of(0.5 * OUTWARDS);
    let reach = (crank.arm.mm() + crank.over.mm()) * T::of(2.0);
    disc(shell, reach, crank.inside.mm() + half, half * T::of(2.0))
}

/// The heel keeps its place from the pedal, so it goes round a circle as large as the pedal's, about a point as far from the
/// shell as the heel is from the pedal. The shoe lies before it, so the whole disc counts.
fn heel_sweep<T: Real>(crank: &Crank<T>, shell: Line<T>) -> Turned<T> {
    let half = T::of(0.5 * OUTWARDS);
    let shift = Vector3::new(crank.heel_back.mm(), T::zero(), crank.heel_up.mm());
    let axis = Line { point: shell.point + shift, ..shell };
    disc(axis, crank.arm.mm() * T::of(2.0), crank.heel_inside.mm() + half, half * T::of(2.0))
}

fn caliper<T: Real>(rotor: &Rotor<T>, axle: &Line<T>, middle: T) -> Block<T> {
    let (sin, cos) = rotor.caliper.radians().sin_cos();
    let out = Vector3::new(-cos, T::zero(), sin);
    let along = Vector3::new(sin, T::zero(), cos);
    let half = |size: Length<T>| size.mm() * T::of(0.5);
    Block {
        middle: axle.at(middle) + out * rotor.caliper_out.mm(),
        directions: [along, out, axle.direction],
        halves: [half(rotor.caliper_length), half(rotor.caliper_height), half(rotor.caliper_width)],
    }
}

/// The columns of the fixture's posts, endless along the clamp frame's normal.
pub(crate) fn post_columns<T: Real>(
    job: &Job<T>,
    surroundings: &Surroundings<T>,
    clamp: &ClampFrame<T>,
) -> Vec<PlacedObstacle<T>> {
    let Some(columns) = &surroundings.posts else { return Vec::new() };
    let endless = T::of(f64::INFINITY);
    let column = |(i, u): (usize, &Length<T>)| {
        let axis = Line { point: clamp.origin + clamp.u * u.mm(), direction: clamp.w };
        let rim = columns.diameter.mm() * T::of(0.5);
        let solid = Turned { axis, hole: T::zero(), rim, low: -endless, high: endless, rounding: T::zero() };
        PlacedObstacle {
            to: Obstacle::Post(i),
            limit: surroundings.limits.post,
            solid: ObstacleSolid::Turned(solid),
        }
    };
    job.fixture.posts.iter().enumerate().map(column).collect()
}
