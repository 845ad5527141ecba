//! The mill: its spindle, its ways, what its readouts show.
//!
//! The axes are named as in ISO 841: Z along the spindle, X and Y square to it. A readout's sense is told by moving
//! the cutter over the work: X to the right, Y away from the person at the mill (up, where the spindle lies), Z out of
//! the work.

use super::scale::Sense;
use crate::model::Hand;
use crate::model::group::group;
use crate::units::{Length, SpindleSpeed};
use serde::{Deserialize, Serialize};

/// How the spindle stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum SpindleWay {
    /// Upright, over the table.
    #[default]
    Vertical,
    /// Level, pointing to the person at the mill.
    Horizontal,
}

/// An axis of the mill.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum Axis {
    /// Right and left.
    #[default]
    X,
    /// Away and near; up and down where the spindle lies.
    Y,
    /// Along the spindle.
    Z,
}

/// A way along an axis, told by the cutter's motion over the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Toward {
    /// To the right on X; away (up, where the spindle lies) on Y.
    #[default]
    Plus,
    /// To the left on X; near (down) on Y.
    Minus,
}

/// What holds the fixture.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Mounting {
    /// A vise grips its mounting block.
    #[default]
    Vise,
    /// It is clamped to the table itself.
    Table,
}

/// The words of a choice in a shop file.
macro_rules! words {
    ($Name:ident { $($Variant:ident = $key:literal, $words:literal;)+ }) => {
        impl $Name {
            /// All of them.
            pub const ALL: [Self; [$($key),+].len()] = [$(Self::$Variant),+];

            /// The word in a shop file.
            pub const fn key(self) -> &'static str {
                match self { $(Self::$Variant => $key,)+ }
            }

            /// The word for people.
            pub const fn name(self) -> &'static str {
                match self { $(Self::$Variant => $words,)+ }
            }
        }
    };
}

words!(SpindleWay { Vertical = "vertical", "vertical spindle"; Horizontal = "horizontal", "horizontal spindle"; });
words!(Axis { X = "x", "X"; Y = "y", "Y"; Z = "z", "Z"; });
words!(Toward { Plus = "plus", "plus"; Minus = "minus", "minus"; });
words!(Mounting { Vise = "vise", "in the vise"; Table = "table", "on the table"; });

impl Toward {
    /// +1 or −1.
    pub const fn sign(self) -> f64 {
        match self {
            Self::Plus => 1.0,
            Self::Minus => -1.0,
        }
    }
}

group! {
    /// The readout of one axis.
    DroAxis {
        /// Its smallest division; 0 for one that shows every figure.
        division: Length = "division_mm", "smallest division", 0.0, 0.0..=1.0;
        /// How far the axis goes.
        travel: Length = "travel_mm", "travel", 400.0, 1.0..=3000.0;
    }
}

group! {
    /// The mill's bodies about its spindle's axis, from the holder's face upwards.
    MillBody {
        /// Diameter of what holds the arbor.
        holder: Length = "holder_mm", "holder diameter", 45.0, 2.0..=200.0;
        /// How far the holder stands out of the spindle nose.
        holder_length: Length = "holder_length_mm", "holder length", 50.0, 0.0..=300.0;
        /// Diameter of the spindle nose.
        nose: Length = "nose_mm", "spindle nose diameter", 85.0, 5.0..=400.0;
        /// Length of the spindle nose that can come near the work.
        nose_length: Length = "nose_length_mm", "spindle nose length", 120.0, 1.0..=600.0;
        /// How far the saw goes on after it has come through.
        run_out: Length = "run_out_mm", "run-out", 2.0, 0.0..=50.0;
        /// How far from the work the saw starts.
        run_in: Length = "run_in_mm", "run-in", 5.0, 0.0..=100.0;
    }
}

/// The spindle speeds that there are.
#[derive(Clone, Debug, PartialEq)]
pub enum Speeds {
    /// These only, slowest first.
    Steps(Vec<SpindleSpeed>),
    /// Any from the first to the second.
    Range(SpindleSpeed, SpindleSpeed),
}

/// The mill.
#[derive(Clone, Debug, PartialEq)]
pub struct Mill {
    /// How the spindle stands.
    pub spindle: SpindleWay,
    /// The axis that the fixture lies along, X or Y.
    pub lies_along: Axis,
    /// Which way its rear end points.
    pub rear_toward: Toward,
    /// Which side of the bicycle faces the spindle where the fixture stands on its side.
    pub side_to_spindle: Hand,
    /// Which side of the mounting block is touched where the fixture is tilted.
    pub block_side: Hand,
    /// What holds the fixture.
    pub mounting: Mounting,
    /// Readouts of X, Y and Z.
    pub axes: [DroAxis; 3],
    /// Which way each of them counts.
    pub senses: [Sense; 3],
    /// The bodies about the spindle's axis.
    pub body: MillBody,
    /// The speeds there are.
    pub speeds: Speeds,
}

impl Default for Mill {
    fn default() -> Self {
        Self {
            spindle: SpindleWay::Vertical,
            lies_along: Axis::X,
            rear_toward: Toward::Plus,
            side_to_spindle: Hand::Left,
            block_side: Hand::Left,
            mounting: Mounting::Vise,
            axes: [DroAxis::default(); 3],
            senses: [Sense::Rises; 3],
            body: MillBody::default(),
            speeds: Speeds::Range(SpindleSpeed::from_rpm(60.0), SpindleSpeed::from_rpm(4000.0)),
        }
    }
}

impl Mill {
    /// The readout of an axis and which way it counts.
    pub const fn readout(&self, axis: Axis) -> (DroAxis, Sense) {
        let [x, y, z] = self.axes;
        let [x_sense, y_sense, z_sense] = self.senses;
        match axis {
            Axis::X => (x, x_sense),
            Axis::Y => (y, y_sense),
            Axis::Z => (z, z_sense),
        }
    }

    /// The axis square to the spindle and to the fixture's length.
    pub const fn lies_across(&self) -> Axis {
        match self.lies_along {
            Axis::Y => Axis::X,
            _ => Axis::Y,
        }
    }
}
