//! The point nearest to the origin of up to four corners' hull.

use nalgebra::{Matrix3, Vector3};

type Vector = Vector3<f64>;

/// Corners of a point, an edge, a triangle or a tetrahedron.
pub(super) struct Simplex {
    corners: Vec<Vector>,
}

/// A nearest point, and the corners whose hull it lies in.
struct Found {
    point: Vector,
    corners: Vec<Vector>,
}

impl Simplex {
    pub(super) fn new(corner: Vector) -> Self {
        Self { corners: vec![corner] }
    }

    /// Adds a corner; `false` where it is one already, so that nothing new can be found.
    pub(super) fn add(&mut self, corner: Vector) -> bool {
        let new = !self.corners.contains(&corner);
        if new {
            self.corners.push(corner);
        }
        new
    }

    /// The hull's point nearest to the origin. Corners that it does not need are dropped.
    pub(super) fn nearest(&mut self) -> Vector {
        let found = match self.corners.as_slice() {
            [a, b, c, d] => of_tetrahedron([*a, *b, *c, *d]),
            [a, b, c] => of_triangle([*a, *b, *c]),
            [a, b] => of_edge([*a, *b]),
            all => Found { point: all.first().copied().unwrap_or_default(), corners: all.to_vec() },
        };
        self.corners = found.corners;
        found.point
    }
}

fn nearer(a: Found, b: Found) -> Found {
    if b.point.norm_squared() < a.point.norm_squared() { b } else { a }
}

fn of_corner(corner: Vector) -> Found {
    Found { point: corner, corners: vec![corner] }
}

fn of_edge([a, b]: [Vector; 2]) -> Found {
    let along = b - a;
    let square = along.norm_squared();
    let share = if square > 0.0 { -a.dot(&along) / square } else { 0.0 };
    if share <= 0.0 {
        of_corner(a)
    } else if share >= 1.0 {
        of_corner(b)
    } else {
        Found { point: a + along * share, corners: vec![a, b] }
    }
}

fn of_triangle([a, b, c]: [Vector; 3]) -> Found {
    let (ab, ac) = (b - a, c - a);
    let normal = ab.cross(&ac);
    let square = normal.norm_squared();
    let edges = || nearer(nearer(of_edge([a, b]), of_edge([b, c])), of_edge([c, a]));
    if square <= f64::MIN_POSITIVE {
        return edges();
    }
    // The shares of b and c in the foot of the origin on the plane.
    let share_b = -a.cross(&ac).dot(&normal) / square;
    let share_c = -ab.cross(&a).dot(&normal) / square;
    if share_b < 0.0 || share_c < 0.0 || share_b + share_c > 1.0 {
        return edges();
    }
    // Made of the corners, so that it lies in the hull however thin the triangle is: a true upper bound.
    Found { point: a + ab * share_b + ac * share_c, corners: vec![a, b, c] }
}

fn of_tetrahedron([a, b, c, d]: [Vector; 4]) -> Found {
    if holds_origin([a, b, c, d]) {
        return Found { point: Vector::zeros(), corners: vec![a, b, c, d] };
    }
    let faces = [[a, b, c], [a, b, d], [a, c, d], [b, c, d]].map(of_triangle);
    faces.into_iter().reduce(nearer).unwrap_or_else(|| of_corner(a))
}

/// Whether the origin lies inside: its shares of the four corners are all positive. A flat tetrahedron holds nothing.
fn holds_origin([a, b, c, d]: [Vector; 4]) -> bool {
    let system = Matrix3::from_columns(&[b - a, c - a, d - a]);
    let Some(shares) = system.lu().solve(&-a) else { return false };
    shares.iter().all(|share| *share > 0.0) && shares.sum() < 1.0
}
