//! The outline of a body about an axis: its radius along it, in straight pieces, round or oval.

use super::circle::Node;
use super::oval::{Halves, Oval, OvalStretch};
use crate::units::Real;

/// One straight piece: a cylinder or a cone between two stations. Its radius at station `s` is
/// `at_zero + slope · s`. The first piece of an outline starts at −∞, the last ends at +∞.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece<T = f64> {
    /// Where it starts.
    pub from: T,
    /// Where it ends.
    pub to: T,
    /// Radius of the piece, carried on to station 0.
    pub at_zero: T,
    /// Radius gained per length of axis.
    pub slope: T,
    /// Its section where that is not round; the radius is then the larger half of it.
    pub oval: Option<Oval<T>>,
}

impl<T: Real> Piece<T> {
    /// Radius at `station`.
    pub fn radius(&self, station: T) -> T {
        self.at_zero + self.slope * station
    }

    /// The generator in a direction round the axis: its radius carried on to station 0, and what it gains by length.
    #[inline(always)]
    pub(super) fn generator(&self, node: Node) -> (T, T) {
        match &self.oval {
            None => (self.at_zero, self.slope),
            Some(oval) => oval.generator(node, self.from, self.to),
        }
    }

    /// How far the piece reaches in a direction square to the axis, given by cosine and sine, as a radius carried on to station 0
    /// and a slope.
    fn reach(&self, way: (T, T)) -> (T, T) {
        match &self.oval {
            None => (self.at_zero, self.slope),
            Some(oval) => oval.reach(way, self.from, self.to),
        }
    }

    /// The part of the piece between two stations.
    fn between(&self, from: T, to: T) -> Self {
        Self { from, to, ..*self }
    }
}

/// A direction at length 1; φ = 0 where there is none.
fn unit<T: Real>((x, y): (T, T)) -> (T, T) {
    let square = x * x + y * y;
    let length = if square.value() > 1e-18 { square.sqrt() } else { T::zero() };
    if length.value() > 0.0 { (x / length, y / length) } else { (T::one(), T::zero()) }
}

/// A radius by station, constant before the first knot and after the last.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline<T = f64> {
    pieces: Vec<Piece<T>>,
}

impl<T: Real> Outline<T> {
    /// The outline through `knots` of station and radius, in strictly rising order of station.
    /// Pieces of the same radius at both ends count as one cylinder.
    pub fn through(knots: &[(T, T)]) -> Self {
        let mut pieces: Vec<Piece<T>> = Vec::with_capacity(knots.len() + 1);
        let (first, last) = (knots.first(), knots.last());
        let level = |from, to, at_zero| Piece { from, to, at_zero, slope: T::zero(), oval: None };
        pieces.extend(first.map(|(s, r)| level(T::of(f64::NEG_INFINITY), *s, *r)));
        for (a, b) in knots.iter().zip(knots.iter().skip(1)) {
            let slope = (b.1 - a.1) / (b.0 - a.0);
            pieces.push(Piece { from: a.0, to: b.0, at_zero: a.1 - slope * a.0, slope, oval: None });
        }
        pieces.extend(last.map(|(s, r)| level(*s, T::of(f64::INFINITY), *r)));
        Self { pieces }
    }

    /// The same radius everywhere.
    pub fn level(radius: T) -> Self {
        let everywhere = Piece {
            from: T::of(f64::NEG_INFINITY),
            to: T::of(f64::INFINITY),
            at_zero: radius,
            slope: T::zero(),
            oval: None,
        };
        Self { pieces: vec![everywhere] }
    }

    /// The surface `depth` inside this one, measured square to the axis. Inside an oval it is the oval whose halves are both
    /// smaller by that.
    pub fn inset(&self, depth: T) -> Self {
        let inner = |piece: &Piece<T>| Piece {
            at_zero: piece.at_zero - depth,
            oval: piece.oval.map(|oval| oval.inset(depth, depth)),
            ..*piece
        };
        Self { pieces: self.pieces.iter().map(inner).collect() }
    }

    /// The same body with stretches pressed oval, which lie in rising order and do not overlap.
    pub fn pressed(mut self, stretches: &[OvalStretch<T>]) -> Self {
        for stretch in stretches {
            let (before, after) = (stretch.from - stretch.blend, stretch.to + stretch.blend);
            let radii = (self.radius(before), self.radius(after));
            let mut pieces = Vec::with_capacity(self.pieces.len() + 3);
            for piece in &self.pieces {
                if piece.from.value() < before.value() {
                    let to = if piece.to.value() < before.value() { piece.to } else { before };
                    pieces.push(piece.between(piece.from, to));
                }
            }
            pieces.extend(stretch.pieces(radii));
            for piece in &self.pieces {
                if piece.to.value() > after.value() {
                    let from = if piece.from.value() > after.value() { piece.from } else { after };
                    pieces.push(piece.between(from, piece.to));
                }
            }
            self.pieces = pieces;
        }
        self
    }

    /// The same body, the directions of its ovals counted the way `way`, 1 or −1, and from `turn` on.
    pub fn counted(&self, way: T, turn: T) -> Self {
        let piece =
            |piece: &Piece<T>| Piece { oval: piece.oval.map(|oval| oval.counted(way, turn)), ..*piece };
        Self { pieces: self.pieces.iter().map(piece).collect() }
    }

    /// Whether any of it is oval.
    pub fn is_oval(&self) -> bool {
        self.pieces.iter().any(|piece| piece.oval.is_some())
    }

    /// Radius at `station` in a direction round the axis.
    pub fn radius_towards(&self, node: Node, station: T) -> T {
        let Some(piece) = self.piece(station.value()) else { return T::zero() };
        let (at_zero, slope) = piece.generator(node);
        at_zero + slope * station
    }

    /// The round body that reaches as far as this one in a direction, and against it, at every station. The direction is given by its
    /// components along φ = 0 and a quarter turn on, of any length; with none it is φ = 0.
    pub fn seen(&self, way: (T, T)) -> Self {
        let way = unit(way);
        self.as_round(|piece| piece.reach(way))
    }

    /// The same where the direction changes along a bent body: straight between what each piece reaches at its two ends.
    pub fn seen_along(&self, way: impl Fn(T) -> (T, T)) -> Self {
        let reach = |piece: &Piece<T>, station: T| {
            let (at_zero, slope) = piece.reach(unit(way(station)));
            at_zero + slope * station
        };
        self.as_round(|piece| {
            if piece.oval.is_none() {
                return (piece.at_zero, piece.slope);
            }
            let (first, length) = (reach(piece, piece.from), piece.to - piece.from);
            // An oval may be level at one place alone.
            let level = length.value() <= 0.0;
            let slope = if level { T::zero() } else { (reach(piece, piece.to) - first) / length };
            (first - slope * piece.from, slope)
        })
    }

    /// The round body with each piece's radius carried on to station 0, and slope.
    fn as_round(&self, radius: impl Fn(&Piece<T>) -> (T, T)) -> Self {
        let piece = |piece: &Piece<T>| {
            let (at_zero, slope) = radius(piece);
            Piece { at_zero, slope, oval: None, ..*piece }
        };
        Self { pieces: self.pieces.iter().map(piece).collect() }
    }

    /// The two halves of the section at `station`, and the direction of the first; equal halves where it is round.
    pub fn section(&self, station: T) -> (Halves<T>, T) {
        let Some(piece) = self.piece(station.value()) else { return ((T::zero(), T::zero()), T::zero()) };
        let round = ((piece.radius(station), piece.radius(station)), T::zero());
        piece.oval.map_or(round, |oval| oval.halves(station, piece.from, piece.to))
    }

    /// The piece that holds a station.
    pub fn piece(&self, station: f64) -> Option<&Piece<T>> {
        self.pieces.iter().find(|piece| station <= piece.to.value()).or(self.pieces.last())
    }

    /// The outline whose radius is this one's less `depths`' at every station.
    pub fn less(&self, depths: &Self) -> Self {
        let (mut pieces, mut others) = (Vec::new(), depths.pieces.iter().peekable());
        for piece in &self.pieces {
            while let Some(other) = others.peek() {
                let from = if other.from.value() > piece.from.value() { other.from } else { piece.from };
                let ends_first = other.to.value() <= piece.to.value();
                let to = if ends_first { other.to } else { piece.to };
                if from.value() < to.value() {
                    let (at_zero, slope) = (piece.at_zero - other.at_zero, piece.slope - other.slope);
                    let depth = |station: T| {
                        other.radius(if station.value().is_finite() { station } else { T::zero() })
                    };
                    let part = piece.oval.map(|oval| oval.part((piece.from, piece.to), (from, to)));
                    let oval = part.map(|oval| oval.inset(depth(from), depth(to)));
                    pieces.push(Piece { from, to, at_zero, slope, oval });
                }
                if !ends_first {
                    break;
                }
                others.next();
            }
        }
        Self { pieces }
    }

    /// The pieces, in order of station.
    pub fn pieces(&self) -> &[Piece<T>] {
        &self.pieces
    }

    /// Radius at `station`.
    pub fn radius(&self, station: T) -> T {
        self.piece(station.value()).map_or(T::zero(), |piece| piece.radius(station))
    }

    /// The largest radius anywhere.
    pub fn widest(&self) -> f64 {
        let ends = [self.pieces.first(), self.pieces.last()];
        let round = ends.into_iter().flatten().map(|piece| piece.at_zero.value()).fold(0.0, f64::max);
        self.pieces.iter().filter_map(|piece| piece.oval).map(|oval| oval.widest()).fold(round, f64::max)
    }

    /// The largest difference of two halves of a section.
    pub fn unround(&self) -> f64 {
        self.pieces.iter().filter_map(|piece| piece.oval).map(|oval| oval.unround()).fold(0.0, f64::max)
    }

    /// Stations at which the outline starts to narrow faster, or to widen less: a round body has a sharp edge there.
    pub fn ridges(&self) -> impl Iterator<Item = T> + '_ {
        let pairs = self.pieces.iter().zip(self.pieces.iter().skip(1));
        pairs
            .filter(|(before, after)| after.slope.value() < before.slope.value())
            .map(|(_, after)| after.from)
    }

    /// Stations where the outline bends.
    pub fn knots(&self) -> impl Iterator<Item = f64> + '_ {
        self.pieces.iter().skip(1).map(|piece| piece.from.value())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_taper_runs_straight_between_its_knots_and_level_outside() {
        let outline = Outline::<f64>::through(&[(100.0, 11.0), (300.0, 8.0)]);
        for (station, radius) in
            [(-50.0_f64, 11.0_f64), (100.0, 11.0), (200.0, 9.5), (300.0, 8.0), (900.0, 8.0)]
        {
            assert!((outline.radius(station) - radius).abs() < 1e-12, "{station}");
        }
        assert_eq!(outline.knots().collect::<Vec<_>>(), [100.0, 300.0]);
        assert_eq!(outline.ridges().collect::<Vec<_>>(), [100.0]);
        let widening = Outline::<f64>::through(&[(100.0, 8.0), (300.0, 11.0)]);
        assert_eq!(widening.ridges().collect::<Vec<_>>(), [300.0]);
        assert_eq!(outline.widest(), 11.0);
        assert!((outline.inset(0.8).radius(200.0) - 8.7).abs() < 1e-12);
    }

    #[test]
    fn one_outline_less_another_has_the_knots_of_both() {
        let outer = Outline::<f64>::through(&[(100.0, 11.0), (300.0, 8.0)]);
        let depths = Outline::<f64>::through(&[(50.0, 1.0), (150.0, 0.5), (300.0, 0.9)]);
        let inner = outer.less(&depths);
        for station in [-50.0, 50.0, 75.0, 100.0, 149.0, 151.0, 300.0, 900.0] {
            let expected = outer.radius(station) - depths.radius(station);
            assert!((inner.radius(station) - expected).abs() < 1e-12, "{station}");
        }
        assert_eq!(inner.knots().collect::<Vec<_>>(), [50.0, 100.0, 150.0, 300.0]);
        assert_eq!(outer.less(&Outline::level(0.8)), outer.inset(0.8));
    }

    #[test]
    fn a_plain_tube_has_one_piece_and_no_knot() {
        let outline = Outline::level(6.0);
        assert_eq!(outline.pieces().len(), 1);
        assert_eq!(outline.knots().count(), 0);
        assert_eq!(outline.radius(1e9), 6.0);
    }
}
