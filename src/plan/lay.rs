//! Where one stay runs.

use super::axes::Axes;
use super::clamp::ClampFrame;
use crate::geometry::{Generators, Line, Outline};
use crate::quantity::{Angle, Real};
use crate::trade::{Hand, Job, PairName, Side, Tube};
use nalgebra::{Point3, Vector3};

/// One stay, laid between its reference points.
pub(super) struct Laid<T: Real> {
    pub(super) hand: Hand,
    pub(super) clamp: ClampFrame<T>,
    /// From the front reference point; stations count from there.
    pub(super) axis: Line<T>,
    pub(super) length: T,
    /// Where a round dropout sits: the rear reference point, brought onto the centre plane.
    pub(super) rear_middle: Point3<T>,
    pub(super) outer: Outline<T>,
    pub(super) bore: Outline<T>,
    pub(super) wall: T,
    /// Stations of the raw tube's two ends.
    pub(super) raw: (T, T),
}

impl<T: Real> Laid<T> {
    pub(super) fn new(axes: &Axes<T>, job: &Job<T>, pair: PairName, hand: Hand) -> Self {
        let side = job.pair(pair).side(hand);
        let (front_middle, rear_middle) = middles(axes, job, pair, side);
        let across = |half_spacing: T| Vector3::y() * (half_spacing * T::of(hand.sign()));
        let front = front_middle + across(side.front.half_spacing.mm());
        let rear = rear_middle + across(side.rear.half_spacing.mm());
        let (axis, length) = Line::between(front, rear);
        let outer = stay_outline(&side.tube);
        Self {
            hand,
            clamp: ClampFrame::new(front_middle, rear_middle - front_middle),
            axis,
            length,
            rear_middle,
            bore: outer.inset(side.tube.wall.mm()),
            outer,
            wall: side.tube.wall.mm(),
            raw: (-side.tube.front_trim.mm(), side.tube.length.mm() - side.tube.front_trim.mm()),
        }
    }

    /// The generators of a surface of this stay. φ = 0 points along `w`, which a straight stay lies square to.
    pub(super) fn generators<'a>(&self, outline: &'a Outline<T>) -> Generators<'a, T> {
        let first = self.clamp.w;
        Generators { axis: self.axis, first, second: self.axis.direction.cross(&first), outline }
    }

    /// Between the axis and the centre plane, positive outwards to the rear.
    pub(super) fn splay(&self) -> Angle<T> {
        let outwards = self.axis.direction.y * T::of(self.hand.sign());
        Angle::from_radians(outwards.atan2(self.axis.direction.dot(&self.clamp.u)))
    }
}

/// The two reference points of a side, brought onto the centre plane.
pub(super) fn middles<T: Real>(
    axes: &Axes<T>,
    job: &Job<T>,
    pair: PairName,
    side: &Side<T>,
) -> (Point3<T>, Point3<T>) {
    let datum = axes.front_datum(job, pair);
    let straight = ClampFrame::new(datum, axes.axle - datum);
    (
        datum + straight.w * side.front.rise.mm(),
        axes.axle - straight.u * side.rear.reach.mm() + straight.w * side.rear.rise.mm(),
    )
}

/// A tube's outer radius by station along its stay.
pub fn stay_outline<T: Real>(tube: &Tube<T>) -> Outline<T> {
    let half = T::of(0.5);
    let (front, rear) = (tube.od_front.mm() * half, tube.od_rear.mm() * half);
    let trim = tube.front_trim.mm();
    if front == rear {
        return Outline::level(front);
    }
    Outline::through(&[(tube.taper_start.mm() - trim, front), (tube.taper_end.mm() - trim, rear)])
}
