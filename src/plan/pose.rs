//! How a stay lies: as a whole, and as the straight stay that it is part of at a place.

use super::at::CutAt;
use super::axes::Axes;
use super::lay::lay_again;
use super::result::Plan;
use super::stay_geometry::StayGeometry;
use super::which::Which;
use crate::geometry::{Centreline, Line, Outline};
use crate::units::Real;
use nalgebra::Vector3;

/// A stay in frame axes. Stations run along its middle line from the front reference point.
#[derive(Clone, Debug)]
pub struct StayPose<T: nalgebra::Scalar = f64> {
    /// Its middle line.
    pub line: Centreline<T>,
    /// Its outer surface by station, ovals counted from the tube's own mark.
    pub surface: Outline<T>,
    /// Stations of the raw tube's two ends.
    pub raw: (T, T),
    /// The station that it is seen from.
    pub seen_from: T,
    /// The straight stay that touches it there: its axis, which shares the stations there.
    pub axis: Line<T>,
    /// Where φ = 0 points round that axis.
    pub first: Vector3<T>,
    /// The surface about that axis, ovals counted from φ = 0.
    pub outline: Outline<T>,
    /// The bore about that axis.
    pub bore: Outline<T>,
}

impl<T: Real> StayPose<T> {
    fn touching(whole: &StayGeometry<T>, station: T) -> Self {
        let straight = whole.straight_at(station);
        Self {
            line: whole.line().into_owned(),
            surface: whole.outer.clone(),
            raw: whole.raw,
            seen_from: station,
            axis: straight.axis,
            first: straight.generators(&straight.outer).first,
            outline: straight.outer.clone(),
            bore: straight.bore.clone(),
        }
    }
}

/// How the stay of `at` lies, seen from that end.
pub fn stay_pose<T: Real>(plan: &Plan<T>, at: CutAt) -> StayPose<T> {
    let whole = lay_again(&Axes::new(&plan.job.frame), plan, at.pair, at.hand);
    let which = if at.at_front { Which::Front } else { Which::Rear };
    StayPose::touching(&whole, whole.cut_at(which))
}

/// How the stay of `at` lies, seen from a station of it.
pub fn stay_pose_at<T: Real>(plan: &Plan<T>, at: CutAt, station: T) -> StayPose<T> {
    let whole = lay_again(&Axes::new(&plan.job.frame), plan, at.pair, at.hand);
    StayPose::touching(&whole, station)
}
