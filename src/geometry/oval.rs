//! Elliptical sections of a body about an axis.

use super::Piece;
use super::circle::Node;
use crate::units::Real;

/// Two halves of an ellipse.
pub type Halves<T> = (T, T);

/// A stretch whose section is an ellipse, from one pair of halves to another. Its generators are straight: in each direction
/// round the axis the radius goes straight from the one section's to the other's.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Oval<T = f64> {
    /// The halves where the stretch starts.
    first: Halves<T>,
    /// The halves where it ends.
    last: Halves<T>,
    /// The direction of the first half round the axis, radians.
    turn: T,
}

fn larger<T: Real>((a, b): Halves<T>) -> T {
    if b.value() > a.value() { b } else { a }
}

/// One section of an oval stretch.
#[derive(Clone, Copy)]
pub(super) struct Cut<T> {
    first: Halves<T>,
    last: Halves<T>,
    /// How far it is from the first to the last; `None` where they are the same.
    share: Option<T>,
    /// Sine and cosine of the direction of the first half.
    turn: (T, T),
}

impl<T: Real> Cut<T> {
    /// Its radius in a direction from its first half, and the way there as parts along the body's own two directions.
    pub(super) fn towards(&self, angle: f64) -> (T, (T, T)) {
        let node = Node::at(angle);
        let (cos, sin) = (T::of(node.cos), T::of(node.sin));
        let first = Oval::radius(self.first, (cos, sin));
        let change = |share: T| (Oval::radius(self.last, (cos, sin)) - first) * share;
        let radius = first + self.share.map_or(T::zero(), change);
        let (turn_sin, turn_cos) = self.turn;
        (radius, (cos * turn_cos - sin * turn_sin, sin * turn_cos + cos * turn_sin))
    }
}

impl<T: Real> Oval<T> {
    /// A section that is round after all, from one radius to another.
    pub(super) fn round(first: T, last: T) -> Self {
        Self { first: (first, first), last: (last, last), turn: T::zero() }
    }

    fn is_round(&self) -> bool {
        self.first.0 == self.first.1 && self.last.0 == self.last.1
    }

    /// The radius at `station` of a stretch that is round all along; `None` for any other.
    pub(super) fn round_radius(&self, station: T, span: (T, T)) -> Option<T> {
        let (at_zero, slope) = self.line(span, |halves| halves.0);
        self.is_round().then(|| at_zero + slope * station)
    }

    /// The same stretch; a round one, which has no first half, counts its directions from the body's own.
    pub(super) fn turned_if_oval(&self) -> Self {
        if self.is_round() { Self { turn: T::zero(), ..*self } } else { *self }
    }

    /// The section at `station` of a stretch between two.
    pub(super) fn section(&self, station: T, (from, to): (T, T)) -> Cut<T> {
        let level = self.first == self.last || !from.value().is_finite() || !to.value().is_finite();
        let share = (!level).then(|| (station - from) / (to - from));
        Cut { first: self.first, last: self.last, share, turn: self.turn.sin_cos() }
    }

    /// Radius in a direction, `(cos, sin)` of the angle from the first half.
    fn radius((a, b): Halves<T>, (cos, sin): (T, T)) -> T {
        a * b / ((b * cos) * (b * cos) + (a * sin) * (a * sin)).sqrt()
    }

    /// How far the ellipse reaches in a direction.
    fn support((a, b): Halves<T>, (cos, sin): (T, T)) -> T {
        ((a * cos) * (a * cos) + (b * sin) * (b * sin)).sqrt()
    }

    /// A direction's cosine and sine, counted from the first half.
    fn from_first((there_cos, there_sin): (T, T), turn: T) -> (T, T) {
        let (sin, cos) = turn.sin_cos();
        (there_cos * cos + there_sin * sin, there_sin * cos - there_cos * sin)
    }

    /// A figure of both sections as a straight line over stations.
    fn line(&self, (from, to): (T, T), figure: impl Fn(Halves<T>) -> T) -> (T, T) {
        let (start, end) = (figure(self.first), figure(self.last));
        if self.first == self.last || !from.value().is_finite() || !to.value().is_finite() {
            return (start, T::zero());
        }
        let slope = (end - start) / (to - from);
        (start - slope * from, slope)
    }

    pub(super) fn generator(&self, node: Node, from: T, to: T) -> (T, T) {
        let way = Self::from_first((T::of(node.cos), T::of(node.sin)), self.turn);
        self.line((from, to), |halves| Self::radius(halves, way))
    }

    pub(super) fn reach(&self, way: (T, T), from: T, to: T) -> (T, T) {
        let way = Self::from_first(way, self.turn);
        self.line((from, to), |halves| Self::support(halves, way))
    }

    pub(super) fn unround(&self) -> f64 {
        let apart = |(a, b): Halves<T>| (a - b).value().abs();
        apart(self.first).max(apart(self.last))
    }

    pub(super) fn narrowest(&self) -> f64 {
        let least = |(a, b): Halves<T>| a.value().min(b.value());
        least(self.first).min(least(self.last))
    }

    pub(super) fn widest(&self) -> f64 {
        larger(self.first).value().max(larger(self.last).value())
    }

    /// How fast a half changes by station, at most.
    pub(super) fn steepest(&self, from: T, to: T) -> f64 {
        let slope = |half: fn(Halves<T>) -> T| self.line((from, to), half).1.value().abs();
        slope(|halves| halves.0).max(slope(|halves| halves.1))
    }

    /// The halves at a station of the stretch, and where the first one points.
    pub fn halves(&self, station: T, from: T, to: T) -> (Halves<T>, T) {
        let at = |(at_zero, slope): (T, T)| at_zero + slope * station;
        (
            (at(self.line((from, to), |halves| halves.0)), at(self.line((from, to), |halves| halves.1))),
            self.turn,
        )
    }

    pub(super) fn inset(&self, first: T, last: T) -> Self {
        let less = |(a, b): Halves<T>, depth: T| (a - depth, b - depth);
        Self { first: less(self.first, first), last: less(self.last, last), turn: self.turn }
    }

    pub(super) fn scaled(&self, share: T) -> Self {
        let part = |(a, b): Halves<T>| (a * share, b * share);
        Self { first: part(self.first), last: part(self.last), turn: self.turn }
    }

    pub(super) fn counted(&self, way: T, turn: T) -> Self {
        Self { turn: self.turn * way + turn, ..*self }
    }

    /// The part of the stretch `whole` from one station to another.
    pub(super) fn part(&self, whole: (T, T), (from, to): (T, T)) -> Self {
        let at = |station: T, end: Halves<T>| {
            if station.value().is_finite() { self.halves(station, whole.0, whole.1).0 } else { end }
        };
        Self { first: at(from, self.first), last: at(to, self.last), turn: self.turn }
    }
}

/// A stretch of a round body pressed oval, with a straight change from and to round before and behind it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OvalStretch<T = f64> {
    /// Where it starts to be fully oval.
    pub from: T,
    /// Where it ends to be so.
    pub to: T,
    /// Length of the change at either end, more than 0.
    pub blend: T,
    /// Half its width and half its height.
    pub halves: Halves<T>,
    /// The direction of its width round the axis, radians.
    pub turn: T,
}

impl<T: Real> OvalStretch<T> {
    /// Change, oval, change, between the radii before and after.
    pub(super) fn pieces(&self, (before, after): (T, T)) -> [Piece<T>; 3] {
        let round = |radius: T| (radius, radius);
        let piece = |from: T, to: T, first: Halves<T>, last: Halves<T>| {
            let oval = Oval { first, last, turn: self.turn };
            let (at_zero, slope) = oval.line((from, to), larger);
            Piece { from, to, at_zero, slope, oval: Some(oval) }
        };
        [
            piece(self.from - self.blend, self.from, round(before), self.halves),
            piece(self.from, self.to, self.halves, self.halves),
            piece(self.to, self.to + self.blend, self.halves, round(after)),
        ]
    }
}

/// Length of the curve once round an ellipse, by a series that converges faster the rounder it is: to rounding for halves no
/// more unlike than 1 to 4 (Gauss and Kummer, in Abramowitz & Stegun 17.3.33 ff.; from memory).
pub fn perimeter((a, b): Halves<f64>) -> f64 {
    // Gauss–Kummer: π(a + b) Σ (½ choose n)² hⁿ, h = ((a − b)/(a + b))².
    let h = ((a - b) / (a + b)).powi(2);
    let (mut sum, mut term) = (1.0, 1.0);
    for n in 1..400 {
        let n = f64::from(n);
        term *= ((1.5 - n) / n).powi(2) * h;
        sum += term;
        if term < 1e-17 {
            break;
        }
    }
    std::f64::consts::PI * (a + b) * sum
}

#[cfg(test)]
mod tests {
    use super::super::Outline;
    use super::*;

    /// Half circumferences of the ellipse: a circle, a flat one, and Ramanujan's second approximation, which is exact to 1e-9 here
    /// (Ramanujan 1914, Quart. J. Math. 45:350).
    #[test]
    fn round_an_ellipse() {
        assert!((perimeter((3.0, 3.0)) - std::f64::consts::TAU * 3.0).abs() < 1e-12);
        assert!((perimeter((1.0, 0.0)) - 4.0).abs() < 1e-3);
        let (a, b) = (15.0_f64, 9.0_f64);
        let h = ((a - b) / (a + b)).powi(2);
        let near = std::f64::consts::PI * (a + b) * (1.0 + 3.0 * h / (10.0 + (4.0 - 3.0 * h).sqrt()));
        assert!((perimeter((a, b)) - near).abs() < 1e-7);
    }

    #[test]
    fn a_pressed_stretch_is_round_again_behind_its_blends() {
        let stretch = OvalStretch { from: 60.0, to: 120.0, blend: 20.0, halves: (8.0, 14.0), turn: 0.0 };
        let body = Outline::<f64>::through(&[(100.0, 11.0), (300.0, 8.0)]).pressed(&[stretch]);
        let at = |phi: f64, station: f64| body.radius_towards(Node::at(phi), station);
        let quarter = std::f64::consts::FRAC_PI_2;
        for (phi, station, radius) in [
            (0.0, 80.0, 8.0),
            (quarter, 80.0, 14.0),
            (0.0, 39.0, 11.0),
            (0.0, 50.0, 9.5),
            (quarter, 50.0, 12.5),
            (0.3, 200.0, 9.5),
            (0.0, 140.0, 10.4),
            (quarter, 130.0, 12.2),
        ] {
            assert!((at(phi, station) - radius).abs() < 1e-12, "{phi} {station}: {}", at(phi, station));
        }
        let inner = body.inset(1.0);
        assert!((inner.radius_towards(Node::at(quarter), 80.0) - 13.0).abs() < 1e-12);
        let turned = body.counted(1.0, quarter);
        assert!((turned.radius_towards(Node::at(0.0), 80.0) - 14.0).abs() < 1e-12);
        let wall = Outline::through(&[(70.0, 1.0), (110.0, 0.6)]);
        assert!((body.less(&wall).radius_towards(Node::at(0.0), 90.0) - 7.2).abs() < 1e-12);
    }
}
