//! The frame's axes.

use crate::geometry::Line;
use crate::model::{Frame, Job, PairName};
use crate::units::{Length, Real};
use nalgebra::{Point3, Vector3};

/// Where the frame's own lines run, in frame axes: x rearwards, y to the drive side, z up, from the shell's middle.
pub(crate) struct Axes<T: Real> {
    pub(crate) axle: Point3<T>,
    pub(crate) shell: Line<T>,
    /// From the foot of the shell centre on it, upwards.
    pub(crate) seat_tube: Line<T>,
}

impl<T: Real> Axes<T> {
    pub(crate) fn new(frame: &Frame<T>) -> Self {
        let (length, drop) = (frame.chainstay_length.mm(), frame.bb_drop.mm());
        let (sin, cos) = frame.seat_angle.radians().sin_cos();
        let setback = frame.seat_tube_setback.mm();
        let zero = T::zero();
        Self {
            axle: Point3::new(((length - drop) * (length + drop)).sqrt(), zero, drop),
            shell: Line { point: Point3::origin(), direction: Vector3::y() },
            seat_tube: Line {
                point: Point3::new(setback * sin, zero, -setback * cos),
                direction: Vector3::new(cos, zero, sin),
            },
        }
    }

    /// Where a pair's line to the axle starts.
    pub(crate) fn front_datum(&self, job: &Job<T>, pair: PairName) -> Point3<T> {
        match pair {
            PairName::Chainstays => self.shell.point,
            PairName::Seatstays => self.seat_tube.at(job.seatstay_node.front_station.mm()),
        }
    }

    /// From a pair's front datum to the axle.
    pub(crate) fn datum_to_axle(&self, job: &Job<T>, pair: PairName) -> Length<T> {
        Length::from_mm((self.axle - self.front_datum(job, pair)).norm())
    }
}
