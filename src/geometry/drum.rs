//! A cylinder with flat ends, and how far it is from bodies of many kinds.

use super::{Centreline, Convex, ConvexRod, Line, Outline, Pipe, Turned, gap};

/// A distance below this counts as none. It is what two convex bodies' bounds agree to.
const TOUCHES: f64 = 1e-6;

/// A cylinder with flat ends.
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
        let Self { axis, from, to, radius } = *self;
        match part {
            Part::Convex(body) => Convex::Rod(ConvexRod::cylinder(axis, from, to, radius)).distance(body),
            Part::Bent(line, outline, (start, end)) => {
                let pipe = Pipe { line, outline, from: *start, to: *end };
                let turned = Turned { axis, hole: 0.0, rim: radius, low: from, high: to, rounding: 0.0 };
                let found = gap(&pipe, &turned).map_or(f64::INFINITY, |closest| closest.distance);
                if found <= TOUCHES { 0.0 } else { found }
            }
        }
    }
}
