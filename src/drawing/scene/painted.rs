//! From a tree to facets on a sheet: what faces the viewer, in which tone, with which lines.

use super::body::{Facets, SceneEdge};
use super::polygon::Polygon;
use super::tone::tone;
use super::tree::Tree;
use super::turn::SceneView;
use crate::drawing::Point;
use crate::units::ranked;

/// A facet whose normal is square to the view to within this is seen edge-on and is not painted.
const EDGE_ON: f64 = 1e-9;

/// A piece of a facet as it is painted.
#[derive(Clone, Debug, PartialEq)]
pub struct PaintedFacet {
    /// The body's place in the scene.
    pub body: usize,
    /// The facet's place in the body.
    pub facet: usize,
    /// How light it is, from 0, the darkest.
    pub tone: u8,
    /// Its corners on the sheet, mm to the right and down.
    pub corners: Vec<Point>,
    /// Those of its sides that are edges of the body or of its silhouette.
    pub lines: Vec<[Point; 2]>,
}

pub(super) fn painted(tree: &Tree, facets: &Facets, view: SceneView) -> Vec<PaintedFacet> {
    let painter = Painter::new(facets, view);
    // Within a set the order is free: what has one tone comes together.
    let set = |pieces: &[Polygon]| {
        let found: Vec<PaintedFacet> = pieces.iter().filter_map(|piece| painter.paint(piece)).collect();
        ranked(found, |a, b| (a.body, a.tone) <= (b.body, b.tone))
    };
    tree.walk(&view.towards).into_iter().flat_map(set).collect()
}

struct Painter<'a> {
    facets: &'a Facets,
    view: SceneView,
    /// Whether each facet faces the viewer.
    faces: Vec<bool>,
}

impl<'a> Painter<'a> {
    fn new(facets: &'a Facets, view: SceneView) -> Self {
        let faces = facets.facets.iter().map(|facet| {
            let normal = facet.normal.unwrap_or_default();
            normal.dot(&view.towards) > EDGE_ON
        });
        Self { facets, view, faces: faces.collect() }
    }

    fn faces(&self, facet: u32) -> bool {
        self.faces.get(facet as usize).copied().unwrap_or_default()
    }

    fn paint(&self, piece: &Polygon) -> Option<PaintedFacet> {
        let facet = self.facets.facets.get(piece.facet as usize).filter(|_| self.faces(piece.facet))?;
        let corners: Vec<Point> = piece.corners.iter().map(|corner| self.view.point(&corner.at)).collect();
        let sides = corners.iter().zip(corners.iter().cycle().skip(1)).zip(&piece.corners);
        let lines = sides.filter(|(_, corner)| self.is_line(corner.edge)).map(|((a, b), _)| [*a, *b]);
        let lines = lines.collect();
        let tone = tone(&piece.plane.normal, &self.view);
        Some(PaintedFacet { body: facet.body, facet: facet.facet, tone, corners, lines })
    }

    /// Whether an edge is drawn: where the body has one, and where it ends for the viewer.
    fn is_line(&self, edge: u32) -> bool {
        let Some(SceneEdge { facets: [a, b], sharp }) = self.facets.edges.get(edge as usize) else {
            return false;
        };
        *sharp || self.faces(*a) != self.faces(*b)
    }
}
