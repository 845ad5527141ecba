//! The outline of a convex body as it is seen.

use super::sheet::Point;
use super::view::View;
use crate::geometry::{Convex, ConvexBlock, ConvexRod, Line};
use nalgebra::{Point3, Vector3};
use std::f64::consts::TAU;

/// Corners of a round end.
const CORNERS: i32 = 48;

/// Corners that stick out by less than this, mm, are none.
const FLAT: f64 = 1e-6;

/// The outline of a convex body.
pub(super) fn outline(body: &Convex, view: &View) -> Vec<Point> {
    match body {
        Convex::Block(block) => block_outline(block, view),
        Convex::Rod(rod) => hull(rod_corners(rod, view)),
        Convex::Swept(rod, way) => {
            let there = ConvexRod { axis: Line { point: rod.axis.point + way, ..rod.axis }, ..*rod };
            hull([rod_corners(rod, view), rod_corners(&there, view)].concat())
        }
    }
}

pub(super) fn block_outline(block: &ConvexBlock, view: &View) -> Vec<Point> {
    let [a, b, c] = block.halves;
    let signs = [-1.0, 1.0];
    let corners =
        signs.iter().flat_map(|i| signs.iter().flat_map(move |j| signs.map(|k| a * *i + b * *j + c * k)));
    hull(corners.map(|corner| view.point(&(block.middle + corner))).collect())
}

/// Points of which the outermost are a rod's outline.
fn rod_corners(rod: &ConvexRod, view: &View) -> Vec<Point> {
    let along = rod.axis.direction;
    let other = if along.z.abs() < 0.9 { Vector3::z() } else { Vector3::x() };
    let first = along.cross(&other).normalize();
    let second = along.cross(&first);
    let rim = |(station, radius): (f64, f64)| {
        let middle: Point3<f64> = rod.axis.at(station);
        (0..CORNERS).map(move |i| {
            let (sin, cos) = (TAU * f64::from(i) / f64::from(CORNERS)).sin_cos();
            view.point(&(middle + (first * cos + second * sin) * radius))
        })
    };
    // Seen square to its axis a round end is a line, whose ends need not be among the corners.
    let across = along.cross(&view.viewer());
    let sides = if across.norm() > 1e-9 { across.normalize() } else { Vector3::zeros() };
    let ends = [(rod.from, rod.from_radius), (rod.to, rod.to_radius)];
    let edge =
        |way: f64| ends.map(|(station, radius)| view.point(&(rod.axis.at(station) + sides * (way * radius))));
    ends.into_iter().flat_map(rim).chain(edge(1.0)).chain(edge(-1.0)).collect()
}

/// The corners of the smallest convex outline about points, one way round (Andrew 1979, Inf. Process. Lett. 9:216, from memory).
pub(super) fn hull(mut points: Vec<Point>) -> Vec<Point> {
    points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    let mut corners = half(points.iter().copied());
    corners.pop();
    corners.extend(half(points.into_iter().rev()));
    corners.pop();
    corners
}

/// One side of the outline, from the first point to the last.
fn half(points: impl Iterator<Item = Point>) -> Vec<Point> {
    let mut chain: Vec<Point> = Vec::new();
    for point in points {
        while let [.., a, b] = *chain.as_slice() {
            let turn = (b.x - a.x) * (point.y - a.y) - (b.y - a.y) * (point.x - a.x);
            if turn > FLAT * a.distance(point).max(FLAT) {
                break;
            }
            chain.pop();
        }
        chain.push(point);
    }
    chain
}
