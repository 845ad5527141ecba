//! A stay as it is seen: its sides, and the true edges of its cuts.

use super::canvas::Canvas;
use super::sheet::{Pen, Point};
use super::view::View;
use crate::geometry::{Generators, Line, Node, Outline};
use crate::plan::{Cut, Stay, stay_outline};
use crate::trade::Tube;
use std::f64::consts::FRAC_PI_2;

/// Steps of half an edge.
const STEPS: i32 = 24;

/// One stay ready to be drawn.
pub(super) struct Drawn<'a> {
    stay: &'a Stay,
    pub(super) axis: Line,
    outline: Outline,
    view: View,
}

/// One end of a stay on the sheet: the half of its edge that is seen, and the half behind.
pub(super) struct EndEdge {
    pub(super) near: Vec<Point>,
    pub(super) far: Vec<Point>,
}

impl<'a> Drawn<'a> {
    pub(super) fn new(stay: &'a Stay, tube: &Tube, view: View) -> Self {
        let axis =
            Line { point: stay.front_point, direction: (stay.rear_point - stay.front_point).normalize() };
        Self { stay, axis, outline: stay_outline(tube), view }
    }

    fn generators(&self) -> Generators<'_> {
        let first = self.stay.clamp.w;
        Generators {
            axis: self.axis,
            first,
            second: self.axis.direction.cross(&first),
            outline: &self.outline,
        }
    }

    /// The direction round the stay that faces whoever looks.
    fn facing(&self) -> f64 {
        let (generators, viewer) = (self.generators(), self.view.viewer());
        generators.second.dot(&viewer).atan2(generators.first.dot(&viewer))
    }

    /// A place on the stay's surface, on the sheet.
    fn surface(&self, phi: f64, station: f64) -> Point {
        self.view.point(&self.generators().point(Node::at(phi), station))
    }

    /// A place on the stay's axis, on the sheet.
    pub(super) fn on_axis(&self, station: f64) -> Point {
        self.view.point(&self.axis.at(station))
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
        let facing = self.facing();
        let cut = self.cut(at_front);
        let level = self.tip(at_front);
        let half = |middle: f64| {
            let at = |i: i32| middle + FRAC_PI_2 * f64::from(i) / f64::from(STEPS);
            (-STEPS..=STEPS).map(|i| self.surface(at(i), station(cut, at(i)).unwrap_or(level))).collect()
        };
        EndEdge { near: half(facing), far: half(facing + 2.0 * FRAC_PI_2) }
    }

    /// Draws the stay: sides and near edges visible, far edges hidden, its axis.
    pub(super) fn draw(&self, canvas: &mut Canvas, topic: &str) {
        let (front, rear) = (self.edge(true), self.edge(false));
        canvas.path(Pen::Hidden, topic, front.far, false);
        canvas.path(Pen::Hidden, topic, rear.far, false);
        let mut outline = front.near;
        outline.extend(self.side(FRAC_PI_2));
        outline.extend(rear.near.into_iter().rev());
        outline.extend(self.side(-FRAC_PI_2).into_iter().rev());
        canvas.path(Pen::Visible, topic, outline, true);
        let over = 12.0;
        canvas.line(
            Pen::Axis,
            topic,
            self.on_axis(self.tip(true) - over),
            self.on_axis(self.tip(false) + over),
        );
    }

    /// The knots of the taper along one side, front to rear.
    fn side(&self, turn: f64) -> Vec<Point> {
        let (front, rear) = (self.tip(true), self.tip(false));
        let inside = self.outline.knots().filter(|knot| front < *knot && *knot < rear);
        inside.map(|knot| self.surface(self.facing() + turn, knot)).collect()
    }

    /// What is cut off the raw tube, drawn thin.
    pub(super) fn draw_waste(&self, canvas: &mut Canvas) {
        let ends = [(self.stay.front_waste, true), (self.stay.rear_waste, false)];
        for (waste, at_front) in ends {
            let Some(waste) = waste.map(|waste| waste.mm()).filter(|waste| *waste > 0.5) else { continue };
            let tip = self.tip(at_front);
            let end = if at_front { tip - waste } else { tip + waste };
            let facing = self.facing();
            let corners = [(FRAC_PI_2, tip), (FRAC_PI_2, end), (-FRAC_PI_2, end), (-FRAC_PI_2, tip)];
            let points = corners.map(|(turn, station)| self.surface(facing + turn, station));
            canvas.path(Pen::Thin, "", points.to_vec(), false);
        }
    }

    /// The corners that a drawing of this stay must have room for.
    pub(super) fn corners(&self) -> Vec<Point> {
        let facing = self.facing();
        let stations = [self.tip(true), self.tip(false)];
        let turns = [FRAC_PI_2, -FRAC_PI_2];
        stations.into_iter().flat_map(|s| turns.map(|turn| self.surface(facing + turn, s))).collect()
    }
}

/// Station of a cut's outer edge in a direction, between its whole degrees; `None` where there is no cut.
pub(super) fn station(cut: &Cut, phi: f64) -> Option<f64> {
    let Some(round) = cut.round() else { return cut.long_point().map(|s| s.mm()) };
    let degrees = phi.to_degrees().rem_euclid(360.0);
    let at = |degree: f64| {
        let degree = degree.rem_euclid(360.0);
        let found = round.outer.binary_search_by(|point| point.phi.degrees().total_cmp(&degree)).ok()?;
        round.outer.get(found).map(|point| point.s.mm())
    };
    let (low, share) = (degrees.floor(), degrees.fract());
    match (at(low), at(low + 1.0)) {
        (Some(a), Some(b)) => Some(a + (b - a) * share),
        (one, other) => one.or(other),
    }
}
