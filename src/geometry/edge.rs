//! The edge that a cylinder leaves on a body of revolution when it cuts one end off.

use super::chord::TOUCH;
use super::circle::{Node, Ring, boundary, least, table, valley, wrapped};
use super::generators::{Generators, Keep, Seen};
use super::{Cylinder, Line};
use crate::units::Real;
use nalgebra::Point3;
use std::f64::consts::TAU;

/// How much of the body's surface the cylinder meets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Meeting {
    /// Every generator.
    All,
    /// Some generators.
    Some,
    /// One point only.
    Touch,
    /// None.
    None,
}

/// A range of directions, `from` in one turn from 0, `to` after it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// Where it starts, radians.
    pub from: f64,
    /// Where it ends, radians; may pass a whole turn.
    pub to: f64,
}

/// One direction and the station of the edge there.
#[derive(Clone, Copy, Debug)]
struct Place<T> {
    node: Node,
    /// Whether it is a whole degree.
    whole: bool,
    station: Option<T>,
}

/// The edge of a cut.
pub struct Edge<'a, T: nalgebra::Scalar = f64> {
    body: Generators<'a, T>,
    seen: Seen<T>,
    places: Vec<Place<T>>,
    /// By how much the generator nearest to passing by still runs into the cylinder; negative where one passes by.
    narrowest: f64,
}

/// The edge that `cylinder` cuts on `body` at every whole degree: station, or `None` where there is no cut.
pub fn stations<T: Real>(
    body: &Generators<'_, T>,
    cylinder: &Cylinder<T>,
    keep: Keep,
) -> Vec<(Node, Option<T>)> {
    let seen = Seen::new(body, cylinder, keep);
    table().iter().map(|node| (*node, seen.crossing(*node))).collect()
}

impl<'a, T: Real> Edge<'a, T> {
    /// The edge that `cylinder` cuts on `body`.
    pub fn new(body: Generators<'a, T>, cylinder: &Cylinder<T>, keep: Keep) -> Self {
        let seen = Seen::new(&body, cylinder, keep);
        let place = |node: Node| Place { node, whole: false, station: seen.crossing(node) };
        let mut places: Vec<Place<T>> = Vec::with_capacity(table().len());
        let mut widest = f64::NEG_INFINITY;
        let clear = Ring::closed(table().iter().map(|node| {
            let (station, clearance) = seen.look(*node);
            places.push(Place { node: *node, whole: true, station });
            widest = widest.max(clearance);
            (node.phi, Some(clearance))
        }));
        let hidden = turning_points(&clear, &|phi| seen.clearance(Node::at(phi)), body.outline.widest());
        let narrowest = -hidden.iter().map(|spot| spot.1).fold(widest, f64::max);
        let odd = |spot: &&(f64, f64)| {
            let before = places.iter().rev().find(|place| place.node.phi <= spot.0);
            seen.crossing(Node::at(spot.0)).is_some() != before.is_some_and(|place| place.station.is_some())
        };
        let extra: Vec<Place<T>> = hidden.iter().filter(odd).map(|spot| place(Node::at(spot.0))).collect();
        for place in extra {
            let at = places.partition_point(|other| other.node.phi < place.node.phi);
            places.insert(at, place);
        }
        Self { body, seen, places, narrowest }
    }

    /// How much of the body is met.
    pub fn meeting(&self) -> Meeting {
        let hit = self.places.iter().filter(|place| place.station.is_some());
        let count = hit.clone().count();
        if count == self.places.len() {
            return Meeting::All;
        }
        let deepest = hit.map(|place| self.seen.clearance(place.node)).fold(f64::INFINITY, f64::min);
        match count {
            0 => Meeting::None,
            1 if deepest >= -TOUCH => Meeting::Touch,
            _ => Meeting::Some,
        }
    }

    /// By how much the generator nearest to passing by still runs into the cylinder; negative where one passes by.
    pub const fn narrowest(&self) -> f64 {
        self.narrowest
    }

    /// The ranges of directions that the cylinder passes by. Empty where it meets all; one whole turn where it meets none.
    pub fn gaps(&self) -> Vec<Gap> {
        let met = |place: &Place<T>| place.station.is_some();
        if self.places.iter().all(met) {
            return Vec::new();
        }
        if !self.places.iter().any(met) {
            return vec![Gap { from: 0.0, to: TAU }];
        }
        let holds = |phi: f64| self.seen.crossing(Node::at(phi)).is_some();
        let mut starts = Vec::new();
        let mut ends = Vec::new();
        for [_, here, after] in self.ring(|_, _| Some(0.0)).triples() {
            match (here.1, after.1) {
                (Some(_), None) => starts.push(boundary(here.0, after.0, holds)),
                (None, Some(_)) => ends.push(boundary(after.0, here.0, holds)),
                _ => {}
            }
        }
        starts.into_iter().map(|from| gap(from, &ends)).collect()
    }

    /// The edge at every whole degree: station, or `None` where there is no cut.
    pub fn degrees(&self) -> impl Iterator<Item = (Node, Option<T>)> + '_ {
        self.places.iter().filter(|place| place.whole).map(|place| (place.node, place.station))
    }

    /// Station of the edge in a direction.
    pub fn station(&self, phi: f64) -> Option<T> {
        self.seen.crossing(Node::at(phi))
    }

    /// The point of the edge in a direction.
    pub fn point(&self, phi: f64) -> Option<Point3<T>> {
        let node = Node::at(phi);
        Some(self.body.point(node, self.seen.crossing(node)?))
    }

    /// The direction where `measure` of the edge's point and its station is least. Points where it is `None` do not count.
    pub fn least(&self, measure: impl Fn(&Point3<T>, T) -> Option<f64>) -> Option<f64> {
        let at = |node: Node, station: T| measure(&self.body.point(node, station), station);
        least(&self.ring(at), |phi| {
            let node = Node::at(phi);
            at(node, self.seen.crossing(node)?)
        })
    }

    /// The edge's smallest and largest station, each with its direction.
    pub fn extreme_stations(&self) -> Option<((f64, T), (f64, T))> {
        let station = |phi: f64| self.seen.crossing(Node::at(phi));
        let ring = self.ring(|_, station| Some(station.value()));
        let low = least(&ring, |phi| Some(station(phi)?.value()))?;
        let high = least(&ring.turned_over(), |phi| Some(-station(phi)?.value()))?;
        Some(((low, station(low)?), (high, station(high)?)))
    }

    /// Smallest and largest place of the edge along `line`.
    pub fn extent(&self, line: &Line<T>) -> Option<(T, T)> {
        let along = self.along(line);
        let at = |phi: f64| {
            let node = Node::at(phi);
            Some(along(node, self.seen.crossing(node)?))
        };
        let ring = self.ring(|node, station| Some(along(node, station).value()));
        let low = least(&ring, |phi| Some(at(phi)?.value()))?;
        let high = least(&ring.turned_over(), |phi| Some(-at(phi)?.value()))?;
        Some((at(low)?, at(high)?))
    }

    /// How far along `line` the surface's points lie, by direction and station. Most of that is the same for all of them.
    fn along(&self, line: &Line<T>) -> impl Fn(Node, T) -> T + '_ {
        let Generators { axis, first, second, outline } = self.body;
        let start = (axis.point - line.point).dot(&line.direction);
        let [ahead, first, second] = [axis.direction, first, second].map(|way| way.dot(&line.direction));
        move |node, station| {
            let out = first * T::of(node.cos) + second * T::of(node.sin);
            start + ahead * station + out * outline.radius_towards(node, station)
        }
    }

    fn ring(&self, measure: impl Fn(Node, T) -> Option<f64>) -> Ring {
        let value = |place: &Place<T>| place.station.and_then(|station| measure(place.node, station));
        Ring::closed(self.places.iter().map(|place| (place.node.phi, value(place))))
    }
}

/// The gap that starts at `from` and ends at the next of `ends`.
fn gap(from: f64, ends: &[f64]) -> Gap {
    let from = wrapped(from);
    let span = ends.iter().map(|end| wrapped(end - from)).fold(TAU, f64::min);
    Gap { from, to: from + span }
}

/// Places between samples where the clearance turns back just before, or just after, it passes 0: a narrow gap or a
/// narrow contact that the samples step over. `(angle, clearance)`.
fn turning_points(ring: &Ring, clearance: &dyn Fn(f64) -> f64, radius: f64) -> Vec<(f64, f64)> {
    let mut found = Vec::new();
    for [before, here, after] in ring.triples() {
        let (Some(x), Some(y), Some(z)) = (before.1, here.1, after.1) else { continue };
        // A generator moves by no more than this between two samples.
        if y.abs() > radius * (after.0 - before.0) {
            continue;
        }
        if y <= TOUCH && y > x && y >= z {
            let phi = valley(before.0, after.0, |phi| -clearance(phi));
            found.push((wrapped(phi), clearance(phi)));
        }
        if y > TOUCH && y < x && y <= z {
            let phi = valley(before.0, after.0, clearance);
            found.push((wrapped(phi), clearance(phi)));
        }
    }
    found
}
