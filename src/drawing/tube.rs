//! A stay as it is seen: its sides, its bends, and the true edges of its cuts.

use super::canvas::Canvas;
use super::frame_part::FramePart;
use super::material::Material;
use super::sheet::{Pen, Point};
use super::solid::Look;
use super::view::View;
use crate::geometry::{Centreline, Frame, Generators, Line, Node, Outline};
use crate::model::{Hand, Tube};
use crate::plan::{BendPlace, Cut, ProfilePoint, Stay, stay_line, stay_surface};
use crate::units::ranked;
use nalgebra::Vector3;
use std::borrow::Cow;
use std::f64::consts::{FRAC_PI_2, TAU};

/// Steps of half an edge.
const STEPS: i32 = 24;

/// How far a chord may lie off its arc, as a share of the lettering's height: 0.05 mm on a sheet lettered 4.2 mm high.
const FINE: f64 = 0.0118;

/// The same where a drawing's room is measured out, mm.
const COARSE: f64 = 0.5;

/// Chords of one arc, at most.
const MOST_CHORDS: f64 = 90.0;

/// One stay ready to be drawn.
pub(super) struct Drawn<'a> {
    stay: &'a Stay,
    line: Cow<'a, Centreline>,
    /// Its ovals count from the line's mark.
    outline: Outline,
    front: EndTube,
    rear: EndTube,
    view: View,
}

/// The straight tube that an end of a stay is part of; its directions count as those of the end's cut.
pub(super) struct EndTube {
    axis: Line,
    first: Vector3<f64>,
    pub(super) outline: Outline,
}

/// One end of a stay on the sheet: the half of its edge that is seen, and the half behind.
pub(super) struct EndEdge {
    pub(super) near: Vec<Point>,
    pub(super) far: Vec<Point>,
}

impl EndTube {
    pub(super) fn new(stay: &Stay, line: &Centreline, surface: &Outline, at_front: bool) -> Self {
        let bent = stay.bent.is_some();
        let reference = if at_front || !bent { 0.0 } else { stay.length.mm() };
        let axis = line.tangent(reference);
        let first = if bent { upwards(stay, &axis.direction) } else { stay.clamp.w };
        let mut end = Self { axis, first, outline: surface.clone() };
        if surface.is_oval() {
            let mark = line.mark(reference);
            let turn = mark.dot(&end.second()).atan2(mark.dot(&first));
            end.outline = surface.counted(stay.hand.sign(), turn);
        }
        end
    }

    fn second(&self) -> Vector3<f64> {
        self.axis.direction.cross(&self.first)
    }

    fn generators(&self) -> Generators<'_> {
        Generators { axis: self.axis, first: self.first, second: self.second(), outline: &self.outline }
    }

    /// The direction round the tube that faces whoever looks.
    fn facing(&self, viewer: &Vector3<f64>) -> f64 {
        self.second().dot(viewer).atan2(self.first.dot(viewer))
    }

    /// How much further round than `phi` the surface reaches furthest in that direction: not at all where it is round.
    fn lead(&self, phi: f64, station: f64) -> f64 {
        let ((a, b), turn) = self.outline.section(station);
        if a == b {
            return 0.0;
        }
        let (sin, cos) = (phi - turn).sin_cos();
        let lead = (b * b * sin).atan2(a * a * cos) + turn - phi;
        lead - TAU * (lead / TAU).round()
    }
}

/// The part of `w` square to a stay's end; of `−u` where the end runs along `w`.
fn upwards(stay: &Stay, along: &Vector3<f64>) -> Vector3<f64> {
    let part = |v: Vector3<f64>| v - along * v.dot(along);
    let up = part(stay.clamp.w);
    if up.norm_squared() > 1e-12 { up.normalize() } else { part(-stay.clamp.u).normalize() }
}

impl<'a> Drawn<'a> {
    pub(super) fn new(stay: &'a Stay, tube: &Tube, view: View) -> Self {
        let (line, outline) = (stay_line(stay), stay_surface(stay, tube));
        let [front, rear] = [true, false].map(|at_front| EndTube::new(stay, &line, &outline, at_front));
        Self { stay, line, outline, front, rear, view }
    }

    const fn end(&self, at_front: bool) -> &EndTube {
        if at_front { &self.front } else { &self.rear }
    }

    /// A place on the stay's middle line, on the sheet.
    pub(super) fn on_axis(&self, station: f64) -> Point {
        self.view.point(&self.line.at(station).point)
    }

    /// Where the tube ends at a cut; at its reference point where there is no cut.
    pub(super) fn tip(&self, at_front: bool) -> f64 {
        let reference = if at_front { 0.0 } else { self.stay.length.mm() };
        self.cut(at_front).long_point().map_or(reference, |tip| tip.mm())
    }

    const fn cut(&self, at_front: bool) -> &Cut {
        if at_front { &self.stay.front } else { &self.stay.rear }
    }

    /// The edge of a cut.
    pub(super) fn edge(&self, at_front: bool) -> EndEdge {
        let end = self.end(at_front);
        let (generators, facing) = (end.generators(), end.facing(&self.view.viewer()));
        let (cut, level) = (self.cut(at_front), self.tip(at_front));
        let half = |middle: f64| {
            let quarters = [-1.0, 1.0].map(|way| {
                let lead = end.lead(middle + way * FRAC_PI_2, level);
                FRAC_PI_2 + way * lead
            });
            let at = |i: i32| {
                let quarter = if i < 0 { quarters[0] } else { quarters[1] };
                middle + quarter * f64::from(i) / f64::from(STEPS)
            };
            let point = |phi: f64| {
                let station = station(cut, phi).unwrap_or(level);
                self.view.point(&generators.point(Node::at(phi), station))
            };
            (-STEPS..=STEPS).map(|i| point(at(i))).collect()
        };
        EndEdge { near: half(facing), far: half(facing + 2.0 * FRAC_PI_2) }
    }

    /// Draws the stay: the faces of its ends, over them its outside, its axis; on a bent one its bends are marked. What of a
    /// far edge lies behind the outside is covered by it, what is seen through an end stays.
    pub(super) fn draw(&self, canvas: &mut Canvas, part: FramePart, topic: &str) {
        let (front, rear) = (self.edge(true), self.edge(false));
        for EndEdge { near, far } in [&front, &rear] {
            let face = near.iter().chain(far).copied().collect();
            canvas.solid(Look::new(part, Material::Bore, topic), face);
        }
        let inner = self.stations(self.tip(true), self.tip(false), FINE * canvas.letter);
        let mut outline = front.near;
        outline.extend(self.side(&inner, 1.0));
        outline.extend(rear.near.into_iter().rev());
        outline.extend(self.side(&inner, -1.0).into_iter().rev());
        canvas.solid(Look::new(part, Material::Tube, topic), outline);
        let over = 12.0;
        let axis = self.middle(self.tip(true) - over, self.tip(false) + over, canvas.letter);
        canvas.chain(Pen::Axis, topic, axis.into_iter().map(|(_, place)| place).collect());
        self.draw_bends(canvas, topic);
    }

    /// Ticks where bends begin and end, and a ring at the apex of each.
    fn draw_bends(&self, canvas: &mut Canvas, topic: &str) {
        let over = 0.35 * canvas.letter;
        for bend in self.bends() {
            for station in [bend.from.mm(), bend.to.mm()] {
                let [a, b] = [1.0, -1.0].map(|way| self.beside(station, way, over));
                canvas.line(Pen::Thin, topic, a, b);
            }
            canvas.circle(Pen::Thin, topic, self.on_axis(bend.apex.mm()), 0.25 * canvas.letter);
        }
    }

    /// The bends that lie on what the cuts leave.
    pub(super) fn bends(&self) -> impl Iterator<Item = &BendPlace> {
        let (front, rear) = (self.tip(true), self.tip(false));
        let bends = self.stay.bent.iter().flat_map(|bent| &bent.bends);
        bends.filter(move |bend| front < bend.apex.mm() && bend.apex.mm() < rear)
    }

    /// The middle line between two stations, in chords that lie near enough for that lettering: stations and places.
    pub(super) fn middle(&self, from: f64, to: f64, letter: f64) -> Vec<(f64, Point)> {
        let bent = self.stay.bent.is_some();
        let turns = if bent { self.stations(from, to, FINE * letter) } else { Vec::new() };
        let all = [from].into_iter().chain(turns).chain([to]);
        all.map(|station| (station, self.on_axis(station))).collect()
    }

    /// The middle line from reference point to reference point: places, and how much of the line lies before each.
    pub(super) fn between_points(&self, letter: f64) -> Vec<(f64, Point)> {
        let end = self.stay.length.mm();
        let turns =
            self.middle(0.0, end, letter).into_iter().filter(|(station, _)| 0.0 < *station && *station < end);
        let turns = turns.map(|(station, place)| (station / end, place));
        let ends = [&self.stay.front_point, &self.stay.rear_point].map(|point| self.view.point(point));
        [(0.0, ends[0])].into_iter().chain(turns).chain([(1.0, ends[1])]).collect()
    }

    /// Half the width of the tube as it is seen at `station`.
    pub(super) fn half_width(&self, station: f64) -> f64 {
        0.5 * self.beside(station, 1.0, 0.0).distance(self.beside(station, -1.0, 0.0))
    }

    pub(super) const fn hand(&self) -> Hand {
        self.stay.hand
    }

    /// Between two stations: the knots of the outline, and as many places of each arc as keep its chords within `fine`.
    fn stations(&self, from: f64, to: f64, fine: f64) -> Vec<f64> {
        let mut found: Vec<f64> = self.outline.knots().collect();
        for arc in self.line.arcs() {
            let Some(radius) = arc.radius else { continue };
            let chord = (8.0 * fine / (radius + self.outline.radius(arc.from))).sqrt();
            let count = ((arc.to - arc.from) / radius / chord).ceil().min(MOST_CHORDS);
            let step = (arc.to - arc.from) / count;
            found.extend((0..=count as u32).map(|i| arc.from + step * f64::from(i)));
        }
        found.retain(|station| from < *station && *station < to);
        ranked(found, |a, b| a <= b)
    }

    /// One side at those stations.
    fn side(&self, stations: &[f64], way: f64) -> Vec<Point> {
        stations.iter().map(|station| self.beside(*station, way, 0.0)).collect()
    }

    /// The place beside the middle line at `station` that lies `over` off the tube as it is seen.
    pub(super) fn beside(&self, station: f64, way: f64, over: f64) -> Point {
        if self.stay.bent.is_none() && !self.outline.is_oval() {
            let phi = self.front.facing(&self.view.viewer()) + way * FRAC_PI_2;
            let out = self.front.generators().normal(Node::at(phi));
            return self
                .view
                .point(&(self.front.axis.at(station) + out * (self.outline.radius(station) + over)));
        }
        let Frame { point, tangent, normal, .. } = self.line.at(station);
        let across = tangent.cross(&self.view.viewer());
        // Seen along itself the tube has no side.
        let across = if across.norm() > 1e-9 { across.normalize() } else { normal };
        self.view.point(&(point + across * (way * (self.reach(station, &tangent, &across) + over))))
    }

    /// How far the tube reaches at `station` in a direction square to its middle line.
    fn reach(&self, station: f64, tangent: &Vector3<f64>, across: &Vector3<f64>) -> f64 {
        if !self.outline.is_oval() {
            return self.outline.radius(station);
        }
        let mark = self.line.mark(station);
        let up = tangent.cross(&mark) * self.stay.hand.sign();
        self.outline.seen((across.dot(&mark), across.dot(&up))).radius(station)
    }

    /// What is cut off the raw tube, drawn thin.
    pub(super) fn draw_waste(&self, canvas: &mut Canvas) {
        let ends = [(self.stay.front_waste, true), (self.stay.rear_waste, false)];
        for (waste, at_front) in ends {
            let Some(waste) = waste.map(|waste| waste.mm()).filter(|waste| *waste > 0.5) else { continue };
            let tip = self.tip(at_front);
            let end = if at_front { tip - waste } else { tip + waste };
            let mut stations = vec![tip];
            if self.stay.bent.is_some() {
                stations.extend(self.stations(tip.min(end), tip.max(end), FINE * canvas.letter));
                stations = ranked(stations, |a, b| (a - tip).abs() <= (b - tip).abs());
            }
            stations.push(end);
            let mut points = self.side(&stations, 1.0);
            points.extend(self.side(&stations, -1.0).into_iter().rev());
            canvas.path(Pen::Thin, "", points, false);
        }
    }

    /// The corners that a drawing of this stay must have room for.
    pub(super) fn corners(&self) -> Vec<Point> {
        let (front, rear) = (self.tip(true), self.tip(false));
        let mut stations = vec![front, rear];
        if self.stay.bent.is_some() {
            stations.extend(self.stations(front, rear, COARSE));
        }
        stations.into_iter().flat_map(|s| [1.0, -1.0].map(|way| self.beside(s, way, 0.0))).collect()
    }
}

/// Station of a cut's outer edge in a direction, between its whole degrees; `None` where there is no cut.
pub(super) fn station(cut: &Cut, phi: f64) -> Option<f64> {
    let Some(round) = cut.round() else { return cut.long_point().map(|s| s.mm()) };
    station_on(&round.outer, phi)
}

/// Station of a profile in a direction, between its whole degrees; `None` where it has none.
pub(super) fn station_on(profile: &[ProfilePoint], phi: f64) -> Option<f64> {
    let degrees = phi.to_degrees().rem_euclid(360.0);
    let at = |degree: f64| {
        let degree = degree.rem_euclid(360.0);
        let found = profile.binary_search_by(|point| point.phi.degrees().total_cmp(&degree)).ok()?;
        profile.get(found).map(|point| point.s.mm())
    };
    let (low, share) = (degrees.floor(), degrees.fract());
    match (at(low), at(low + 1.0)) {
        (Some(a), Some(b)) => Some(a + (b - a) * share),
        (one, other) => one.or(other),
    }
}
