//! A level rectangle of a sheet, and what of a line lies in it.

use super::sheet::{Point, Shape};
use crate::units::Bounds;
use std::f64::consts::TAU;

/// Chords of a circle that leaves its sheet.
const CHORDS: i32 = 120;

/// A level rectangle.
#[derive(Clone, Copy, Debug)]
pub(super) struct Area {
    pub(super) min: Point,
    pub(super) max: Point,
}

impl Area {
    /// The smallest that holds all points; nothing at all gives a small one about the origin.
    pub(super) fn of(points: impl IntoIterator<Item = Point>) -> Self {
        let mut area: Option<Self> = None;
        for point in points {
            let (min, max) = area.map_or((point, point), |area| (area.min, area.max));
            let low = Point::new(min.x.min(point.x), min.y.min(point.y));
            area = Some(Self { min: low, max: Point::new(max.x.max(point.x), max.y.max(point.y)) });
        }
        area.unwrap_or(Self { min: Point::new(-1.0, -1.0), max: Point::new(1.0, 1.0) })
    }

    /// What a mark takes; a text its place alone.
    pub(super) fn about(shape: &Shape) -> Self {
        match shape {
            Shape::Line { a, b } => Self::of([*a, *b]),
            Shape::Path { points, .. } => Self::of(points.iter().copied()),
            Shape::Circle { at, radius } | Shape::Ring { at, radius, .. } => {
                Self { min: *at, max: *at }.grown(*radius)
            }
            Shape::Pill { min, max } => Self { min: *min, max: *max },
            Shape::Text { at, .. } => Self { min: *at, max: *at },
        }
    }

    pub(super) fn grown(self, by: f64) -> Self {
        Self { min: self.min.plus(-by, -by), max: self.max.plus(by, by) }
    }

    pub(super) fn overlaps(&self, other: &Self) -> bool {
        self.min.x < other.max.x
            && other.min.x < self.max.x
            && self.min.y < other.max.y
            && other.min.y < self.max.y
    }

    /// Whether they have a place in common, be it on their edges.
    pub(super) fn touches(&self, other: &Self) -> bool {
        self.min.x <= other.max.x
            && other.min.x <= self.max.x
            && self.min.y <= other.max.y
            && other.min.y <= self.max.y
    }

    pub(super) fn holds(&self, other: &Self) -> bool {
        self.min.x <= other.min.x
            && other.max.x <= self.max.x
            && self.min.y <= other.min.y
            && other.max.y <= self.max.y
    }

    /// Its place nearest to a point.
    pub(super) fn nearest(&self, point: Point) -> Point {
        let within = |low: f64, high: f64, value: f64| Bounds::new(low, high).nearest(value);
        Point::new(within(self.min.x, self.max.x, point.x), within(self.min.y, self.max.y, point.y))
    }

    pub(super) fn has(&self, point: Point) -> bool {
        self.holds(&Self { min: point, max: point })
    }

    /// The part of a straight line that lies within (Liang and Barsky 1984, ACM Trans. Graphics 3:1, from memory).
    pub(super) fn part(&self, a: Point, b: Point) -> Option<[Point; 2]> {
        let (mut first, mut last) = (0.0_f64, 1.0_f64);
        let sides = [
            (a.x - b.x, a.x - self.min.x),
            (b.x - a.x, self.max.x - a.x),
            (a.y - b.y, a.y - self.min.y),
            (b.y - a.y, self.max.y - a.y),
        ];
        for (way, room) in sides {
            if way == 0.0 {
                if room < 0.0 {
                    return None;
                }
            } else if way < 0.0 {
                first = first.max(room / way);
            } else {
                last = last.min(room / way);
            }
        }
        let at = |share: f64| if share == 0.0 { a } else { a.towards(b, share) };
        (first < last).then(|| [at(first), if last == 1.0 { b } else { at(last) }])
    }

    /// Whether a straight line passes through.
    pub(super) fn crosses(&self, a: Point, b: Point) -> bool {
        self.part(a, b).is_some()
    }

    /// Whether any of a mark's lines passes through.
    pub(super) fn meets(&self, shape: &Shape) -> bool {
        match shape {
            Shape::Line { a, b } => self.crosses(*a, *b),
            Shape::Path { points, closed } => segments(points, *closed).any(|(a, b)| self.crosses(a, b)),
            Shape::Ring { at, radius, hole } => [radius, hole]
                .into_iter()
                .any(|radius| self.meets(&Shape::Circle { at: *at, radius: *radius })),
            Shape::Circle { at, radius } => {
                let off = |low: f64, high: f64, at: f64| {
                    ((low - at).max(at - high).max(0.0), (at - low).max(high - at))
                };
                let ((near_x, far_x), (near_y, far_y)) =
                    (off(self.min.x, self.max.x, at.x), off(self.min.y, self.max.y, at.y));
                near_x.hypot(near_y) < *radius && *radius < far_x.hypot(far_y)
            }
            Shape::Pill { min, max } => self.overlaps(&Self { min: *min, max: *max }),
            Shape::Text { .. } => false,
        }
    }

    /// What of a mark's lines lies within.
    pub(super) fn clipped(&self, shape: Shape) -> Vec<Shape> {
        if self.holds(&Self::about(&shape)) {
            return vec![shape];
        }
        match shape {
            Shape::Line { a, b } => self.runs(&[a, b], false),
            Shape::Path { points, closed } => self.runs(&points, closed),
            Shape::Circle { at, radius } => self.runs(&chords(at, radius), true),
            Shape::Ring { at, radius, hole } => [radius, hole]
                .into_iter()
                .flat_map(|radius| self.clipped(Shape::Circle { at, radius }))
                .collect(),
            Shape::Pill { .. } | Shape::Text { .. } => vec![shape],
        }
    }

    /// The runs of a chain of lines that lie within.
    fn runs(&self, points: &[Point], closed: bool) -> Vec<Shape> {
        let mut runs: Vec<Vec<Point>> = Vec::new();
        for [a, b] in segments(points, closed).filter_map(|(a, b)| self.part(a, b)) {
            match runs.last_mut() {
                Some(run) if run.last() == Some(&a) => run.push(b),
                _ => runs.push(vec![a, b]),
            }
        }
        runs.into_iter().map(|points| Shape::Path { points, closed: false }).collect()
    }
}

/// The corners of a circle.
fn chords(at: Point, radius: f64) -> Vec<Point> {
    let turn = |i: i32| TAU * f64::from(i) / f64::from(CHORDS);
    (0..CHORDS).map(|i| at.plus(radius * turn(i).cos(), radius * turn(i).sin())).collect()
}

/// The lines of a chain.
fn segments(points: &[Point], closed: bool) -> impl Iterator<Item = (Point, Point)> {
    let last = points.last().zip(points.first()).filter(|_| closed);
    points.iter().zip(points.iter().skip(1)).chain(last).map(|(a, b)| (*a, *b))
}
