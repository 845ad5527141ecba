//! The outline of a body of revolution: its radius along its axis, in straight pieces.

use crate::quantity::Real;

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
}

impl<T: Real> Piece<T> {
    /// Radius at `station`.
    pub fn radius(&self, station: T) -> T {
        self.at_zero + self.slope * station
    }
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
        let level = |from, to, at_zero| Piece { from, to, at_zero, slope: T::zero() };
        pieces.extend(first.map(|(s, r)| level(T::of(f64::NEG_INFINITY), *s, *r)));
        for (a, b) in knots.iter().zip(knots.iter().skip(1)) {
            let slope = (b.1 - a.1) / (b.0 - a.0);
            pieces.push(Piece { from: a.0, to: b.0, at_zero: a.1 - slope * a.0, slope });
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
        };
        Self { pieces: vec![everywhere] }
    }

    /// The surface `depth` inside this one, measured square to the axis.
    pub fn inset(&self, depth: T) -> Self {
        let pieces =
            self.pieces.iter().map(|piece| Piece { at_zero: piece.at_zero - depth, ..*piece }).collect();
        Self { pieces }
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
                    pieces.push(Piece { from, to, at_zero, slope });
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
        let at = station.value();
        let piece = self.pieces.iter().find(|piece| at <= piece.to.value()).or(self.pieces.last());
        piece.map_or(T::zero(), |piece| piece.radius(station))
    }

    /// The largest radius anywhere.
    pub fn widest(&self) -> f64 {
        let ends = [self.pieces.first(), self.pieces.last()];
        ends.into_iter().flatten().map(|piece| piece.at_zero.value()).fold(0.0, f64::max)
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
