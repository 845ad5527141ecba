//! A cylinder with flat ends that may run sideways, and how far it is from bodies of many kinds.

use super::{Centreline, Convex, ConvexRod, Line, Near, Outline, Pipe, Solid, Turned, gap};
use nalgebra::{Point3, Vector3};

/// A distance below this counts as none. It is what two convex bodies' bounds agree to.
const TOUCHES: f64 = 1e-6;

/// A cylinder with flat ends, and all that it goes through on a straight way square to its axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drum {
    /// Its axis.
    pub axis: Line,
    /// Station of one end.
    pub from: f64,
    /// Station of the other end, larger.
    pub to: f64,
    /// Its radius.
    pub radius: f64,
    /// Its way from where it stands, square to the axis; 0 where it stays.
    pub run: Vector3<f64>,
}

/// A body that need not be convex, by its parts.
#[derive(Clone, Debug, PartialEq)]
pub enum Part {
    /// A convex one.
    Convex(Convex),
    /// A round or oval one about a line, between two stations, with flat ends.
    Bent(Centreline, Outline, (f64, f64)),
}

impl Drum {
    /// The smallest distance between the drum and a body made of `parts`; 0 where they touch or overlap, infinite where there are
    /// no parts. From a convex part it is exact to 1e-6; from a bent one to what [`gap`] is sure of.
    pub fn distance(&self, parts: &[Part]) -> f64 {
        parts.iter().map(|part| self.apart(part)).fold(f64::INFINITY, f64::min)
    }

    fn apart(&self, part: &Part) -> f64 {
        match part {
            Part::Convex(body) => self.convex().distance(body),
            Part::Bent(line, outline, (start, end)) => {
                let pipe = Pipe { line, outline, from: *start, to: *end };
                let found = gap(&pipe, self).map_or(f64::INFINITY, |closest| closest.distance);
                if found <= TOUCHES { 0.0 } else { found }
            }
        }
    }

    fn convex(&self) -> Convex {
        let rod = ConvexRod::cylinder(self.axis, self.from, self.to, self.radius);
        if self.run == Vector3::zeros() { Convex::Rod(rod) } else { Convex::Swept(rod, self.run) }
    }

    /// Where on its way, from 0 to 1, it is nearest to a point.
    fn share(&self, point: &Point3<f64>) -> f64 {
        let square = self.run.norm_squared();
        if square == 0.0 {
            return 0.0;
        }
        let share = (point - self.axis.point).dot(&self.run) / square;
        if share > 0.0 { share.min(1.0) } else { 0.0 }
    }
}

impl Solid<f64> for Drum {
    fn near(&self, point: &Point3<f64>) -> Near<f64> {
        let Self { mut axis, from, to, radius, run } = *self;
        axis.point += run * self.share(point);
        Turned { axis, hole: 0.0, rim: radius, low: from, high: to, rounding: 0.0 }.near(point)
    }

    fn dip(&self, _: &Point3<f64>, _: f64) -> f64 {
        0.0
    }
}
