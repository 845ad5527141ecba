//! Parts as they are seen: filled, and outlined.

use super::canvas::Canvas;
use super::frame_part::FramePart;
use super::hull::hull;
use super::material::Material;
use super::sheet::{Pen, Point, Shape};
use std::f64::consts::TAU;

/// Corners of a disc at the end of a strap: of one 24 mm wide a chord lies 0.03 mm off.
const CORNERS: u32 = 48;

/// A part that is drawn: whose its marks are, and what it is made of.
#[derive(Clone, Copy, Debug)]
pub(super) struct Look<'a> {
    /// What is selected where it is tapped.
    pub(super) part: FramePart,
    /// What fills it.
    pub(super) material: Material,
    /// The figure that it shows.
    pub(super) topic: &'a str,
}

impl<'a> Look<'a> {
    pub(super) const fn new(part: FramePart, material: Material, topic: &'a str) -> Self {
        Self { part, material, topic }
    }
}

impl Canvas {
    /// A closed outline, filled.
    pub(super) fn solid(&mut self, look: Look<'_>, points: Vec<Point>) {
        self.filled(look, Shape::Path { points: points.clone(), closed: true });
        self.outline(look, Shape::Path { points, closed: true });
    }

    /// A filling without an outline.
    pub(super) fn filled(&mut self, look: Look<'_>, shape: Shape) {
        self.put_part(Pen::Fill(look.material), Some(look.part), look.topic, shape);
    }

    /// A visible edge of a part.
    pub(super) fn outline(&mut self, look: Look<'_>, shape: Shape) {
        self.put_part(Pen::Visible, Some(look.part), look.topic, shape);
    }

    /// A disc, filled.
    pub(super) fn disc(&mut self, look: Look<'_>, at: Point, radius: f64) {
        self.filled(look, Shape::Circle { at, radius });
        self.outline(look, Shape::Circle { at, radius });
    }

    /// What lies between two circles about `at`, filled; without an inner one, a disc.
    pub(super) fn band(&mut self, look: Look<'_>, at: Point, outer: f64, inner: f64) {
        if inner <= 0.0 {
            return self.disc(look, at, outer);
        }
        self.filled(look, Shape::Ring { at, radius: outer, hole: inner });
        self.outline(look, Shape::Ring { at, radius: outer, hole: inner });
    }

    /// The outline round two discs and all between them, filled.
    pub(super) fn link(&mut self, look: Look<'_>, ends: [(Point, f64); 2]) {
        let corners = ends.into_iter().flat_map(|(at, radius)| circle(at, radius));
        self.solid(look, hull(corners.collect()));
    }
}

fn circle(at: Point, radius: f64) -> impl Iterator<Item = Point> {
    (0..CORNERS).map(move |i| {
        let (sin, cos) = (TAU * f64::from(i) / f64::from(CORNERS)).sin_cos();
        at.plus(radius * cos, radius * sin)
    })
}
