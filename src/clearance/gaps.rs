//! The room from each stay to its neighbours.

use super::neighbour::{Beside, Neighbour, beside, columns};
use super::stay_body::StayBody;
use crate::geometry::{Closest, Pipe, Rod, gap, gap_at, sections_apart};
use crate::model::{Group, Hand, Job, PairName, Surroundings};
use crate::plan::Axes;
use crate::plan::stays_apart;
use crate::plan::{Plan, coordinates};
use crate::units::{Length, Real};
use nalgebra::Point3;
use serde::Serialize;

/// The least room from a stay to one neighbour.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct Gap<T: nalgebra::Scalar + Copy = f64> {
    /// To what.
    pub to: Neighbour,
    /// The room; negative by the depth to which the two run into each other.
    #[serde(rename = "gap_mm")]
    pub gap: Length<T>,
    /// The room that is wanted.
    #[serde(rename = "limit_mm")]
    pub limit: Length<T>,
    /// Where along the stay, from its front reference point.
    #[serde(rename = "station_mm")]
    pub station: Length<T>,
    /// The point on the stay, frame axes.
    #[serde(rename = "stay_point_mm", serialize_with = "coordinates")]
    pub here: Point3<T>,
    /// The point on the neighbour, frame axes.
    #[serde(rename = "neighbour_point_mm", serialize_with = "coordinates")]
    pub there: Point3<T>,
    /// Nowhere along the stay is the room less than `gap` by more than this, mm.
    #[serde(rename = "within_mm")]
    pub within: f64,
}

impl<T: Real> Gap<T> {
    fn new(to: Neighbour, limit: Length<T>, closest: &Closest<T>) -> Self {
        Self {
            to,
            gap: Length::from_mm(closest.distance),
            limit,
            station: Length::from_mm(closest.station),
            here: closest.here,
            there: closest.there,
            within: closest.within,
        }
    }

    /// What is left over the limit; negative where room is wanting.
    pub fn spare(&self) -> Length<T> {
        self.gap - self.limit
    }
}

/// The room about one stay.
#[derive(Clone, Debug, Serialize)]
pub struct StayRoom<T: nalgebra::Scalar + Copy = f64> {
    /// Of which pair.
    #[serde(serialize_with = "pair_key")]
    pub pair: PairName,
    /// On which side.
    #[serde(serialize_with = "hand_key")]
    pub hand: Hand,
    /// To each neighbour.
    pub gaps: Vec<Gap<T>>,
}

impl<T: Real> StayRoom<T> {
    /// The tightest place: where least is left over the limit.
    pub fn tightest(&self) -> Option<&Gap<T>> {
        self.gaps.iter().min_by(|a, b| a.spare().mm().value().total_cmp(&b.spare().mm().value()))
    }
}

fn pair_key<S: serde::Serializer>(pair: &PairName, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(pair.key())
}

fn hand_key<S: serde::Serializer>(hand: &Hand, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(hand.key())
}

/// What a job has about its stays; the tyre and the limits alone where nothing is entered.
pub(crate) fn all_about<T: Real>(job: &Job<T>) -> Surroundings<T> {
    job.surroundings.unwrap_or_else(|| Surroundings::default().map("", &mut |_, _, value| T::of(value)))
}

/// What one stay of a plan has beside it; the other stay is left out.
pub fn neighbours<T: Real>(plan: &Plan<T>, pair: PairName, hand: Hand) -> Vec<Beside<T>> {
    let axes = Axes::new(&plan.job.frame);
    let all = all_about(&plan.job);
    let mut found = beside(&axes, &plan.job, &all, (pair, hand), hand);
    found.extend(columns(&plan.job, &all, &plan.pair(pair).stay(hand).clamp));
    found
}

/// The room about every stay: the chainstays first, the right side first. A round body on a bent middle line is the hull
/// of the balls along it.
pub fn rooms<T: Real>(plan: &Plan<T>) -> Vec<StayRoom<T>> {
    let limit = all_about(&plan.job).limits.other;
    let mut found = Vec::new();
    for pair in PairName::ALL {
        let [right, left] = Hand::ALL.map(|hand| StayBody::new(plan, pair, hand));
        let between = gap_across(&right, &left);
        for (hand, standing) in [(Hand::Right, &right), (Hand::Left, &left)] {
            let pipe = standing.pipe();
            let room =
                |beside: &Beside<T>| Some(Gap::new(beside.to, beside.limit, &gap(&pipe, &beside.body)?));
            let mut gaps: Vec<Gap<T>> = neighbours(plan, pair, hand).iter().filter_map(room).collect();
            let other = between.map(|(closest, station)| match hand {
                Hand::Right => closest,
                Hand::Left => Closest { station, here: closest.there, there: closest.here, ..closest },
            });
            gaps.extend(other.map(|closest| Gap::new(Neighbour::Other, limit, &closest)));
            found.push(StayRoom { pair, hand, gaps });
        }
    }
    found
}

/// Where two stays come nearest, as seen from the first, and the station on the second.
pub(super) fn gap_across<T: Real>(one: &StayBody<'_, T>, other: &StayBody<'_, T>) -> Option<(Closest<T>, T)> {
    stays_apart(&one.pipe(), &other.pipe())
}

/// How thick a slice of a stay stands for one of its stations, mm.
const SLICE: f64 = 1e-3;

/// The room to one neighbour at each of `count` stations, 2 or more, spread evenly over a stay: `(station, room)`. Empty for a
/// neighbour that the stay does not have.
pub fn strip(plan: &Plan, pair: PairName, hand: Hand, to: Neighbour, count: u16) -> Vec<(Length, Length)> {
    let standing = StayBody::new(plan, pair, hand);
    let pipe = standing.pipe();
    let other = StayBody::new(plan, pair, hand.other());
    let all = neighbours(plan, pair, hand);
    let found = all.iter().find(|beside| beside.to == to);
    let room = |station: f64| match (found, to) {
        (Some(beside), _) => gap_at(&pipe, &beside.body, station),
        (None, Neighbour::Other) => room_across(&pipe, &other.pipe(), station),
        _ => None,
    };
    let last = count.max(2) - 1;
    let at = |i: u16| pipe.from + (pipe.to - pipe.from) * (f64::from(i) / f64::from(last));
    let stations = (0..=last).map(|i| at(i).min(pipe.to));
    stations.filter_map(|s| Some((Length::from_mm(s), Length::from_mm(room(s)?)))).collect()
}

/// The room from one station of a stay to the other stay, from a thin slice there.
fn room_across(pipe: &Pipe<'_, f64>, other: &Pipe<'_, f64>, station: f64) -> Option<f64> {
    let from = station.min(pipe.to - SLICE);
    let slice = Pipe { from, to: from + SLICE, ..*pipe };
    // A slice that touches the other stay has no room, and no depth but a ball's.
    let ball = || Rod::ball(pipe.line.at(station).point, pipe.outline.radius(station));
    let touching = || gap(other, &ball()).map(|depth| depth.distance.min(0.0));
    sections_apart(&slice, other).map(|(closest, _)| closest.distance).or_else(touching)
}
