//! What of a filled shape lies on its sheet.

use super::area::Area;
use super::sheet::{Point, Shape};
use std::f64::consts::TAU;

/// Chords of a circle that leaves its sheet: on one of 700 mm they lie 0.1 mm off at most.
const CHORDS: i32 = 120;

/// The part of a filled shape within a rectangle; `None` where nothing of it is. Sutherland and Hodgman 1974 (Commun. ACM 17:32,
/// from memory): of a shape that falls apart the pieces stay joined along the rectangle's edge, where nothing is between.
pub(super) fn filled_within(within: &Area, shape: &Shape) -> Option<Shape> {
    let mut points = corners(shape)?;
    let sides: [fn(&Area, Point) -> f64; 4] = [
        |area, p| p.x - area.min.x,
        |area, p| area.max.x - p.x,
        |area, p| p.y - area.min.y,
        |area, p| area.max.y - p.y,
    ];
    for side in sides {
        points = cut(&points, |point| side(within, point));
    }
    (points.len() > 2).then_some(Shape::Path { points, closed: true })
}

/// The part of a polygon in which `inside` is not negative.
fn cut(points: &[Point], inside: impl Fn(Point) -> f64) -> Vec<Point> {
    let before = points.last().into_iter().chain(points);
    let mut kept = Vec::with_capacity(points.len() + 4);
    for (a, b) in before.zip(points) {
        let (from, to) = (inside(*a), inside(*b));
        if (from < 0.0) != (to < 0.0) {
            kept.push(a.towards(*b, from / (from - to)));
        }
        if to >= 0.0 {
            kept.push(*b);
        }
    }
    kept
}

/// The corners of a filled shape; those of a ring go round its edge, in to its hole, and round that the other way.
fn corners(shape: &Shape) -> Option<Vec<Point>> {
    let round = |at: Point, radius: f64, way: i32| {
        (0..=CHORDS).map(move |i| {
            let (sin, cos) = (TAU * f64::from(i * way) / f64::from(CHORDS)).sin_cos();
            at.plus(radius * cos, radius * sin)
        })
    };
    match shape {
        Shape::Path { points, closed: true } => Some(points.clone()),
        Shape::Circle { at, radius } => Some(round(*at, *radius, 1).collect()),
        Shape::Ring { at, radius, hole } => {
            Some(round(*at, *radius, 1).chain(round(*at, *hole, -1)).collect())
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Twice the area of a polygon, by the shoelace formula.
    fn twice_area(points: &[Point]) -> f64 {
        let after = points.iter().skip(1).chain(points.first());
        points.iter().zip(after).map(|(a, b)| a.x * b.y - b.x * a.y).sum::<f64>().abs()
    }

    fn area_within(shape: &Shape, area: Area) -> f64 {
        match filled_within(&area, shape) {
            Some(Shape::Path { points, .. }) => 0.5 * twice_area(&points),
            _ => 0.0,
        }
    }

    #[test]
    fn half_a_ring_has_half_its_area_and_what_is_beside_it_none() {
        let at = Point::new(0.0, 0.0);
        let ring = Shape::Ring { at, radius: 50.0, hole: 30.0 };
        let whole = std::f64::consts::PI * (50.0 * 50.0 - 30.0 * 30.0);
        let area = |min: f64, max: f64| Area { min: Point::new(min, -60.0), max: Point::new(max, 60.0) };
        // A polygon of 120 corners has 0.05 % less area than its circle.
        assert!((area_within(&ring, area(-60.0, 60.0)) / whole - 1.0).abs() < 6e-4);
        assert!((area_within(&ring, area(0.0, 60.0)) / whole - 0.5).abs() < 3e-4);
        assert_eq!(area_within(&ring, area(51.0, 60.0)), 0.0);
    }

    #[test]
    fn a_square_over_a_corner_keeps_its_quarter() {
        let corners = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)];
        let points = corners.map(|(x, y)| Point::new(x, y)).to_vec();
        let square = Shape::Path { points, closed: true };
        let area = Area { min: Point::new(0.0, 0.0), max: Point::new(5.0, 5.0) };
        assert!((area_within(&square, area) - 1.0).abs() < 1e-12);
    }
}
