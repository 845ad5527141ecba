//! Convex bodies, and how far they are apart.
//!
//! The distance is found by walking towards the origin in the bodies' difference (Gilbert, Johnson and Keerthi 1988, IEEE J.
//! Robotics and Automation 4:193). Each step has an upper bound, the distance of two points found, and a lower one, from
//! a plane that separates the bodies; the walk ends when the two agree. Plain numbers only: nothing here is carried on
//! into a figure.

use super::Line;
use super::simplex::Simplex;
use nalgebra::{Point3, Vector3};

/// Upper and lower bound count as agreed at this difference, in the unit of the bodies. With millimetres it is a
/// nanometre: far below what anybody can measure.
const AGREED: f64 = 1e-6;

/// The sine below which a direction counts as that of a rod's axis: its end's middle then lies as far as its rim, but for
/// less than the size of an atom.
const ALONG: f64 = 1e-12;

/// Steps at most. Flat bodies take a handful, round ones a few dozen.
const STEPS: usize = 400;

/// A convex body.
#[derive(Clone, Debug, PartialEq)]
pub enum Convex {
    /// A round body with flat ends.
    Rod(ConvexRod),
    /// A box.
    Block(ConvexBlock),
    /// All that a round body goes through on a straight way from where it stands.
    Swept(ConvexRod, Vector3<f64>),
}

/// A cylinder or a cone's stump: flat ends square to the axis, straight sides.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ConvexRod {
    /// Its axis.
    pub axis: Line,
    /// Station of one end.
    pub from: f64,
    /// Station of the other end.
    pub to: f64,
    /// Radius at `from`.
    pub from_radius: f64,
    /// Radius at `to`.
    pub to_radius: f64,
}

/// A box along three directions square to each other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ConvexBlock {
    /// Its middle.
    pub middle: Point3<f64>,
    /// From its middle to its faces: the directions of its edges, half as long as these.
    pub halves: [Vector3<f64>; 3],
}

impl ConvexRod {
    /// A cylinder about `axis` between two stations.
    pub const fn cylinder(axis: Line, from: f64, to: f64, radius: f64) -> Self {
        Self { axis, from, to, from_radius: radius, to_radius: radius }
    }

    fn furthest(&self, way: &Vector3<f64>) -> Point3<f64> {
        let along = way.dot(&self.axis.direction);
        let out = way - self.axis.direction * along;
        // Next to the axis' own direction only rounding is left of it, which need not even be square to the axis.
        let square = out.norm_squared() > ALONG * ALONG * way.norm_squared();
        let out = if square { out.normalize() } else { Vector3::zeros() };
        let end = |station: f64, radius: f64| self.axis.at(station) + out * radius;
        let (one, other) = (end(self.from, self.from_radius), end(self.to, self.to_radius));
        if (one - other).dot(way) > 0.0 { one } else { other }
    }
}

impl ConvexBlock {
    /// The box between two corners of a frame's axes.
    pub fn between(low: Point3<f64>, high: Point3<f64>) -> Self {
        let half = (high - low) / 2.0;
        let halves = [Vector3::x() * half.x, Vector3::y() * half.y, Vector3::z() * half.z];
        Self { middle: low + half, halves }
    }

    fn furthest(&self, way: &Vector3<f64>) -> Point3<f64> {
        let corner = |at: Point3<f64>, half: &Vector3<f64>| {
            if half.dot(way) < 0.0 { at - half } else { at + half }
        };
        self.halves.iter().fold(self.middle, corner)
    }
}

impl Convex {
    /// The body's point that lies furthest in a direction, which need not have length 1.
    pub fn furthest(&self, way: &Vector3<f64>) -> Point3<f64> {
        match self {
            Self::Rod(rod) => rod.furthest(way),
            Self::Block(block) => block.furthest(way),
            Self::Swept(rod, run) => {
                let here = rod.furthest(way);
                if run.dot(way) > 0.0 { here + run } else { here }
            }
        }
    }

    /// The smallest distance between two bodies, to 1e-6; 0 where they touch or overlap.
    pub fn distance(&self, other: &Self) -> f64 {
        let difference = |way: &Vector3<f64>| self.furthest(way) - other.furthest(&-way);
        let mut simplex = Simplex::new(difference(&Vector3::x()));
        let (mut nearest, mut below) = (simplex.nearest(), 0.0_f64);
        for _ in 0..STEPS {
            let distance = nearest.norm();
            if distance <= AGREED {
                return 0.0;
            }
            let point = difference(&-nearest);
            below = below.max(nearest.dot(&point) / distance);
            if distance - below <= AGREED || !simplex.add(point) {
                return distance;
            }
            let next = simplex.nearest();
            if next.norm() >= distance {
                // Rounding has the last word: no step leads closer.
                return distance;
            }
            nearest = next;
        }
        nearest.norm()
    }
}
