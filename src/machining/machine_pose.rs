//! How the machine stands at a moment of the work: fixture, spindle, what is clamped, and what moves.

use crate::model::shop::{HoleSaw, SlittingSaw};
use crate::model::{Hand, PairName};
use crate::units::Length;
use nalgebra::{Point3, Vector3};

/// What is in the spindle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SpindleTool {
    /// Nothing.
    Empty,
    /// An edge finder with that tip diameter; 0 for a pointed tip.
    EdgeFinder(Length),
    /// A hole saw; its place counts at the teeth.
    HoleSaw(HoleSaw),
    /// A slitting saw; its place counts in the middle of its width.
    SlittingSaw(SlittingSaw),
}

/// What moves at a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MovingPart {
    /// The dummy axle.
    Axle,
    /// The clamp posts.
    Posts,
    /// The stays.
    Stays,
    /// The fixture, on the machine.
    Fixture,
    /// The table with all that is on it.
    Table,
    /// The spindle, or its tool.
    Spindle,
}

/// The machine at a moment. The room's axes: x to the right of the person at the machine, y away from them, z up. The front datum of the
/// fixture is taken to stay where it is; the table's motion shows as the spindle's, the other way round.
#[derive(Clone, Debug, PartialEq)]
pub struct MachinePose {
    /// The pair that is worked on.
    pub pair: PairName,
    /// Its stays that are.
    pub hands: Vec<Hand>,
    /// Whether they are in the fixture.
    pub has_stays: bool,
    /// Whether their front and rear ends are cut.
    pub is_cut: [bool; 2],
    /// Whether the dummy axle is in the fixture.
    pub has_axle: bool,
    /// The fixture's u, v and w in the room.
    pub ways: [Vector3<f64>; 3],
    /// Out of the work along the spindle, in the room.
    pub out: Vector3<f64>,
    /// Where the tool stands, from the front datum in the room's directions, mm. A part of it that no step has set yet is as good as any.
    pub tool_at: Point3<f64>,
    /// What is in the spindle.
    pub tool: SpindleTool,
    /// What moves at this step.
    pub moving: Option<MovingPart>,
    /// Which ways it moves in the room, length 1, one after the other; none for what is turned or changed.
    pub moves: Vec<Vector3<f64>>,
}

impl MachinePose {
    /// A point of the fixture, `(u, v, w)` from the front datum, in the room.
    pub fn in_room(&self, point: &Point3<f64>) -> Point3<f64> {
        let [u, v, w] = self.ways;
        Point3::from(u * point.x + v * point.y + w * point.z)
    }

    /// A point of the room in the fixture's components.
    pub fn in_fixture(&self, point: &Point3<f64>) -> Point3<f64> {
        let [u, v, w] = self.ways.map(|way| way.dot(&point.coords));
        Point3::new(u, v, w)
    }
}
