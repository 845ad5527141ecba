//! The room between two tapering round bodies.

use super::circle::valley;
use super::{Line, Outline, Piece};
use crate::units::Real;
use nalgebra::Vector3;

/// Distances closer than this count as the same.
const HAIR: f64 = 1e-12;

/// A stretch of a body of revolution, `from` to `to` along its axis.
#[derive(Clone, Copy, Debug)]
pub struct Spindle<'a, T: nalgebra::Scalar = f64> {
    /// Its axis.
    pub axis: Line<T>,
    /// Its radius by station.
    pub outline: &'a Outline<T>,
    /// First station.
    pub from: T,
    /// Last station.
    pub to: T,
}

/// One cone as the hull of spheres: a sphere on the axis at `s` that touches the cone from inside has radius
/// `at_zero + slope · s`.
#[derive(Clone, Copy)]
pub(super) struct Cone<T> {
    pub(super) from: T,
    pub(super) to: T,
    pub(super) at_zero: T,
    pub(super) slope: T,
}

impl<T: Real> Cone<T> {
    /// The part of a piece that lies in the stretch.
    fn new(piece: &Piece<T>, spindle: &Spindle<'_, T>) -> Option<Self> {
        let (from, to) = (larger(piece.from, spindle.from), smaller(piece.to, spindle.to));
        let lean = (T::one() + piece.slope * piece.slope).sqrt();
        // A piece that only touches the stretch adds nothing, unless the stretch is a single point.
        let point = spindle.from.value() == spindle.to.value();
        (from.value() < to.value() || (point && from.value() == to.value())).then(|| Self {
            from,
            to,
            at_zero: piece.at_zero / lean,
            slope: piece.slope / lean,
        })
    }

    fn radius(&self, station: T) -> T {
        self.at_zero + self.slope * station
    }
}

/// Smallest distance between the surfaces of two bodies; negative by the depth to which they run into each other.
/// `None` where a stretch is empty. Exact for cylinders and cones; the ends of a stretch count as rounded.
pub fn room<T: Real>(a: &Spindle<'_, T>, b: &Spindle<'_, T>) -> Option<T> {
    let cones = |body: &Spindle<'_, T>| -> Vec<Cone<T>> {
        body.outline.pieces().iter().filter_map(|piece| Cone::new(piece, body)).collect()
    };
    let others = cones(b);
    let rooms =
        cones(a).into_iter().flat_map(|one| others.iter().map(move |other| between(a, one, b, *other)));
    rooms.reduce(smaller)
}

fn between<T: Real>(a: &Spindle<'_, T>, one: Cone<T>, b: &Spindle<'_, T>, other: Cone<T>) -> T {
    cones_apart(&a.axis, one, &b.axis, other).0
}

/// Distance of two cones, and the two stations it lies between.
///
/// It is convex in the two stations: the inner least place has a closed form, the outer is one valley.
pub(super) fn cones_apart<T: Real>(a: &Line<T>, one: Cone<T>, b: &Line<T>, other: Cone<T>) -> (T, T, T) {
    let apart = |s: T| {
        let to_point = a.at(s) - b.point;
        let station = nearest_station(&to_point, &b.direction, &other);
        ((to_point - b.direction * station).norm() - one.radius(s) - other.radius(station), s, station)
    };
    let inside = apart(T::of(valley(one.from.value(), one.to.value(), |s| apart(T::of(s)).0.value())));
    let (from, to) = (apart(one.from), apart(one.to));
    let at_end = if to.0.value() < from.0.value() { to } else { from };
    // Where the nearest place is an end, it moves with that end; the valley's search stops a hair before it.
    if inside.0.value() < at_end.0.value() - HAIR { inside } else { at_end }
}

fn larger<T: Real>(a: T, b: T) -> T {
    if b.value() > a.value() { b } else { a }
}

fn smaller<T: Real>(a: T, b: T) -> T {
    if b.value() < a.value() { b } else { a }
}

/// The station `x` on an axis at which `distance to a point − radius(x)` is least: with the foot at `c` and the height
/// `h` it is `c + h·k/√(1−k²)`.
fn nearest_station<T: Real>(to_point: &Vector3<T>, direction: &Vector3<T>, cone: &Cone<T>) -> T {
    let foot = to_point.dot(direction);
    let height = (to_point - direction * foot).norm();
    let lean = (T::one() - cone.slope * cone.slope).sqrt();
    let station = foot + height * cone.slope / lean;
    smaller(larger(station, cone.from), cone.to)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn axis(point: [f64; 3], along: [f64; 3]) -> Line {
        Line { point: point.into(), direction: Vector3::from(along).normalize() }
    }

    #[test]
    fn two_cylinders_side_by_side() {
        let outline = Outline::level(4.0);
        let a = Spindle { axis: axis([0.0; 3], [1.0, 0.0, 0.0]), outline: &outline, from: 0.0, to: 100.0 };
        let b = Spindle { axis: axis([0.0, 10.0, 0.0], [1.0, 0.0, 0.0]), ..a };
        assert_eq!(room(&a, &b), Some(2.0));
        let c = Spindle { axis: axis([50.0, 0.0, 7.0], [0.0, 1.0, 0.0]), from: -20.0, to: 20.0, ..a };
        assert!((room(&a, &c).unwrap_or(f64::NAN) + 1.0).abs() < 1e-9);
    }

    /// A cone of half angle β whose axis stands at distance D from a parallel thin rod's is nearest at its thick end, at a
    /// distance that is measured square to the cone: worked by hand for a 3-4-5 slope.
    #[test]
    fn a_cone_is_measured_square_to_its_side() {
        let cone = Outline::through(&[(0.0, 0.0), (400.0, 300.0)]);
        let point = Outline::level(0.0);
        let a = Spindle { axis: axis([0.0; 3], [1.0, 0.0, 0.0]), outline: &cone, from: 0.0, to: 400.0 };
        let b =
            Spindle { axis: axis([200.0, 250.0, 0.0], [0.0, 0.0, 1.0]), outline: &point, from: 0.0, to: 0.0 };
        // At station 200 the radius is 150, the point 100 above it: 100 · cos β = 80.
        assert!((room(&a, &b).unwrap_or(f64::NAN) - 80.0).abs() < 1e-9);
    }

    #[test]
    fn an_empty_stretch_has_no_room() {
        let outline = Outline::level(4.0);
        let a = Spindle { axis: axis([0.0; 3], [1.0, 0.0, 0.0]), outline: &outline, from: 5.0, to: 4.0 };
        assert_eq!(room(&a, &a), None);
    }
}
