//! Bodies with what they are, and all their facets and edges in one list.

use super::part::{Material, ScenePart};
use super::polygon::{Corner, NO_EDGE, Polygon};
use super::solid::{Edge, Facet, Plane, Solid};
use nalgebra::Vector3;

/// A body of a scene.
#[derive(Clone, Debug)]
pub struct SceneBody {
    /// What it is.
    pub part: ScenePart,
    /// What it is made of.
    pub material: Material,
    /// Its shape, mm.
    pub solid: Solid,
    /// Whether a picture must have room for it; what need not be seen whole is cut off at the picture's edge.
    pub framed: bool,
}

/// A facet as the order of painting needs it.
#[derive(Clone, Copy, Debug)]
pub(super) struct SceneFacet {
    /// The body's place in the scene.
    pub(super) body: usize,
    /// The facet's place in the body.
    pub(super) facet: usize,
    /// Outwards; `None` for a facet without area.
    pub(super) normal: Option<Vector3<f64>>,
}

/// An edge between two facets of the scene.
#[derive(Clone, Copy, Debug)]
pub(super) struct SceneEdge {
    pub(super) facets: [u32; 2],
    pub(super) sharp: bool,
}

/// The facets and edges of all bodies.
#[derive(Debug, Default)]
pub(super) struct Facets {
    pub(super) facets: Vec<SceneFacet>,
    pub(super) edges: Vec<SceneEdge>,
}

impl Facets {
    /// Takes a body in; gives its facets that have an area, as pieces. The edges of a body that is not closed are not drawn.
    pub(super) fn take(&mut self, body: usize, solid: &Solid) -> Vec<Polygon> {
        let (first, first_edge) = (self.facets.len() as u32, self.edges.len() as u32);
        let edges = solid.edges().unwrap_or_default();
        let shifted = |edge: &Edge| SceneEdge {
            facets: [edge.facets.0 + first, edge.facets.1 + first],
            sharp: edge.sharp,
        };
        self.edges.extend(edges.iter().map(shifted));
        let mut pieces = Vec::with_capacity(solid.facets.len());
        for (number, facet) in solid.facets.iter().enumerate() {
            let plane = Plane::of(&solid.corners(facet));
            let normal = plane.map(|plane| plane.normal);
            self.facets.push(SceneFacet { body, facet: number, normal });
            let corners = || corners(solid, facet, &edges, first_edge);
            pieces.extend(plane.map(|plane| Polygon::new(first + number as u32, plane, corners())));
        }
        pieces
    }
}

/// The corners of a facet, each with the edge that it starts.
fn corners(solid: &Solid, facet: &Facet, edges: &[Edge], first_edge: u32) -> Vec<Corner> {
    let edge = |a: u32, b: u32| {
        let ends = (a.min(b), a.max(b));
        let found = edges.binary_search_by(|edge| edge.ends.cmp(&ends));
        found.map_or(NO_EDGE, |place| first_edge + place as u32)
    };
    let next = facet.corners.iter().cycle().skip(1);
    let corner =
        |(a, b): (&u32, &u32)| Some(Corner { at: *solid.points.get(*a as usize)?, edge: edge(*a, *b) });
    facet.corners.iter().zip(next).filter_map(corner).collect()
}
