//! A pipe as parts, each with one stretch of its middle line and one piece of its outline.
//!
//! A part is balls where these fit it exactly: where it is round, and does not taper in a bend. Elsewhere it is its sections
//! square to the middle line. No ball reaches over an edge, where the body ends, changes from one to the other or narrows
//! at a ridge: the sections count there.

use super::section::Section;
use super::{Oval, Piece, Pipe, Stretch};
use crate::units::Real;

/// One part of a pipe: no joint of the centreline and no knot of the outline within.
#[derive(Clone, Copy)]
pub(super) struct Part<T: nalgebra::Scalar> {
    pub(super) from: T,
    pub(super) to: T,
    pub(super) stretch: Stretch<T>,
    /// Radius at station 0, and what it gains by station: of the balls that touch a cone from inside, or of those that hold
    /// the sections where these count.
    pub(super) ball: T,
    pub(super) slope: T,
    /// Its sections where they count, and not balls.
    pub(super) section: Option<Section<T>>,
}

impl<T: Real> Part<T> {
    pub(super) fn radius(&self, station: T) -> T {
        self.ball + self.slope * station
    }

    /// The same part as balls, which are nowhere further from anything than its sections.
    pub(super) fn covered(&self) -> Self {
        Self { section: None, ..*self }
    }

    /// Its stations whose balls reach neither back over `before` nor on over `after`. On a bend a section's plane comes up to a
    /// ball, which therefore must stand `bend` times as far from it.
    fn free(&self, (before, after): (T, T), bend: f64) -> (T, T) {
        let (ball, slope) = (self.ball * T::of(bend), self.slope * T::of(bend));
        // A cone as steep as that has no ball that clears it.
        if slope.value().abs() >= 1.0 {
            return (self.to, self.from);
        }
        let (from, to) = ((before + ball) / (T::one() - slope), (after - ball) / (T::one() + slope));
        (larger(self.from, from), smaller(self.to, to))
    }

    /// Sections where balls would reach over an edge, balls between. A ball touches its cone off its own station: as far as that
    /// would leave a strip of the cone uncovered, sections and balls overlap.
    fn split(&self, edges: (T, T), bend: f64) -> [Option<Self>; 3] {
        let (from, to) = self.free(edges, bend);
        if from.value() >= to.value() {
            return [Some(self.as_sections(self.from, self.to)), None, None];
        }
        let touches = |station: T| station - self.radius(station) * self.slope;
        let first = smaller(self.to, larger(from, touches(from)));
        let last = larger(self.from, smaller(to, touches(to)));
        [
            (from.value() > self.from.value()).then(|| self.as_sections(self.from, first)),
            Some(Self { from, to, ..*self }),
            (to.value() < self.to.value()).then(|| self.as_sections(last, self.to)),
        ]
    }

    /// A round part's flat sections between two stations.
    fn as_sections(&self, from: T, to: T) -> Self {
        // Balls that touch a cone are a little smaller than its sections.
        let lean = (T::one() - self.slope * self.slope).sqrt();
        let (ball, slope) = (self.ball / lean, self.slope / lean);
        let radius = |station: T| ball + slope * station;
        let section = Some(Section::flat(Oval::round(radius(from), radius(to)), from, to));
        Self { from, to, ball, slope, section, ..*self }
    }
}

pub(super) fn larger<T: Real>(a: T, b: T) -> T {
    if b.value() > a.value() { b } else { a }
}

pub(super) fn smaller<T: Real>(a: T, b: T) -> T {
    if b.value() < a.value() { b } else { a }
}

impl<T: Real> Pipe<'_, T> {
    /// The parts in order, before any edge is looked at.
    fn parts(&self) -> Vec<Part<T>> {
        let pieces = self.outline.pieces();
        let all = self.line.stretches().iter();
        all.flat_map(|stretch| pieces.iter().filter_map(|piece| self.part(stretch, piece))).collect()
    }

    /// The parts in order, with sections where a ball would reach over an edge.
    pub(super) fn flat_parts(&self) -> Vec<Part<T>> {
        let parts = self.parts();
        let (bend, edges) = (self.bend(), self.edges(&parts));
        let split = |part: &Part<T>| {
            if part.section.is_some() {
                return [Some(*part), None, None];
            }
            let behind = edges.iter().copied().filter(|edge| edge.value() <= part.from.value());
            let ahead = edges.iter().copied().filter(|edge| edge.value() >= part.to.value());
            part.split((behind.fold(self.from, larger), ahead.fold(self.to, smaller)), bend)
        };
        parts.iter().flat_map(split).flatten().collect()
    }

    /// Stations that no ball may reach over, the pipe's ends left out: where sections start and end, and the outline's ridges.
    fn edges(&self, parts: &[Part<T>]) -> Vec<T> {
        let sections = parts.iter().filter(|part| part.section.is_some());
        sections.flat_map(|part| [part.from, part.to]).chain(self.outline.ridges()).collect()
    }

    /// How much further along the sharpest bend a ball as wide as the pipe must go to come off a section's plane.
    fn bend(&self) -> f64 {
        let curvature = self.line.stretches().iter().map(Stretch::curvature).fold(0.0, f64::max);
        let share = (curvature * self.outline.widest()).min(1.0);
        if share > 0.0 { share.asin() / share } else { 1.0 }
    }

    fn part(&self, stretch: &Stretch<T>, piece: &Piece<T>) -> Option<Part<T>> {
        let from = larger(self.from, larger(stretch.from, piece.from));
        let to = smaller(self.to, smaller(stretch.to, piece.to));
        if from.value() >= to.value() {
            return None;
        }
        let (ball, slope) = (piece.at_zero, piece.slope);
        let part = Part { from, to, stretch: *stretch, ball, slope, section: Section::of(piece) };
        if part.section.is_some() {
            return Some(part);
        }
        // Balls that touch a cone are a little smaller than its sections.
        let lean = (T::one() + slope * slope).sqrt();
        let round = Part { ball: ball / lean, slope: slope / lean, ..part };
        let tapers_in_bend = slope.value() != 0.0 && stretch.radius.is_some();
        Some(if tapers_in_bend { round.as_sections(from, to) } else { round })
    }
}
