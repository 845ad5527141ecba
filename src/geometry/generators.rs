//! The generators of a body of revolution, and where a cylinder crosses them.

use super::chord::{Chord, TOUCH};
use super::circle::Node;
use super::{Cylinder, Line, Outline, Piece};
use crate::units::Real;
use nalgebra::{Point3, Vector2, Vector3};

/// Which crossing counts, of those on one generator.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Keep {
    /// The one at the largest station: the cylinder takes away what lies before it.
    Largest,
    /// The one at the smallest station.
    Smallest,
}

/// A body of revolution with directions round it: `normal(φ) = cos φ · first + sin φ · second`.
#[derive(Clone, Copy, Debug)]
pub struct Generators<'a, T: nalgebra::Scalar = f64> {
    /// The body's axis; stations count along it.
    pub axis: Line<T>,
    /// Where φ = 0 points; square to the axis, length 1.
    pub first: Vector3<T>,
    /// Where φ = a quarter turn points.
    pub second: Vector3<T>,
    /// Radius by station.
    pub outline: &'a Outline<T>,
}

impl<T: Real> Generators<'_, T> {
    /// The direction round the axis at a node.
    #[inline(always)]
    pub fn normal(&self, node: Node) -> Vector3<T> {
        self.first * T::of(node.cos) + self.second * T::of(node.sin)
    }

    /// The point of the surface on that generator at `station`.
    pub fn point(&self, node: Node, station: T) -> Point3<T> {
        self.axis.at(station) + self.normal(node) * self.outline.radius_towards(node, station)
    }
}

/// A body of revolution as it is seen along a cylinder's axis: a circle, and generators that are straight lines.
pub(super) struct Seen<T: nalgebra::Scalar> {
    along: Vector2<T>,
    first: Vector2<T>,
    second: Vector2<T>,
    start: Vector2<T>,
    radius: T,
    /// The pieces that come near the circle, the one to keep from first.
    pieces: Vec<Piece<T>>,
    keep: Keep,
}

impl<T: Real> Seen<T> {
    pub(super) fn new(body: &Generators<'_, T>, cylinder: &Cylinder<T>, keep: Keep) -> Self {
        let view = cylinder.along_view();
        let mut seen = Self {
            along: view.direction(&body.axis.direction),
            first: view.direction(&body.first),
            second: view.direction(&body.second),
            start: view.point(&body.axis.point),
            radius: cylinder.radius,
            pieces: Vec::new(),
            keep,
        };
        let near = body.outline.pieces().iter().filter(|piece| seen.comes_near(piece)).copied();
        seen.pieces = near.collect();
        if keep == Keep::Largest {
            seen.pieces.reverse();
        }
        seen
    }

    /// Whether any point of a piece's surface can lie on the circle: its axis, widened by its radius, reaches it.
    fn comes_near(&self, piece: &Piece<T>) -> bool {
        let Some(axis) = Chord::new(self.start, self.along) else { return true };
        let foot = axis.foot.value().max(piece.from.value()).min(piece.to.value());
        let ends = [piece.from, piece.to].into_iter().filter(|end| end.value().is_finite());
        let widest = ends.map(|end| piece.radius(end).value()).fold(piece.at_zero.value(), f64::max);
        let nearest = (self.start + self.along * T::of(foot)).norm().value();
        nearest <= self.radius.value() + widest + TOUCH
    }

    #[inline(always)]
    fn direction(&self, node: Node) -> Vector2<T> {
        self.first * T::of(node.cos) + self.second * T::of(node.sin)
    }

    /// Where a chord crosses the circle within its piece, the crossing to keep first.
    #[inline(always)]
    fn kept(&self, piece: &Piece<T>, chord: &Chord<T>) -> Option<T> {
        let half = chord.half(self.radius)?;
        let (near, far) = match self.keep {
            Keep::Largest => (chord.foot + half, chord.foot - half),
            Keep::Smallest => (chord.foot - half, chord.foot + half),
        };
        let within = |s: T| piece.from.value() - TOUCH <= s.value() && s.value() <= piece.to.value() + TOUCH;
        if within(near) { Some(near) } else { Some(far).filter(|far| within(*far)) }
    }

    /// Station where the generator at `node` is cut, or `None` where the cylinder passes it by.
    pub(super) fn crossing(&self, node: Node) -> Option<T> {
        let normal = self.direction(node);
        self.pieces.iter().find_map(|piece| {
            let (at_zero, slope) = piece.generator(node);
            let from = self.start + normal * at_zero;
            self.kept(piece, &Chord::new(from, self.along + normal * slope)?)
        })
    }

    /// [`Seen::crossing`], and by how much the generator clears the cylinder; negative where it runs into it.
    pub(super) fn look(&self, node: Node) -> (Option<T>, f64) {
        let normal = self.direction(node);
        let (mut crossing, mut nearest) = (None, f64::INFINITY);
        for piece in &self.pieces {
            let (at_zero, slope) = piece.generator(node);
            let from = self.start + normal * at_zero;
            let along = self.along + normal * slope;
            let distance = match Chord::new(from, along) {
                Some(chord) => {
                    crossing = crossing.or_else(|| self.kept(piece, &chord));
                    chord.nearest_between(piece.from.value(), piece.to.value())
                }
                None => from.norm().value(),
            };
            nearest = nearest.min(distance);
        }
        (crossing, nearest - self.radius.value())
    }

    /// By how much the generator at `node` clears the cylinder; negative where it runs into it.
    pub(super) fn clearance(&self, node: Node) -> f64 {
        self.look(node).1
    }
}
