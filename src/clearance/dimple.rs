//! How deep a tube must be pressed in where nothing else clears.

use super::clearances::obstacles;
use super::obstacle::{Obstacle, PlacedObstacle};
use super::stay_body::StayBody;
use crate::geometry::{Pipe, gap, gap_at};
use crate::model::{Hand, PairName};
use crate::plan::Plan;
use crate::units::Length;

/// What goes with every dimple.
pub const CAUTION: &str = "A dimple or a crimp takes strength and stiffness out of the tube where a stay is loaded most: it is \
    the last resort, to be judged by someone who answers for the frame, and the frame is proved by test.";

/// A place to be pressed in. Its depth is what is wanting of the room that the neighbour must have.
#[derive(Clone, Copy, Debug)]
pub struct Dimple {
    /// For what.
    pub to: Obstacle,
    /// Depth at the deepest place, square to the tube's surface.
    pub depth: Length,
    /// Station of the deepest place, from the front reference point.
    pub deepest: Length,
    /// Station where it begins.
    pub from: Length,
    /// Station where it ends.
    pub to_station: Length,
}

/// Least step towards the end of a dimple, mm.
const STEP: f64 = 1e-4;

/// The dimple that gives a neighbour its room; `None` where it has it, or where the stay has no such neighbour.
pub fn dimple(plan: &Plan, pair: PairName, hand: Hand, to: Obstacle) -> Option<Dimple> {
    let standing = StayBody::new(plan, pair, hand);
    let pipe = standing.pipe();
    let beside = obstacles(plan, pair, hand).into_iter().find(|beside| beside.to == to)?;
    let closest = gap(&pipe, &beside.solid)?;
    let depth = beside.limit.mm() - closest.distance;
    let [from, to_station] =
        [-1.0, 1.0].map(|way| Length::from_mm(end(&pipe, &beside, closest.station, way)));
    (depth > 0.0).then_some(Dimple {
        to,
        depth: Length::from_mm(depth),
        deepest: Length::from_mm(closest.station),
        from,
        to_station,
    })
}

/// The first place from `station` on where the room suffices. Room changes by no more than the way along the tube and its
/// taper, so that a step of half of what is wanting never passes it.
fn end(pipe: &Pipe<'_, f64>, beside: &PlacedObstacle<f64>, station: f64, way: f64) -> f64 {
    let mut at = station;
    while let Some(room) = gap_at(pipe, &beside.solid, at) {
        let wanting = beside.limit.mm() - room;
        if wanting <= 0.0 {
            break;
        }
        at += way * (0.5 * wanting).max(STEP);
    }
    at.max(pipe.from).min(pipe.to)
}
