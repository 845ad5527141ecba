//! An oval section of a pipe, as a solid sees it.

use super::circle::valley;
use super::{Frame, Oval, Piece, Solid};
use crate::quantity::Real;
use nalgebra::Point3;
use std::f64::consts::FRAC_PI_2;

/// The elliptical sections of one part of a pipe.
#[derive(Clone, Copy)]
pub(super) struct Section<T> {
    oval: Oval<T>,
    from: T,
    to: T,
}

impl<T: Real> Section<T> {
    /// `None` where the piece is round.
    pub(super) fn of(piece: &Piece<T>) -> Option<Self> {
        piece.oval.map(|oval| Self { oval, from: piece.from, to: piece.to })
    }

    /// How fast a point of the surface moves with the station, at most: along the line, further out in a bend, and with the
    /// change of section.
    pub(super) fn pace(&self, curvature: f64) -> f64 {
        let change = self.oval.steepest(self.from, self.to);
        1.0 + curvature * self.oval.widest() + change
    }

    /// The point of the section at `station` that comes nearest to a solid. `marked` is the line's place there. For a convex
    /// solid there is one such point, within a quarter turn of the one that lies furthest towards it.
    pub(super) fn nearest(&self, marked: &Frame<T>, solid: &impl Solid<T>, station: T) -> Point3<T> {
        let ((a, b), turn) = self.oval.halves(station, self.from, self.to);
        let (sin, cos) = turn.sin_cos();
        let first = (marked.normal * cos + marked.side * sin) * a;
        let second = (marked.side * cos - marked.normal * sin) * b;
        let point = |angle: f64| {
            let (sin, cos) = angle.sin_cos();
            marked.point + first * T::of(cos) + second * T::of(sin)
        };
        let towards = -solid.near(&marked.point).away;
        let start = towards.dot(&second).value().atan2(towards.dot(&first).value());
        let distance = |angle: f64| solid.near(&point(angle)).distance.value();
        point(valley(start - FRAC_PI_2, start + FRAC_PI_2, distance))
    }
}
