//! Whether convex outlines on a sheet overlap.

use crate::drawing::Point;

/// Outlines that run into each other by no more than this, mm, touch.
const GRAZE: f64 = 0.02;

/// A rectangle on the sheet.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bounds {
    min: Point,
    max: Point,
}

/// A convex outline that runs clockwise as it is seen, as a facet does that faces the viewer.
#[derive(Clone, Debug)]
pub(super) struct Convex {
    pub(super) corners: Vec<Point>,
    pub(super) bounds: Bounds,
}

impl Bounds {
    fn of(points: &[Point]) -> Self {
        let first = points.first().copied().unwrap_or(Point::new(0.0, 0.0));
        points
            .iter()
            .fold(Self { min: first, max: first }, |bounds, p| bounds.with(&Self { min: *p, max: *p }))
    }

    /// The rectangle that holds both.
    pub(super) fn with(&self, other: &Self) -> Self {
        Self {
            min: Point::new(self.min.x.min(other.min.x), self.min.y.min(other.min.y)),
            max: Point::new(self.max.x.max(other.max.x), self.max.y.max(other.max.y)),
        }
    }

    pub(super) fn overlaps(&self, other: &Self) -> bool {
        self.min.x + GRAZE < other.max.x
            && other.min.x + GRAZE < self.max.x
            && self.min.y + GRAZE < other.max.y
            && other.min.y + GRAZE < self.max.y
    }
}

impl Convex {
    pub(super) fn new(corners: &[Point]) -> Self {
        Self { corners: corners.to_vec(), bounds: Bounds::of(corners) }
    }

    fn sides(&self) -> impl Iterator<Item = Side> + '_ {
        let next = self.corners.iter().cycle().skip(1);
        self.corners.iter().zip(next).filter_map(|(a, b)| Side::new(*a, *b))
    }

    /// Whether the two cover a place together: if not, some side of one has the other outside (the theorem of separating axes).
    pub(super) fn overlaps(&self, other: &Self) -> bool {
        let separates =
            |side: &Side, corners: &[Point]| corners.iter().all(|corner| side.inside(corner) <= GRAZE);
        self.bounds.overlaps(&other.bounds)
            && !self.sides().any(|side| separates(&side, &other.corners))
            && !other.sides().any(|side| separates(&side, &self.corners))
    }

    /// Whether a line runs through the inside.
    pub(super) fn holds_part_of(&self, [a, b]: &[Point; 2]) -> bool {
        if !self.bounds.overlaps(&Bounds::of(&[*a, *b]).wider()) {
            return false;
        }
        let (mut from, mut to) = (0.0_f64, 1.0_f64);
        for side in self.sides() {
            let (start, end) = (side.inside(a) - GRAZE, side.inside(b) - GRAZE);
            if start <= 0.0 && end <= 0.0 {
                return false;
            }
            let crossing = start / (start - end);
            if start < 0.0 {
                from = from.max(crossing);
            } else if end < 0.0 {
                to = to.min(crossing);
            }
        }
        from < to
    }
}

impl Bounds {
    /// Room about a line that runs level or upright.
    fn wider(&self) -> Self {
        let by = 2.0 * GRAZE;
        Self { min: self.min.plus(-by, -by), max: self.max.plus(by, by) }
    }
}

/// A side of an outline.
struct Side {
    start: Point,
    /// Along it, length 1.
    way: (f64, f64),
}

impl Side {
    /// `None` for a side too short to have a direction.
    fn new(start: Point, end: Point) -> Option<Self> {
        let length = start.distance(end);
        let way = ((end.x - start.x) / length, (end.y - start.y) / length);
        (length > 1e-6).then_some(Self { start, way })
    }

    /// How far inside the side a point lies, mm. The sheet's y runs down, so the inside of an outline that runs as the facets do lies at
    /// the left as numbers go.
    fn inside(&self, point: &Point) -> f64 {
        (point.x - self.start.x) * self.way.1 - (point.y - self.start.y) * self.way.0
    }
}
