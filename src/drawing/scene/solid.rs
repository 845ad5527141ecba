//! A closed body of flat facets.

use nalgebra::{Point3, Vector3};

/// Facets whose doubled area is below this, mm², have no normal and are not painted.
const NO_AREA: f64 = 1e-9;

/// A plane: the points with `normal · p = at`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plane {
    /// Square to it, length 1.
    pub normal: Vector3<f64>,
    /// Its distance from the origin along `normal`, mm.
    pub at: f64,
}

impl Plane {
    /// The plane through `point`, square to `normal` of any length; `None` where that has no direction.
    pub fn through(point: &Point3<f64>, normal: &Vector3<f64>) -> Option<Self> {
        let length = normal.norm();
        let normal = normal / length;
        (length > NO_AREA && length.is_finite()).then(|| Self { normal, at: normal.dot(&point.coords) })
    }

    /// The plane of a flat ring of points, its normal by the right hand; `None` where the ring has no area.
    pub fn of(ring: &[Point3<f64>]) -> Option<Self> {
        let first = ring.first()?;
        let next = ring.iter().cycle().skip(1);
        let area: Vector3<f64> = ring.iter().zip(next).map(|(a, b)| (a - first).cross(&(b - first))).sum();
        let middle = ring.iter().fold(Vector3::zeros(), |sum, point| sum + point.coords) / ring.len() as f64;
        Self::through(&Point3::from(middle), &area)
    }

    /// How far a point stands off the plane on the side of its normal, mm.
    pub fn height(&self, point: &Point3<f64>) -> f64 {
        self.normal.dot(&point.coords) - self.at
    }
}

/// One flat convex facet.
#[derive(Clone, Debug, PartialEq)]
pub struct Facet {
    /// Its corners by their places in the solid's points, counterclockwise as seen from outside.
    pub corners: Vec<u32>,
    /// The skin that it belongs to: facets of one skin approximate one smooth surface.
    pub skin: u32,
}

/// An edge between two facets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Edge {
    /// Its ends, the lower place first.
    pub ends: (u32, u32),
    /// The two facets that meet in it.
    pub facets: (u32, u32),
    /// Whether the body has an edge there; if not, a smooth surface goes on across it.
    pub sharp: bool,
}

/// A closed body of flat convex facets.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Solid {
    /// Its points, mm.
    pub points: Vec<Point3<f64>>,
    /// Its facets.
    pub facets: Vec<Facet>,
    /// Planes that cut it between facets: where it can be taken apart without cutting a facet of its own.
    pub seams: Vec<Plane>,
}

impl Solid {
    /// The corners of a facet, mm.
    pub fn corners(&self, facet: &Facet) -> Vec<Point3<f64>> {
        facet.corners.iter().filter_map(|corner| self.points.get(*corner as usize)).copied().collect()
    }

    /// Every edge once, in order of its ends; `None` where the body is not closed: each edge must have one facet on either side.
    pub fn edges(&self) -> Option<Vec<Edge>> {
        let mut halves = self.half_edges();
        halves.sort_unstable();
        let pairs = halves.chunks(2).map(|pair| match pair {
            [[low, high, 0, a], [other_low, other_high, 1, b]] if (low, high) == (other_low, other_high) => {
                let sharp = self.skin(*a) != self.skin(*b);
                Some(Edge { ends: (*low, *high), facets: (*a, *b), sharp })
            }
            _ => None,
        });
        pairs.collect()
    }

    /// Each facet's edges: the lower end, the higher one, 1 where it runs downwards, and the facet.
    fn half_edges(&self) -> Vec<[u32; 4]> {
        let of = |(number, facet): (u32, &Facet)| {
            let next = facet.corners.iter().cycle().skip(1);
            let half = |(a, b): (&u32, &u32)| [*a.min(b), *a.max(b), u32::from(a > b), number];
            facet.corners.iter().zip(next).map(half).collect::<Vec<_>>()
        };
        (0..).zip(&self.facets).flat_map(of).collect()
    }

    fn skin(&self, facet: u32) -> u32 {
        self.facets.get(facet as usize).map_or(u32::MAX, |facet| facet.skin)
    }

    /// What it holds, mm³, by the divergence theorem.
    pub fn volume(&self) -> f64 {
        let six = |facet: &Facet| {
            let corners = self.corners(facet);
            let Some(first) = corners.first() else { return 0.0 };
            let fan = corners.iter().zip(corners.iter().skip(1));
            fan.map(|(a, b)| first.coords.dot(&a.coords.cross(&b.coords))).sum::<f64>()
        };
        self.facets.iter().map(six).sum::<f64>() / 6.0
    }
}
