//! One stay of a pair.

use super::end::{Cope, End, Member, Slot};
use super::group::{Group, Spec, below, group};
use super::tube::Tube;
use crate::units::Length;
use serde::{Deserialize, Serialize};

/// Which side of the bicycle, from the rider's seat.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Hand {
    /// The drive side.
    Right,
    /// The other side.
    Left,
}

impl Hand {
    /// Both sides, right first.
    pub const ALL: [Self; 2] = [Self::Right, Self::Left];

    /// +1 on the right, −1 on the left.
    pub const fn sign(self) -> f64 {
        match self {
            Self::Right => 1.0,
            Self::Left => -1.0,
        }
    }

    /// The side across the bicycle.
    pub const fn other(self) -> Self {
        match self {
            Self::Right => Self::Left,
            Self::Left => Self::Right,
        }
    }

    /// The word in a job file and on the page.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Right => "right",
            Self::Left => "left",
        }
    }
}

group! {
    /// Where a stay's axis starts.
    FrontPoint {
        /// From the centre plane to the stay's axis.
        half_spacing: Length = "half_spacing_mm", "front half spacing", 21.0, 0.0..=250.0;
        /// Above the line from front datum to axle.
        rise: Length = "rise_mm", "front rise", 0.0, -150.0..=150.0;
    }
}

group! {
    /// Where a stay's axis ends.
    RearPoint {
        /// From the centre plane to the stay's axis.
        half_spacing: Length = "half_spacing_mm", "rear half spacing", 74.0, 0.0..=250.0;
        /// Above the line from front datum to axle.
        rise: Length = "rise_mm", "rear rise", 0.0, -150.0..=150.0;
        /// How far short of the axle the stay's axis ends.
        reach: Length = "reach_mm", "reach", 32.0, -100.0..=200.0;
    }
}

/// One stay: its two ends, its two reference points and its tube.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Side<T = f64> {
    /// Where its axis starts.
    pub front: FrontPoint<T>,
    /// What its front end is cut to.
    pub front_end: End<T>,
    /// Where its axis ends.
    pub rear: RearPoint<T>,
    /// What its rear end is cut to.
    pub rear_end: End<T>,
    /// The raw tube.
    pub tube: Tube<T>,
}

impl Side {
    /// The starting chainstay.
    pub fn chainstay() -> Self {
        Self {
            front: FrontPoint::default(),
            front_end: End::Cope(Cope { onto: Member::Shell, cutter: None }),
            rear: RearPoint::default(),
            rear_end: End::Slot(Slot::default()),
            tube: Tube::default(),
        }
    }

    /// The starting seat stay: a slim pair that meets the seat tube on its full face.
    pub fn seatstay() -> Self {
        let mm = Length::from_mm;
        Self {
            front: FrontPoint { half_spacing: mm(7.0), rise: mm(0.0) },
            front_end: End::Cope(Cope { onto: Member::SeatTube, cutter: None }),
            rear: RearPoint::default(),
            rear_end: End::Slot(Slot::default()),
            tube: Tube {
                od_front: mm(12.7),
                od_rear: mm(11.0),
                taper_start: mm(250.0),
                taper_end: mm(480.0),
                wall: mm(0.7),
                length: mm(560.0),
                front_trim: mm(30.0),
                ..Tube::default()
            },
        }
    }
}

impl<T: Copy> Group<T> for Side<T> {
    type Over<U: Copy> = Side<U>;

    fn map<U: Copy>(&self, at: &str, f: &mut dyn FnMut(&str, &'static Spec, T) -> U) -> Side<U> {
        let front = below(at, "front");
        let rear = below(at, "rear");
        Side {
            front: self.front.map(&front, f),
            front_end: self.front_end.map(&below(&front, "end"), f),
            rear: self.rear.map(&rear, f),
            rear_end: self.rear_end.map(&below(&rear, "end"), f),
            tube: self.tube.map(&below(at, "tube"), f),
        }
    }
}
