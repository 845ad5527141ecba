//! A solid from rings of points: each ring is joined to the next by a band of facets.

use super::solid::{Facet, Plane, Solid};
use nalgebra::Point3;

/// How far the corners of a facet may lie off its plane, mm. A quadrangle further off becomes two triangles.
const FLAT: f64 = 1e-7;

/// The rings of a solid, and the skins between them.
///
/// All rings have the same count of points, counted by the right hand about the way the outer surface runs. A tube with a bore is one
/// run of rings too: from the bore's bottom out to its mouth, over the rim, along the outside and back in.
#[derive(Clone, Debug, Default)]
pub struct Loft {
    rings: Vec<Vec<Point3<f64>>>,
    /// The skin of the band that ends at each ring.
    skins: Vec<u32>,
}

impl Loft {
    /// A further ring; the band that leads to it has that skin.
    #[must_use]
    pub fn ring(mut self, skin: u32, points: Vec<Point3<f64>>) -> Self {
        self.rings.push(points);
        self.skins.push(skin);
        self
    }

    /// The solid whose first and last rings, which are flat, are closed by caps.
    pub fn capped(self) -> Solid {
        let count = self.width();
        let mut solid = self.joined();
        let caps = self.skins.iter().max().map_or(0, |most| most + 1);
        let last = (self.rings.len().saturating_sub(1) * count) as u32;
        let ring = |from: u32| from..from + count as u32;
        solid.facets.push(Facet { corners: ring(0).rev().collect(), skin: caps });
        solid.facets.push(Facet { corners: ring(last).collect(), skin: caps + 1 });
        solid.seams = self.flat_rings();
        solid
    }

    /// The solid whose last ring is joined to its first, by a band with the first ring's skin.
    pub fn closed(self) -> Solid {
        let mut solid = self.joined();
        let skin = self.skins.first().copied().unwrap_or_default();
        let last = self.rings.len().saturating_sub(1);
        band(&mut solid, (last, 0), self.width(), skin);
        solid
    }

    fn width(&self) -> usize {
        self.rings.iter().map(Vec::len).min().unwrap_or_default()
    }

    fn joined(&self) -> Solid {
        let count = self.width();
        let points = self.rings.iter().flat_map(|ring| ring.iter().take(count)).copied().collect();
        let mut solid = Solid { points, ..Solid::default() };
        for (ring, skin) in self.skins.iter().enumerate().skip(1) {
            band(&mut solid, (ring - 1, ring), count, *skin);
        }
        solid
    }

    /// The planes of the rings that are flat.
    fn flat_rings(&self) -> Vec<Plane> {
        let flat = |ring: &Vec<Point3<f64>>| {
            let plane = Plane::of(ring)?;
            ring.iter().all(|point| plane.height(point).abs() < FLAT).then_some(plane)
        };
        self.rings.iter().filter_map(flat).collect()
    }
}

/// The band between two rings of `count` points each.
fn band(solid: &mut Solid, (from, to): (usize, usize), count: usize, skin: u32) {
    for step in 0..count {
        let next = (step + 1) % count;
        let at = |ring: usize, step: usize| (ring * count + step) as u32;
        let corners = [at(from, step), at(from, next), at(to, next), at(to, step)];
        quadrangle(solid, corners, skin);
    }
}

/// A quadrangle, or two triangles where its corners do not lie in one plane.
fn quadrangle(solid: &mut Solid, corners: [u32; 4], skin: u32) {
    let whole = Facet { corners: corners.to_vec(), skin };
    let points = solid.corners(&whole);
    let flat = Plane::of(&points).is_some_and(|plane| points.iter().all(|p| plane.height(p).abs() < FLAT));
    if flat {
        solid.facets.push(whole);
        return;
    }
    let [a, b, c, d] = corners;
    solid.facets.extend([[a, b, c], [a, c, d]].map(|corners| Facet { corners: corners.to_vec(), skin }));
}
