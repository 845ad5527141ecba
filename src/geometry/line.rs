//! A straight line, and where two of them come nearest.

use crate::units::Real;
use nalgebra::{Point3, Vector3};

/// Two directions whose sine is below this count as parallel. At the length of a tube the difference is then less than
/// the width of an atom, while the nearest station is lost in rounding.
const PARALLEL: f64 = 1e-9;

/// A line through `point` along `direction`, which has length 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line<T: nalgebra::Scalar = f64> {
    /// Station 0.
    pub point: Point3<T>,
    /// The way stations count; length 1.
    pub direction: Vector3<T>,
}

/// How two lines lie to each other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Nearest<T: nalgebra::Scalar = f64> {
    /// They cross or pass each other.
    Skew {
        /// Station on the first line of its point nearest to the second.
        station: T,
        /// Square to both, length 1: along first × second.
        normal: Vector3<T>,
        /// From the second line to the first, counted along `normal`.
        distance: T,
    },
    /// They never come nearer than they are everywhere.
    Parallel {
        /// Their distance, 0 or more.
        distance: T,
    },
}

impl<T: Real> Line<T> {
    /// The line from `from` to `to`, and the length between them, which must not be 0.
    pub fn between(from: Point3<T>, to: Point3<T>) -> (Self, T) {
        let along = to - from;
        let length = along.norm();
        (Self { point: from, direction: along / length }, length)
    }

    /// The point at `station`.
    #[inline(always)]
    pub fn at(&self, station: T) -> Point3<T> {
        self.point + self.direction * station
    }

    /// Unsigned angle to another line, 0 to a quarter turn. Accurate at both ends of that range.
    pub fn angle_to(&self, other: &Self) -> T {
        let (cross, dot) = (self.direction.cross(&other.direction), self.direction.dot(&other.direction));
        if cross.norm_squared().value() == 0.0 {
            return T::zero();
        }
        cross.norm().atan2(dot.abs())
    }

    /// Where this line comes nearest to `other`.
    pub fn nearest(&self, other: &Self) -> Nearest<T> {
        let cross = self.direction.cross(&other.direction);
        let between = self.point - other.point;
        let square = cross.norm_squared();
        if square.value() <= PARALLEL * PARALLEL {
            let apart = between - other.direction * between.dot(&other.direction);
            let squared = apart.norm_squared();
            return Nearest::Parallel {
                distance: if squared.value() == 0.0 { T::zero() } else { squared.sqrt() },
            };
        }
        let station = other.direction.cross(&between).dot(&cross) / square;
        let normal = cross / square.sqrt();
        Nearest::Skew { station, normal, distance: between.dot(&normal) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(point: [f64; 3], along: [f64; 3]) -> Line {
        Line { point: point.into(), direction: Vector3::from(along).normalize() }
    }

    #[test]
    fn crossing_lines_meet_where_they_cross() {
        let a = line([1.0, 2.0, 3.0], [1.0, 1.0, 0.0]);
        let b = line([4.0, 5.0, 3.0], [0.0, 1.0, 1.0]);
        let Nearest::Skew { station, distance, .. } = a.nearest(&b) else { panic!("skew") };
        assert!((a.at(station) - Point3::new(4.0, 5.0, 3.0)).norm() < 1e-12);
        assert!(distance.abs() < 1e-12);
    }

    #[test]
    fn skew_lines_have_a_signed_distance() {
        let a = line([7.0, 0.0, 2.0], [1.0, 0.0, 0.0]);
        let b = line([0.0, 3.0, -1.0], [0.0, 1.0, 0.0]);
        let Nearest::Skew { station, normal, distance } = a.nearest(&b) else { panic!("skew") };
        assert_eq!((station, distance), (-7.0, 3.0));
        assert_eq!(normal, Vector3::z());
    }

    #[test]
    fn parallel_lines_have_a_distance_and_no_station() {
        let a = line([0.0, 3.0, 4.0], [1.0, 0.0, 0.0]);
        assert_eq!(a.nearest(&line([9.0, 0.0, 0.0], [-1.0, 0.0, 0.0])), Nearest::Parallel { distance: 5.0 });
        assert_eq!(a.nearest(&a), Nearest::Parallel { distance: 0.0 });
        assert_eq!(a.angle_to(&a), 0.0);
    }

    #[test]
    fn small_angles_keep_their_figures() {
        let a = line([0.0; 3], [1.0, 0.0, 0.0]);
        let b = line([0.0; 3], [-1.0, 1e-8, 0.0]);
        assert!((a.angle_to(&b) - 1e-8).abs() < 1e-20);
    }
}
