//! The clearances of each stay from what is beside it.

use super::obstacle::{Obstacle, PlacedObstacle, obstacles_beside, post_columns};
use super::stay_body::StayBody;
use crate::geometry::{Closest, Pipe, Rod, gap, gap_at, sections_apart};
use crate::model::{Group, Hand, Job, PairName, Surroundings};
use crate::plan::{Axes, ClampFrame, Plan, coordinates, stays_apart};
use crate::units::{Length, Real};
use nalgebra::Point3;
use serde::Serialize;

/// The least distance of a stay from one obstacle.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct Clearance<T: nalgebra::Scalar + Copy = f64> {
    /// From what.
    pub to: Obstacle,
    /// The distance; negative by the depth to which the two run into each other.
    #[serde(rename = "gap_mm")]
    pub distance: Length<T>,
    /// The distance that is wanted.
    #[serde(rename = "limit_mm")]
    pub limit: Length<T>,
    /// Where along the stay, from its front reference point.
    #[serde(rename = "station_mm")]
    pub station: Length<T>,
    /// The point on the stay, frame axes.
    #[serde(rename = "stay_point_mm", serialize_with = "coordinates")]
    pub here: Point3<T>,
    /// The point on the obstacle, frame axes.
    #[serde(rename = "neighbour_point_mm", serialize_with = "coordinates")]
    pub there: Point3<T>,
    /// Nowhere along the stay is the distance less than `distance` by more than this, mm.
    #[serde(rename = "within_mm")]
    pub error_bound: f64,
}

impl<T: Real> Clearance<T> {
    fn new(to: Obstacle, limit: Length<T>, closest: &Closest<T>) -> Self {
        Self {
            to,
            distance: Length::from_mm(closest.distance),
            limit,
            station: Length::from_mm(closest.station),
            here: closest.here,
            there: closest.there,
            error_bound: closest.error_bound,
        }
    }

    /// What is left over the limit; negative where it falls short.
    pub fn margin(&self) -> Length<T> {
        self.distance - self.limit
    }
}

/// The clearances of one stay.
#[derive(Clone, Debug, Serialize)]
pub struct StayClearances<T: nalgebra::Scalar + Copy = f64> {
    /// Of which pair.
    #[serde(serialize_with = "pair_key")]
    pub pair: PairName,
    /// On which side.
    #[serde(serialize_with = "hand_key")]
    pub hand: Hand,
    /// From each obstacle.
    #[serde(rename = "gaps")]
    pub clearances: Vec<Clearance<T>>,
}

impl<T: Real> StayClearances<T> {
    /// The tightest place: where least is left over the limit.
    pub fn tightest(&self) -> Option<&Clearance<T>> {
        self.clearances.iter().min_by(|a, b| a.margin().mm().value().total_cmp(&b.margin().mm().value()))
    }
}

fn pair_key<S: serde::Serializer>(pair: &PairName, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(pair.key())
}

fn hand_key<S: serde::Serializer>(hand: &Hand, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(hand.key())
}

/// What a job has about its stays; the tyre and the limits alone where nothing is entered.
pub(crate) fn surroundings_of<T: Real>(job: &Job<T>) -> Surroundings<T> {
    job.surroundings.unwrap_or_else(|| Surroundings::default().map("", &mut |_, _, value| T::of(value)))
}

/// What one stay of a plan has beside it; the other stay is left out.
pub fn obstacles<T: Real>(plan: &Plan<T>, pair: PairName, hand: Hand) -> Vec<PlacedObstacle<T>> {
    let axes = Axes::new(&plan.job.frame);
    let all = surroundings_of(&plan.job);
    let mut found = obstacles_beside(&axes, &plan.job, &all, (pair, hand), hand);
    found.extend(post_columns(&plan.job, &all, &plan.pair(pair).stay(hand).clamp));
    found
}

/// What a stay of a job has beside it; the other stay is left out.
pub(super) fn obstacles_of_job(
    job: &Job,
    clamp: &ClampFrame,
    (pair, hand): (PairName, Hand),
) -> Vec<PlacedObstacle> {
    let all = surroundings_of(job);
    let mut found = obstacles_beside(&Axes::new(&job.frame), job, &all, (pair, hand), hand);
    found.extend(post_columns(job, &all, clamp));
    found
}

/// The clearances of every stay: the chainstays first, the right side first.
pub fn clearances<T: Real>(plan: &Plan<T>) -> Vec<StayClearances<T>> {
    PairName::ALL.into_iter().flat_map(|pair| clearances_of(plan, pair)).collect()
}

/// The clearances of a pair's stays, the right side first.
pub(super) fn clearances_of<T: Real>(plan: &Plan<T>, pair: PairName) -> [StayClearances<T>; 2] {
    let limit = surroundings_of(&plan.job).limits.other;
    let [right, left] = Hand::ALL.map(|hand| StayBody::new(plan, pair, hand));
    let between = stays_apart(&right.pipe(), &left.pipe());
    [(Hand::Right, &right), (Hand::Left, &left)].map(|(hand, stay)| {
        let pipe = stay.pipe();
        let clearance = |beside: &PlacedObstacle<T>| {
            Some(Clearance::new(beside.to, beside.limit, &gap(&pipe, &beside.solid)?))
        };
        let mut clearances: Vec<Clearance<T>> =
            obstacles(plan, pair, hand).iter().filter_map(clearance).collect();
        let other = between.map(|(closest, station)| match hand {
            Hand::Right => closest,
            Hand::Left => Closest { station, here: closest.there, there: closest.here, ..closest },
        });
        clearances.extend(other.map(|closest| Clearance::new(Obstacle::Other, limit, &closest)));
        StayClearances { pair, hand, clearances }
    })
}

/// How thick a slice of a stay stands for one of its stations, mm.
const SLICE: f64 = 1e-3;

/// The distance from one obstacle at each of `count` stations, 2 or more, spread evenly over a stay: `(station, distance)`. Empty for an
/// obstacle that the stay does not have.
pub fn clearances_along(
    plan: &Plan,
    pair: PairName,
    hand: Hand,
    to: Obstacle,
    count: u16,
) -> Vec<(Length, Length)> {
    let standing = StayBody::new(plan, pair, hand);
    let pipe = standing.pipe();
    let other = StayBody::new(plan, pair, hand.other());
    let all = obstacles(plan, pair, hand);
    let found = all.iter().find(|beside| beside.to == to);
    let room = |station: f64| match (found, to) {
        (Some(beside), _) => gap_at(&pipe, &beside.solid, station),
        (None, Obstacle::Other) => slice_clearance(&pipe, &other.pipe(), station),
        _ => None,
    };
    let last = count.max(2) - 1;
    let at = |i: u16| pipe.from + (pipe.to - pipe.from) * (f64::from(i) / f64::from(last));
    let stations = (0..=last).map(|i| at(i).min(pipe.to));
    stations.filter_map(|s| Some((Length::from_mm(s), Length::from_mm(room(s)?)))).collect()
}

/// The distance of one station of a stay from the other stay, as that of a thin slice there.
fn slice_clearance(pipe: &Pipe<'_, f64>, other: &Pipe<'_, f64>, station: f64) -> Option<f64> {
    let from = station.min(pipe.to - SLICE);
    let slice = Pipe { from, to: from + SLICE, ..*pipe };
    // A slice that touches the other stay has no distance, and no depth but a ball's.
    let ball = || Rod::ball(pipe.line.at(station).point, pipe.outline.radius(station));
    let touching = || gap(other, &ball()).map(|depth| depth.distance.min(0.0));
    sections_apart(&slice, other).map(|(closest, _)| closest.distance).or_else(touching)
}
