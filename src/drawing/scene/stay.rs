//! A stay as a solid: its taper, bends and ovals, and its ends cut as the plan says, outside and in the bore.

use super::loft::Loft;
use super::solid::Solid;
use crate::drawing::tube::{station, station_on};
use crate::geometry::{Generators, Node, Outline};
use crate::model::{Hand, PairName};
use crate::plan::{Cut, CutAt, Plan, StayPose, stay_pose};
use crate::units::{Length, ranked};
use nalgebra::{Point3, Vector3};
use std::f64::consts::TAU;

/// Facets round a stay.
pub(super) const SIDES: u32 = 24;

/// How far a chord may lie off the middle line of a bend, mm.
const FINE: f64 = 0.12;

/// Chords of one bend, at most.
const MOST_CHORDS: f64 = 24.0;

/// How far into the bore it is shown, in diameters. It ends in a wall that no hole lets see from the side.
const BORE_SHOWN: f64 = 1.5;

/// No bore is drawn thinner than this, mm.
const THIN: f64 = 0.1;

/// Rings keep this distance, mm, so that no facet is without area.
const APART: f64 = 0.05;

/// Skins: the bore, the cut face, the outside, and the same at the rear end.
const SKINS: [u32; 5] = [0, 1, 2, 3, 4];

/// The finished stay; `None` where the cuts of its two ends leave nothing between them.
pub(super) fn stay_solid(plan: &Plan, pair: PairName, hand: Hand) -> Option<Solid> {
    let end = |at_front| StayEnd::new(plan, CutAt { pair, hand, at_front });
    let (front, rear) = (end(true), end(false));
    let (from, to) = (front.inmost(), rear.inmost());
    if to - from < 2.0 * APART {
        return None;
    }
    let [bore, face, outside, rear_face, rear_bore] = SKINS;
    let shown = |end: &StayEnd| end.shown().min(0.4 * (to - from));
    let mut loft = Loft::default()
        .ring(bore, front.bore_at(from + shown(&front)))
        .ring(bore, front.bore_edge())
        .ring(face, front.edge());
    for station in front.stations((from + APART, to - APART)) {
        loft = loft.ring(outside, front.section(station));
    }
    let loft = loft
        .ring(outside, rear.edge())
        .ring(rear_face, rear.bore_edge())
        .ring(rear_bore, rear.bore_at(to - shown(&rear)));
    Some(loft.capped())
}

/// One end of a stay.
struct StayEnd<'a> {
    cut: &'a Cut,
    pose: StayPose,
    /// Where its tube ends if no cut says so.
    level: f64,
    at_front: bool,
    sign: f64,
}

impl<'a> StayEnd<'a> {
    fn new(plan: &'a Plan, at: CutAt) -> Self {
        let stay = at.stay(plan);
        let cut = if at.at_front { &stay.front } else { &stay.rear };
        let reference = if at.at_front { 0.0 } else { stay.length.mm() };
        let level = cut.long_point().map_or(reference, Length::mm);
        Self { cut, pose: stay_pose(plan, at), level, at_front: at.at_front, sign: at.hand.sign() }
    }

    /// The station at which the whole section is left.
    fn inmost(&self) -> f64 {
        let stations = |phi| [self.outer_station(phi), self.bore_station(phi)];
        let inner = |a: f64, b: f64| if self.at_front { a.max(b) } else { a.min(b) };
        self.directions().into_iter().flat_map(stations).fold(self.level, inner)
    }

    /// How much of the bore is shown.
    fn shown(&self) -> f64 {
        2.0 * BORE_SHOWN * self.pose.outline.radius(self.level)
    }

    /// The directions round the end, as its cut counts them, of the stay's generators: these go by the tube's own mark, which a bent
    /// tube carries from end to end.
    fn directions(&self) -> Vec<f64> {
        let axis = self.pose.axis.direction;
        let second = axis.cross(&self.pose.first);
        let around = |out: Vector3<f64>| out.dot(&second).atan2(out.dot(&self.pose.first)).rem_euclid(TAU);
        let mark = self.pose.line.mark(self.pose.seen_from);
        steps().map(|step| around(outwards(&axis, &mark, step))).collect()
    }

    fn outer_station(&self, phi: f64) -> f64 {
        station(self.cut, phi).unwrap_or(self.level)
    }

    fn bore_station(&self, phi: f64) -> f64 {
        let found = self.cut.round().and_then(|round| station_on(&round.bore, phi));
        found.unwrap_or_else(|| self.outer_station(phi))
    }

    fn generators<'b>(&self, outline: &'b Outline) -> Generators<'b> {
        let second = self.pose.axis.direction.cross(&self.pose.first);
        Generators { axis: self.pose.axis, first: self.pose.first, second, outline }
    }

    /// The outer edge of the cut.
    fn edge(&self) -> Vec<Point3<f64>> {
        let generators = self.generators(&self.pose.outline);
        let point = |phi: f64| generators.point(Node::at(phi), self.outer_station(phi));
        self.directions().into_iter().map(point).collect()
    }

    /// The edge of the bore.
    fn bore_edge(&self) -> Vec<Point3<f64>> {
        self.directions().into_iter().map(|phi| self.bore_point(phi, self.bore_station(phi))).collect()
    }

    /// The bore square to the end's axis at a station.
    fn bore_at(&self, station: f64) -> Vec<Point3<f64>> {
        self.directions().into_iter().map(|phi| self.bore_point(phi, station)).collect()
    }

    fn bore_point(&self, phi: f64, station: f64) -> Point3<f64> {
        let node = Node::at(phi);
        let radius = self.pose.bore.radius_towards(node, station).max(THIN);
        self.pose.axis.at(station) + self.generators(&self.pose.bore).normal(node) * radius
    }

    /// The outside square to the middle line at a station.
    fn section(&self, station: f64) -> Vec<Point3<f64>> {
        let here = self.pose.line.at(station);
        let mark = self.pose.line.mark(station);
        let up = here.tangent.cross(&mark) * self.sign;
        let point = |step: f64| {
            let out = outwards(&here.tangent, &mark, step);
            let node = Node::at(out.dot(&up).atan2(out.dot(&mark)));
            here.point + out * self.pose.surface.radius_towards(node, station)
        };
        steps().map(point).collect()
    }

    /// The stations between the two where the outside turns: ends of its pieces, and bends in chords.
    fn stations(&self, (from, to): (f64, f64)) -> Vec<f64> {
        let mut found: Vec<f64> = self.pose.surface.knots().collect();
        for arc in self.pose.line.arcs() {
            let Some(radius) = arc.radius else { continue };
            let chord = (8.0 * FINE / radius).sqrt();
            let count = 1.0 + ((arc.to - arc.from) / radius / chord).floor().min(MOST_CHORDS);
            let step = (arc.to - arc.from) / count;
            found.extend((0..=count as u32).map(|i| arc.from + step * f64::from(i)));
        }
        found.retain(|station| from < *station && *station < to);
        let mut found = ranked(found, |a, b| a <= b);
        found.dedup_by(|a, b| *a - *b < APART);
        found
    }
}

/// The generators of a stay, as angles from its mark.
fn steps() -> impl Iterator<Item = f64> {
    (0..SIDES).map(|step| f64::from(step) / f64::from(SIDES) * TAU)
}

/// The direction at an angle from a mark, by the right hand about an axis.
fn outwards(axis: &Vector3<f64>, mark: &Vector3<f64>, angle: f64) -> Vector3<f64> {
    mark * angle.cos() + axis.cross(mark) * angle.sin()
}
