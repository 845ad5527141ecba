//! The distance of two cones, each the hull of spheres along a line.

use super::Line;
use super::circle::valley;
use crate::units::Real;
use nalgebra::Vector3;

/// Distances closer than this count as the same.
const HAIR: f64 = 1e-12;

/// The hull of spheres on an axis between two stations: the one at `s` has radius `at_zero + slope · s`.
#[derive(Clone, Copy)]
pub(super) struct Cone<T> {
    pub(super) from: T,
    pub(super) to: T,
    pub(super) at_zero: T,
    pub(super) slope: T,
}

impl<T: Real> Cone<T> {
    fn radius(&self, station: T) -> T {
        self.at_zero + self.slope * station
    }
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
    let square = T::one() - cone.slope * cone.slope;
    if square.value() <= 0.0 {
        // The largest sphere holds all others.
        return if cone.slope.value() > 0.0 { cone.to } else { cone.from };
    }
    let foot = to_point.dot(direction);
    let height = (to_point - direction * foot).norm();
    let station = foot + height * cone.slope / square.sqrt();
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
        let cylinder = Cone { from: 0.0, to: 100.0, at_zero: 4.0, slope: 0.0 };
        let one = axis([0.0; 3], [1.0, 0.0, 0.0]);
        let beside = axis([0.0, 10.0, 0.0], [1.0, 0.0, 0.0]);
        assert_eq!(cones_apart(&one, cylinder, &beside, cylinder).0, 2.0);
        let across = axis([50.0, 0.0, 7.0], [0.0, 1.0, 0.0]);
        let shorter = Cone { from: -20.0, to: 20.0, ..cylinder };
        assert!((cones_apart(&one, cylinder, &across, shorter).0 + 1.0).abs() < 1e-9);
    }

    /// The distance of a point from a cone is measured square to it: worked by hand for a 3-4-5 slope, whose spheres have 4/5 of
    /// its radius. At station 200 the radius is 150, the point 100 above it: 100 · cos β = 80.
    #[test]
    fn a_cone_is_measured_square_to_its_side() {
        let cone = Cone { from: 0.0, to: 400.0, at_zero: 0.0, slope: 0.6 };
        let point = Cone { from: 0.0, to: 0.0, at_zero: 0.0, slope: 0.0 };
        let (one, other) = (axis([0.0; 3], [1.0, 0.0, 0.0]), axis([200.0, 250.0, 0.0], [0.0, 0.0, 1.0]));
        assert!((cones_apart(&one, cone, &other, point).0 - 80.0).abs() < 1e-9);
    }

    /// By hand: spheres that grow faster than their middles move are all in the last one, of 110 about 100.
    #[test]
    fn spheres_in_one_another_are_the_largest() {
        let cone = Cone { from: 0.0, to: 100.0, at_zero: 10.0, slope: 1.0 };
        let point = Cone { from: 0.0, to: 0.0, at_zero: 0.0, slope: 0.0 };
        let (one, other) = (axis([0.0; 3], [1.0, 0.0, 0.0]), axis([100.0, 250.0, 0.0], [0.0, 0.0, 1.0]));
        assert!((cones_apart(&one, cone, &other, point).0 - 140.0).abs() < 1e-9);
    }
}
