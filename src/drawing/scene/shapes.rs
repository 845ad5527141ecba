//! Plain solids: blocks, plates, and bodies turned about an axis.

use super::loft::Loft;
use super::solid::{Plane, Solid};
use crate::geometry::Line;
use nalgebra::{Point3, Vector3};
use std::f64::consts::TAU;

/// A turned profile's corner sharper than this is an edge of the body; a blunter one approximates a curve.
const BLUNT: f64 = 0.8;

/// A block about `middle`, its half sizes along three directions that are square to each other and right-handed.
pub fn block(middle: Point3<f64>, directions: [Vector3<f64>; 3], halves: [f64; 3]) -> Solid {
    let [across, up, along] = directions;
    let [a, b, c] = halves;
    let section = [(1.0, 1.0), (-1.0, 1.0), (-1.0, -1.0), (1.0, -1.0)]
        .map(|(x, y)| middle + across * (x * a) + up * (y * b) - along * c);
    prism(&section, along * (2.0 * c))
}

/// A flat convex outline pushed by `way`, by the right hand about it. Its sides are edges of the body.
pub fn prism(outline: &[Point3<f64>], way: Vector3<f64>) -> Solid {
    let far = outline.iter().map(|point| point + way).collect();
    let mut solid = Loft::default().ring(0, outline.to_vec()).ring(0, far).capped();
    for (number, facet) in (0..).zip(&mut solid.facets) {
        facet.skin = number;
    }
    solid
}

/// The same with a rounded outline: its sides are one skin where they turn little.
pub fn rounded_prism(outline: &[Point3<f64>], way: Vector3<f64>) -> Solid {
    let mut solid = prism(outline, way);
    let count = outline.len();
    let plane = |corner: usize| {
        let facet = solid.facets.get(corner % count.max(1))?;
        Plane::of(&solid.corners(facet)).map(|plane| plane.normal)
    };
    let blunt = |a: usize| plane(a).zip(plane(a + 1)).is_some_and(|(a, b)| a.angle(&b) < BLUNT);
    let joined: Vec<bool> = (0..count).map(blunt).collect();
    for (side, skin) in skins(&joined).into_iter().enumerate() {
        if let Some(facet) = solid.facets.get_mut(side) {
            facet.skin = skin;
        }
    }
    for (facet, skin) in solid.facets.iter_mut().skip(count).zip(count as u32 + 1..) {
        facet.skin = skin;
    }
    solid
}

/// A round body about `axis`: `profile` lists stations and radii, all radii positive, along the outside in the way of the axis; flat
/// ends close it. `sides` facets go round.
pub fn turned(axis: &Line, profile: &[(f64, f64)], sides: u32) -> Solid {
    let loft = rings(axis, profile, sides, &vec![false; profile.len()], false);
    let mut solid = loft.capped();
    solid.seams.extend(meridians(axis, sides));
    solid
}

/// A round body with a hole along its axis: `profile` goes round its section, along the outside in the way of the axis and back
/// through the hole.
pub fn turned_ring(axis: &Line, profile: &[(f64, f64)], sides: u32) -> Solid {
    let count = profile.len();
    let at = |place: usize| profile.get(place % count.max(1)).copied().unwrap_or_default();
    let way = |place: usize| {
        let (a, b) = (at(place + count - 1), at(place));
        Vector3::new(b.0 - a.0, b.1 - a.1, 0.0)
    };
    let blunt = |place: usize| way(place).angle(&way(place + 1)) < BLUNT;
    let joined: Vec<bool> = (0..count).map(blunt).collect();
    let mut solid = rings(axis, profile, sides, &joined, true).closed();
    solid.seams = meridians(axis, sides);
    solid
}

/// A tube about `axis` between two stations, with square ends.
pub fn pipe(axis: &Line, (from, to): (f64, f64), (outer, bore): (f64, f64), sides: u32) -> Solid {
    turned_ring(axis, &[(from, bore), (from, outer), (to, outer), (to, bore)], sides)
}

/// The rings of a turned body; band `i` leads to ring `i`.
fn rings(axis: &Line, profile: &[(f64, f64)], sides: u32, joined: &[bool], closed: bool) -> Loft {
    let (first, second) = about(&axis.direction);
    let ring = |(station, radius): (f64, f64)| {
        let point = |step: u32| {
            let (sin, cos) = (f64::from(step) / f64::from(sides) * TAU).sin_cos();
            axis.at(station) + (first * cos + second * sin) * radius
        };
        (0..sides).map(point).collect()
    };
    let numbered = if closed { skins(joined) } else { (0..profile.len() as u32).collect() };
    let all = profile.iter().zip(numbered);
    all.fold(Loft::default(), |loft, (point, skin)| loft.ring(skin, ring(*point)))
}

/// Numbers for the sides of a closed outline: the same on both sides of a corner that is joined. `joined[i]` is the corner between
/// side `i` and the next.
fn skins(joined: &[bool]) -> Vec<u32> {
    let count = joined.len();
    let start = joined.iter().position(|smooth| !smooth).map_or(0, |corner| corner + 1);
    let mut skins = vec![0; count];
    let mut skin = 0;
    for step in 0..count {
        let side = (start + step) % count;
        if let Some(place) = skins.get_mut(side) {
            *place = skin;
        }
        skin += u32::from(!joined.get(side).copied().unwrap_or_default());
    }
    skins
}

/// The planes through the axis that run between the facets of a turned body.
fn meridians(axis: &Line, sides: u32) -> Vec<Plane> {
    let (first, second) = about(&axis.direction);
    let plane = |step: u32| {
        let (sin, cos) = (f64::from(step) / f64::from(sides) * TAU).sin_cos();
        Plane::through(&axis.point, &(second * cos - first * sin))
    };
    // With an odd count of sides the plane that runs between facets on one side cuts some on the other.
    let half = if sides.is_multiple_of(2) { sides / 2 } else { 0 };
    (0..half).filter_map(plane).collect()
}

/// Two directions square to an axis and to each other, right-handed about it.
pub fn about(axis: &Vector3<f64>) -> (Vector3<f64>, Vector3<f64>) {
    let aside = if axis.z.abs() < 0.9 { Vector3::z() } else { Vector3::x() };
    let first = (aside - axis * axis.dot(&aside)).normalize();
    (first, axis.cross(&first))
}
