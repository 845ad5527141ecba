//! The bends of a raw tube, and how a bent tube is laid.

use super::group::{Group, Spec, below, group};
use super::inline_vec::InlineVec;
use crate::units::{Angle, Bounds, Kind, Length, Quantity};

group! {
    /// One bend, as a bender's table of length, rotation and angle has it.
    Bend {
        /// Straight length before it, from the raw tube's front end or the end of the bend before.
        before: Length = "before_mm", "straight before the bend", 120.0, 0.0..=1200.0;
        /// Rotation of its plane about the tube, from the plane of the bend before. It counts from outboard upwards on
        /// both sides, so that one table makes a mirrored pair.
        rotation: Angle = "rotation_deg", "rotation", 0.0, -360.0..=360.0;
        /// How far the tube turns.
        angle: Angle = "angle_deg", "bend angle", 8.0, 0.0..=170.0;
        /// Radius of the tube's middle in the bend.
        radius: Length = "radius_mm", "bend radius", 150.0, 5.0..=5000.0;
    }
}

/// Which of the two free choices in laying a bent tube are left to the solver: it takes what leaves the most room.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum SolveFor {
    /// None: front trim and roll stand as entered.
    #[default]
    Nothing,
    /// The front trim.
    Trim,
    /// The roll about the chord.
    Roll,
    /// Both.
    Both,
}

impl SolveFor {
    /// All choices, in the order the page offers them.
    pub const ALL: [Self; 4] = [Self::Nothing, Self::Trim, Self::Roll, Self::Both];

    /// The word in a job file.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Nothing => "nothing",
            Self::Trim => "trim",
            Self::Roll => "roll",
            Self::Both => "both",
        }
    }
}

/// As many bends as a tube may have.
pub(crate) const MOST_BENDS: usize = 8;

/// The bends of a tube, and how it is laid with them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bends<T = f64> {
    /// From the front end on; empty for a straight tube.
    pub list: InlineVec<Bend<T>, MOST_BENDS>,
    /// Turn of the tube about the chord between its reference points, from outboard upwards; a straight tube has none. At 0
    /// the tube's side that bends of rotation 0 turn towards faces outboard.
    pub roll: Option<Angle<T>>,
    /// What is left to the solver.
    pub find: SolveFor,
}

impl Default for Bends {
    fn default() -> Self {
        Self { list: InlineVec::default(), roll: None, find: SolveFor::Nothing }
    }
}

impl Bends {
    /// Those bends, with roll 0 and nothing left to the solver. Bends beyond the most a tube may have are left out.
    pub fn of(bends: impl IntoIterator<Item = Bend>) -> Self {
        let list: InlineVec<Bend, MOST_BENDS> = bends.into_iter().collect();
        let roll = (!list.is_empty()).then_some(Angle::from_degrees(0.0));
        Self { list, roll, find: SolveFor::Nothing }
    }
}

/// What is known of the roll.
pub(crate) static ROLL: Spec = Spec {
    key: "roll_deg",
    name: "roll",
    meaning: "How far the tube is turned about its axis.",
    kind: Kind::Angle,
    bounds: Bounds::new(-360.0, 360.0),
};

impl<T: Copy> Group<T> for Bends<T> {
    type Over<U: Copy> = Bends<U>;

    fn map<U: Copy>(&self, at: &str, f: &mut dyn FnMut(&str, &'static Spec, T) -> U) -> Bends<U> {
        let list = self.list.map(&below(at, "bends"), f);
        let roll =
            self.roll.map(|roll| Angle::from_recorded(f(&below(at, ROLL.key), &ROLL, roll.recorded())));
        Bends { list, roll, find: self.find }
    }
}
