//! Solids that a body may come near: turned ones, blocks and rods, each with its exact distance from a point.

use super::Line;
use crate::units::Real;
use nalgebra::{Point3, Vector3};

/// How a point lies to a solid.
#[derive(Clone, Copy, Debug)]
pub struct Near<T: nalgebra::Scalar = f64> {
    /// From the solid's surface to the point; negative inside.
    pub distance: T,
    /// From the solid to the point, length 1, where the distance grows fastest; 0 where there is no such way.
    pub away: Vector3<T>,
}

impl<T: Real> Near<T> {
    /// The point of the surface nearest to `point`.
    pub fn foot(&self, point: &Point3<T>) -> Point3<T> {
        point - self.away * self.distance
    }
}

/// A solid with an exact distance from any point.
pub trait Solid<T: Real> {
    /// How a point lies to it.
    fn near(&self, point: &Point3<T>) -> Near<T>;

    /// Bound on how strongly the distance can bend downwards along a straight way within `reach` of `point`; 0 for a convex
    /// solid, infinite where there is no bound.
    fn dip(&self, point: &Point3<T>, reach: f64) -> f64;

    /// The way out of a solid that is all that lies on one side of a plane, length 1; `None` for any other.
    fn out_of_plane(&self) -> Option<Vector3<T>> {
        None
    }
}

/// A solid of revolution with a rectangular section, swollen by `rounding` on all sides.
///
/// A disc, a ring with a round section, a washer or an endless round column are all of this kind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turned<T: nalgebra::Scalar = f64> {
    /// Its axis; `low` and `high` count along it.
    pub axis: Line<T>,
    /// Inner radius; 0 or less for a solid without a hole.
    pub hole: T,
    /// Outer radius.
    pub rim: T,
    /// Where it starts along the axis.
    pub low: T,
    /// Where it ends along the axis.
    pub high: T,
    /// What it is swollen by.
    pub rounding: T,
}

fn larger<T: Real>(a: T, b: T) -> T {
    if b.value() > a.value() { b } else { a }
}

/// How far a value lies outside a range, with the sign of the side; 0 inside.
fn outside<T: Real>(value: T, low: T, high: T) -> T {
    if value.value() < low.value() {
        value - low
    } else if value.value() > high.value() {
        value - high
    } else {
        T::zero()
    }
}

impl<T: Real> Turned<T> {
    fn is_solid(&self) -> bool {
        self.hole.value() <= 0.0
    }

    /// Distance inside the section, as the place nearest to leaving it: (distance, way along the radius, way along the axis).
    fn inside(&self, radius: T, along: T) -> (T, f64, f64) {
        let hole = if self.is_solid() { T::of(f64::NEG_INFINITY) } else { self.hole - radius };
        let ways = [
            (radius - self.rim, 1.0, 0.0),
            (hole, -1.0, 0.0),
            (self.low - along, 0.0, -1.0),
            (along - self.high, 0.0, 1.0),
        ];
        ways.into_iter().fold((T::of(f64::NEG_INFINITY), 0.0, 0.0), |best, way| {
            if way.0.value() > best.0.value() { way } else { best }
        })
    }
}

impl<T: Real> Solid<T> for Turned<T> {
    fn near(&self, point: &Point3<T>) -> Near<T> {
        let apart = point - self.axis.point;
        let along = apart.dot(&self.axis.direction);
        let across = apart - self.axis.direction * along;
        let square = across.norm_squared();
        let on_axis = square.value() == 0.0;
        let radius = if on_axis { T::zero() } else { square.sqrt() };
        let outwards = if on_axis { Vector3::zeros() } else { across / radius };
        let hole = if self.is_solid() { T::of(f64::NEG_INFINITY) } else { self.hole };
        let (beyond, past) = (outside(radius, hole, self.rim), outside(along, self.low, self.high));
        if beyond.value() == 0.0 && past.value() == 0.0 {
            let (distance, out, on) = self.inside(radius, along);
            let away = outwards * T::of(out) + self.axis.direction * T::of(on);
            return Near { distance: distance - self.rounding, away };
        }
        let distance = (beyond * beyond + past * past).sqrt();
        let away = outwards * (beyond / distance) + self.axis.direction * (past / distance);
        Near { distance: distance - self.rounding, away }
    }

    fn dip(&self, point: &Point3<T>, reach: f64) -> f64 {
        if self.is_solid() {
            return 0.0;
        }
        let apart = point - self.axis.point;
        let across = apart - self.axis.direction * apart.dot(&self.axis.direction);
        let radius = across.norm().value();
        if radius - reach > self.rim.value() {
            return 0.0;
        }
        // Inside the hole the rim is round the other way; at the axis all of it is equally near.
        let least = radius - reach;
        if least > 0.0 { 1.0 / least } else { f64::INFINITY }
    }
}

/// A block with square corners.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Block<T: nalgebra::Scalar = f64> {
    /// Its middle.
    pub middle: Point3<T>,
    /// Its three directions, length 1, square to each other.
    pub directions: [Vector3<T>; 3],
    /// Half its size along each.
    pub halves: [T; 3],
}

impl<T: Real> Solid<T> for Block<T> {
    fn near(&self, point: &Point3<T>) -> Near<T> {
        let apart = point - self.middle;
        let (mut beyond, mut best) = (Vector3::zeros(), (T::of(f64::NEG_INFINITY), Vector3::zeros()));
        for (direction, half) in self.directions.iter().zip(self.halves) {
            let along = apart.dot(direction);
            beyond += direction * outside(along, -half, half);
            let (depth, way) =
                if along.value() < 0.0 { (-along - half, -direction) } else { (along - half, *direction) };
            if depth.value() > best.0.value() {
                best = (depth, way);
            }
        }
        let square = beyond.norm_squared();
        if square.value() == 0.0 {
            return Near { distance: best.0, away: best.1 };
        }
        let distance = square.sqrt();
        Near { distance, away: beyond / distance }
    }

    fn dip(&self, _: &Point3<T>, _: f64) -> f64 {
        0.0
    }
}

/// A straight rod with round ends. With no length it is a ball, with no radius a segment or a point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rod<T: nalgebra::Scalar = f64> {
    /// Its axis.
    pub axis: Line<T>,
    /// First station.
    pub from: T,
    /// Last station.
    pub to: T,
    /// Its radius.
    pub radius: T,
}

impl<T: Real> Rod<T> {
    /// A ball about `middle`; with radius 0 the point itself.
    pub fn ball(middle: Point3<T>, radius: T) -> Self {
        let axis = Line { point: middle, direction: Vector3::x() };
        Self { axis, from: T::zero(), to: T::zero(), radius }
    }
}

impl<T: Real> Solid<T> for Rod<T> {
    fn near(&self, point: &Point3<T>) -> Near<T> {
        let along = (point - self.axis.point).dot(&self.axis.direction);
        let station = larger(self.from, if along.value() > self.to.value() { self.to } else { along });
        let apart = point - self.axis.at(station);
        let square = apart.norm_squared();
        if square.value() == 0.0 {
            return Near { distance: -self.radius, away: Vector3::zeros() };
        }
        let distance = square.sqrt();
        Near { distance: distance - self.radius, away: apart / distance }
    }

    fn dip(&self, _: &Point3<T>, _: f64) -> f64 {
        0.0
    }
}

/// All that lies on one side of a plane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HalfSpace<T: nalgebra::Scalar = f64> {
    /// A point of the plane.
    pub edge: Point3<T>,
    /// The way out of it, square to the plane, length 1.
    pub out: Vector3<T>,
}

impl<T: Real> Solid<T> for HalfSpace<T> {
    fn near(&self, point: &Point3<T>) -> Near<T> {
        Near { distance: (point - self.edge).dot(&self.out), away: self.out }
    }

    fn dip(&self, _: &Point3<T>, _: f64) -> f64 {
        0.0
    }

    fn out_of_plane(&self) -> Option<Vector3<T>> {
        Some(self.out)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn upright() -> Line {
        Line { point: Point3::origin(), direction: Vector3::z() }
    }

    /// By hand: a ring of radius 100 with a round section of 20, a disc of 50 × 4, and a block of 2 × 4 × 6.
    #[test]
    fn distances_worked_by_hand() {
        let ring = Turned { axis: upright(), hole: 100.0, rim: 100.0, low: 0.0, high: 0.0, rounding: 20.0 };
        for (point, distance) in [
            ([130.0, 0.0, 0.0], 10.0),
            ([0.0, 70.0, 0.0], 10.0),
            ([103.0, 0.0, 4.0], -15.0),
            ([0.0, 0.0, 0.0], 80.0),
            ([0.0, 130.0, 40.0], 30.0),
        ] {
            assert!((ring.near(&Point3::from(point)).distance - distance).abs() < 1e-12, "{point:?}");
        }
        let disc = Turned { axis: upright(), hole: 0.0, rim: 50.0, low: -2.0, high: 2.0, rounding: 0.0 };
        for (point, distance) in [
            ([0.0, 0.0, 5.0], 3.0),
            ([53.0, 0.0, 6.0], 5.0),
            ([10.0, 0.0, 1.5], -0.5),
            ([0.0, 49.75, 0.0], -0.25),
            ([0.0, 0.0, 0.0], -2.0),
        ] {
            assert!((disc.near(&Point3::from(point)).distance - distance).abs() < 1e-12, "{point:?}");
        }
        let block = Block {
            middle: Point3::origin(),
            directions: [Vector3::x(), Vector3::y(), Vector3::z()],
            halves: [1.0, 2.0, 3.0],
        };
        for (point, distance) in
            [([4.0, 0.0, 7.0], 5.0_f64), ([0.5, 0.0, 0.0], -0.5), ([0.0, -5.0, 0.0], 3.0)]
        {
            assert!((block.near(&Point3::from(point)).distance - distance).abs() < 1e-12, "{point:?}");
        }
        let rod = Rod { axis: upright(), from: 0.0, to: 10.0, radius: 1.0 };
        assert!((rod.near(&Point3::new(3.0, 0.0, 14.0)).distance - 4.0).abs() < 1e-12);
    }

    /// Stepping along `away` by the distance lands on the surface.
    #[test]
    fn the_foot_lies_on_the_surface() {
        let washer = Turned { axis: upright(), hole: 30.0, rim: 60.0, low: -5.0, high: 9.0, rounding: 3.0 };
        for point in
            [[10.0, 4.0, 2.0], [90.0, 1.0, -30.0], [45.0, 0.0, 20.0], [40.0, 20.0, 8.0], [31.0, 0.0, 0.0]]
        {
            let point = Point3::from(point);
            let foot = washer.near(&point).foot(&point);
            assert!(washer.near(&foot).distance.abs() < 1e-12, "{point}");
        }
    }
}
