//! Bodies in space, ready to be painted from any side.

use super::body::{Facets, SceneBody};
use super::painted::{PaintedFacet, painted};
use super::solid::Plane;
use super::tree::Tree;
use super::turn::Turn;
use crate::drawing::Point;

/// Bodies, and the order in which their facets are painted. Made once; then painted at any turn.
#[derive(Debug)]
pub struct Scene {
    /// What it shows, with its figures, for those who cannot see it.
    pub text: String,
    pub(super) bodies: Vec<SceneBody>,
    facets: Facets,
    tree: Tree,
}

impl Scene {
    /// The scene of these bodies. They may touch and run into each other.
    pub fn new(text: String, bodies: Vec<SceneBody>) -> Self {
        let mut facets = Facets::default();
        let (mut pieces, mut seams) = (Vec::new(), Vec::<Plane>::new());
        for (place, body) in bodies.iter().enumerate() {
            pieces.extend(facets.take(place, &body.solid));
            seams.extend(&body.solid.seams);
        }
        let tree = Tree::new(pieces, &seams);
        Self { text, bodies, facets, tree }
    }

    /// Its bodies, in the order in which they were given.
    pub fn bodies(&self) -> &[SceneBody] {
        &self.bodies
    }

    /// How many pieces its facets have become where they interlock.
    pub fn pieces(&self) -> usize {
        self.tree.len()
    }

    /// The facets that face the viewer, those that are further away first: painted in that order, each hides what is behind it.
    pub fn painted(&self, turn: Turn) -> Vec<PaintedFacet> {
        painted(&self.tree, &self.facets, turn.view())
    }

    /// The corners of the rectangle, mm on the sheet, that holds all bodies a picture must have room for: upper left and lower right.
    pub fn bounds(&self, turn: Turn) -> [Point; 2] {
        let view = turn.view();
        let framed = self.bodies.iter().filter(|body| body.framed);
        let points = framed.flat_map(|body| &body.solid.points).map(|point| view.point(point));
        let grown = |bounds: Option<[Point; 2]>, p: Point| match bounds {
            None => Some([p, p]),
            Some([a, b]) => {
                Some([Point::new(a.x.min(p.x), a.y.min(p.y)), Point::new(b.x.max(p.x), b.y.max(p.y))])
            }
        };
        points.fold(None, grown).unwrap_or([Point::new(0.0, 0.0); 2])
    }
}
