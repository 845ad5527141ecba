//! A piece of a facet, and how a plane cuts it.

use super::solid::Plane;
use nalgebra::Point3;

/// A point this near to a plane, mm, lies on it.
pub(super) const ON: f64 = 1e-6;

/// An edge that a facet does not have: where a plane has cut it.
pub(super) const NO_EDGE: u32 = u32::MAX;

/// A corner of a piece, and the edge that leads from it to the next.
#[derive(Clone, Copy, Debug)]
pub(super) struct Corner {
    pub(super) at: Point3<f64>,
    pub(super) edge: u32,
}

/// A convex piece of a facet.
#[derive(Clone, Debug)]
pub(super) struct Polygon {
    /// The facet, by its place in the scene.
    pub(super) facet: u32,
    pub(super) plane: Plane,
    pub(super) corners: Vec<Corner>,
    /// A ball that holds it.
    middle: Point3<f64>,
    radius: f64,
}

/// How a piece lies to a plane.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Lies {
    On,
    Front,
    Back,
    Across,
}

impl Polygon {
    pub(super) fn new(facet: u32, plane: Plane, corners: Vec<Corner>) -> Self {
        let count = corners.len().max(1) as f64;
        let sum = corners.iter().fold(Point3::origin(), |sum, corner| sum + corner.at.coords);
        let middle = sum / count;
        let radius = corners.iter().map(|corner| (corner.at - middle).norm()).fold(0.0, f64::max);
        Self { facet, plane, corners, middle, radius }
    }

    pub(super) fn lies(&self, plane: &Plane) -> Lies {
        let height = plane.height(&self.middle);
        if height.abs() > self.radius + ON {
            return if height > 0.0 { Lies::Front } else { Lies::Back };
        }
        let (mut front, mut back) = (false, false);
        for corner in &self.corners {
            let height = plane.height(&corner.at);
            front |= height > ON;
            back |= height < -ON;
        }
        match (front, back) {
            (false, false) => Lies::On,
            (true, false) => Lies::Front,
            (false, true) => Lies::Back,
            (true, true) => Lies::Across,
        }
    }

    /// The parts before and behind a plane that cuts it.
    pub(super) fn split(&self, plane: &Plane) -> [Self; 2] {
        let (mut front, mut back) = (Vec::new(), Vec::new());
        let next = self.corners.iter().cycle().skip(1);
        for (here, there) in self.corners.iter().zip(next) {
            let (a, b) = (plane.height(&here.at), plane.height(&there.at));
            let without = Corner { edge: NO_EDGE, ..*here };
            if a >= -ON {
                front.push(if a <= ON && b < -ON { without } else { *here });
            }
            if a <= ON {
                back.push(if a >= -ON && b > ON { without } else { *here });
            }
            if (a > ON && b < -ON) || (a < -ON && b > ON) {
                let at = here.at + (there.at - here.at) * (a / (a - b));
                let edges = if a > 0.0 { [NO_EDGE, here.edge] } else { [here.edge, NO_EDGE] };
                front.push(Corner { at, edge: edges[0] });
                back.push(Corner { at, edge: edges[1] });
            }
        }
        [front, back].map(|corners| Self::new(self.facet, self.plane, corners))
    }
}
