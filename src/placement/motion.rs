//! How a bent tube's places move with its placement.

use crate::geometry::{Centreline, Outline};
use crate::model::Tube;
use crate::plan::{Bed, Placement, bed_turns};
use nalgebra::{Point3, Vector3};

/// What a motion between the samples may stray beyond what they show.
const SPARE: f64 = 1.5;

/// The middle line of a tube about a placement, for changes of at most `half` either way.
///
/// Roll is a turn about the chord. What front trim does at a station is sampled at both ends of its range.
pub(super) struct Motion {
    pub(super) half: Placement,
    /// The middle lines at the least and at the largest front trim; `None` where the trim stays.
    lines: Option<[Centreline; 2]>,
}

/// How one place moves: linearly, and by how much it may stray from that, mm.
pub(super) struct Moved {
    pub(super) by_trim: Vector3<f64>,
    pub(super) by_roll: Vector3<f64>,
    pub(super) rest: f64,
}

impl Motion {
    pub(super) fn new(bed: &Bed<f64>, tube: &Tube, placement: &Placement, half: &Placement) -> Self {
        let turns = bed_turns(tube);
        let line = |by: f64| bed.line(&turns, &Placement { trim: placement.trim + by, ..*placement });
        let lines = (half.trim > 0.0).then(|| [-half.trim, half.trim].map(line));
        Self { half: *half, lines }
    }

    /// How a place of the tube, at a station of its middle line, moves.
    pub(super) fn of(&self, bed: &Bed<f64>, line: &Centreline, station: f64, place: &Point3<f64>) -> Moved {
        let (by_trim, stray) = self.by_trim(line, station);
        let by_roll = bed.turning(place);
        let (trim, roll) = (self.half.trim, self.half.roll);
        let turned = by_trim.norm() * trim + stray;
        Moved { by_trim, by_roll, rest: stray + 0.5 * by_roll.norm() * roll * roll + turned * roll }
    }

    /// How the middle at a station moves by mm of front trim, and how far it strays from that.
    fn by_trim(&self, line: &Centreline, station: f64) -> (Vector3<f64>, f64) {
        let Some(lines) = &self.lines else { return (Vector3::zeros(), 0.0) };
        let [less, here, more] = [&lines[0], line, &lines[1]].map(|line| line.at(station).point);
        let bow = (less - here) + (more - here);
        ((more - less) / (2.0 * self.half.trim), SPARE * 0.5 * bow.norm())
    }

    /// By how much the points of a section may move against its middle with the front trim, mm.
    pub(super) fn of_section(&self, line: &Centreline, outline: &Outline, station: f64) -> f64 {
        let Some(lines) = &self.lines else { return 0.0 };
        let turned = |other: &Centreline| {
            let tilt = (other.at(station).tangent - line.at(station).tangent).norm();
            let twist = (other.mark(station) - line.mark(station)).norm();
            tilt * outline.widest() + twist * outline.unround()
        };
        SPARE * lines.each_ref().map(turned).into_iter().fold(0.0, f64::max)
    }

    /// How the radius at a station grows by mm of front trim, and how far the ball there may stray from that.
    pub(super) fn of_radius(&self, outline: &Outline, station: f64, lean: f64) -> (f64, f64) {
        let trim = self.half.trim;
        if trim <= 0.0 {
            return (0.0, 0.0);
        }
        let [less, here, more] = [-trim, 0.0, trim].map(|by| outline.radius(station + by));
        let kink = 0.5 * (less + more - 2.0 * here).abs();
        // Balls that touch cones of different steepness differ from the radius by different parts.
        let lean = if kink > 1e-12 { outline.widest() * (1.0 - 1.0 / lean) } else { 0.0 };
        ((more - less) / (2.0 * trim), SPARE * kink + lean)
    }

    /// Whether front trim moves the tube at a station further than roll does.
    pub(super) fn is_by_trim(&self, bed: &Bed<f64>, line: &Centreline, station: f64) -> bool {
        let (by_trim, stray) = self.by_trim(line, station);
        let by_roll = bed.turning(&line.at(station).point).norm();
        // The least that trim does elsewhere keeps both sides of a cell in proportion.
        by_trim.norm().max(0.01) * self.half.trim + stray >= by_roll * self.half.roll
    }
}

impl Moved {
    /// By how much a point that moves sideways, too, is further from another than it moves away from it.
    pub(super) fn bulge(&self, away: &Vector3<f64>, apart: f64, half: &Placement) -> f64 {
        let across = |v: &Vector3<f64>| (v - away * v.dot(away)).norm();
        let sideways = across(&self.by_trim) * half.trim + across(&self.by_roll) * half.roll + self.rest;
        let all = self.by_trim.norm() * half.trim + self.by_roll.norm() * half.roll + self.rest;
        let left = apart - all;
        if left > 0.0 { (0.5 * sideways * sideways / left).min(sideways) } else { sideways }
    }
}
