//! The parts of the rear triangle as they are seen from the drive side, painted from the far side to the near one.

use super::canvas::Canvas;
use super::dropouts::{axle_from_side, boss_from_side, strap_from_side};
use super::frame_part::FramePart;
use super::material::Material;
use super::neighbours::Beside;
use super::sheet::{Pen, Point, Shape};
use super::solid::Look;
use super::tube::Drawn;
use super::view::View;
use crate::clearance::Obstacle;
use crate::model::{Hand, PairName};
use crate::plan::Plan;
use nalgebra::Point3;

/// Beyond the seat stays' place the seat tube goes on by this much, mm.
const TUBE_OVER: f64 = 50.0;

/// How deep the rim is drawn inside the bead seat, mm. No figure of the job.
const RIM: f64 = 14.0;

/// The plan as it is seen, and what stands beside it.
pub(super) struct SideParts<'a> {
    pub(super) plan: &'a Plan,
    pub(super) view: View,
    pub(super) beside: &'a [Beside],
}

impl SideParts<'_> {
    /// Everything, the far side first.
    pub(super) fn draw(&self, canvas: &mut Canvas) {
        self.neighbours(canvas, |to| matches!(to, Obstacle::Rotor | Obstacle::Caliper));
        self.wheel(canvas);
        self.seat_tube(canvas);
        let left = PairName::ALL.into_iter().filter(|name| self.plan.job.pair(*name).left.is_some());
        left.for_each(|name| self.stay(canvas, name, Hand::Left));
        PairName::ALL.into_iter().for_each(|name| self.strap(canvas, name));
        PairName::ALL.into_iter().for_each(|name| self.stay(canvas, name, Hand::Right));
        for name in PairName::ALL {
            boss_from_side(canvas, &self.plan.pair(name).right, self.view);
        }
        self.shell(canvas);
        axle_from_side(canvas, self.axle());
        self.neighbours(canvas, |to| matches!(to, Obstacle::Chain | Obstacle::Chainring(_)));
        self.neighbours(canvas, |to| matches!(to, Obstacle::Crank | Obstacle::Heel));
    }

    fn neighbours(&self, canvas: &mut Canvas, which: impl Fn(Obstacle) -> bool) {
        for beside in self.beside.iter().filter(|beside| which(beside.to)) {
            beside.paint(canvas, PairName::Chainstays);
        }
    }

    fn axle(&self) -> Point {
        self.view.point(&self.plan.axle)
    }

    /// Tyre and rim.
    fn wheel(&self, canvas: &mut Canvas) {
        let seat = 0.5 * self.plan.job.wheel.bead_seat.mm();
        let tyre = Look::new(FramePart::Tire, Material::Rubber, "wheel.tyre_height_mm");
        canvas.band(tyre, self.axle(), tyre_radius(self.plan), seat);
        let rim = Look::new(FramePart::Tire, Material::Rim, "wheel.bead_seat_mm");
        canvas.band(rim, self.axle(), seat, seat - RIM);
    }

    fn seat_tube(&self, canvas: &mut Canvas) {
        let frame = &self.plan.job.frame;
        let half = 0.5 * frame.seat_tube_od.mm();
        let e = self.view.direction(&self.plan.seat_tube_direction);
        let at = |station: f64, side: f64| {
            on_seat_tube(self.plan, self.view, station).plus(-e.y * half * side, e.x * half * side)
        };
        let top = tube_top(self.plan);
        let sides = [-1.0, 1.0].map(|side| [at(0.0, side), at(top, side)]);
        let look = Look::new(FramePart::SeatTube, Material::Tube, "frame.seat_tube_od_mm");
        let [[a, b], [d, c]] = sides;
        canvas.filled(look, Shape::Path { points: vec![a, b, c, d], closed: true });
        for [a, b] in sides {
            canvas.outline(look, Shape::Line { a, b });
        }
        canvas.line(Pen::Axis, "frame.seat_angle_deg", at(-30.0, 0.0), at(top + 15.0, 0.0));
    }

    fn strap(&self, canvas: &mut Canvas, name: PairName) {
        let stay = &self.plan.pair(name).right;
        let drawn = Drawn::new(stay, &self.plan.job.pair(name).side(Hand::Right).tube, self.view);
        strap_from_side(canvas, stay, &drawn, self.axle(), self.view);
    }

    fn stay(&self, canvas: &mut Canvas, name: PairName, hand: Hand) {
        let tube = &self.plan.job.pair(name).side(hand).tube;
        let drawn = Drawn::new(self.plan.pair(name).stay(hand), tube, self.view);
        drawn.draw(canvas, FramePart::of_pair(name), name.key());
    }

    fn shell(&self, canvas: &mut Canvas) {
        let origin = self.view.point(&Point3::origin());
        let radius = 0.5 * self.plan.job.frame.shell_od.mm();
        canvas.disc(Look::new(FramePart::Shell, Material::Shell, "frame.shell_od_mm"), origin, radius);
        canvas.cross("", origin, radius + 8.0);
    }
}

/// From the axle to the tread, mm.
pub(super) fn tyre_radius(plan: &Plan) -> f64 {
    0.5 * plan.job.wheel.bead_seat.mm() + plan.job.wheel.tyre_height.mm()
}

/// Station on the seat tube to which it is drawn, mm.
pub(super) fn tube_top(plan: &Plan) -> f64 {
    plan.job.seatstay_node.front_station.mm() + TUBE_OVER
}

/// A place on the seat tube's axis.
pub(super) fn on_seat_tube(plan: &Plan, view: View, station: f64) -> Point {
    view.point(&(plan.seat_tube_foot + plan.seat_tube_direction * station))
}
