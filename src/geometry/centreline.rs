//! A line in space made of straight stretches and circular arcs that run into each other without a corner.

use super::Line;
use crate::units::Real;
use nalgebra::{Point3, Vector3};
use std::f64::consts::TAU;

/// One turn of a centreline, as a bender's table of length, rotation and angle counts it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turn<T = f64> {
    /// Straight length before it.
    pub before: T,
    /// Rotation of its plane about the line, from the plane of the turn before.
    pub rotation: T,
    /// How far it turns, 0 or more.
    pub angle: T,
    /// Radius of the centreline in it.
    pub radius: T,
}

/// A place on a centreline with its directions. The three have length 1 and are square to each other; a mirrored
/// centreline has a left-handed set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame<T: nalgebra::Scalar = f64> {
    /// The place.
    pub point: Point3<T>,
    /// The way stations count.
    pub tangent: Vector3<T>,
    /// Towards the middle of a turn with rotation 0.
    pub normal: Vector3<T>,
    /// Towards the middle of a turn with rotation of a quarter.
    pub side: Vector3<T>,
}

impl<T: Real> Frame<T> {
    /// At the origin, along x, turning towards y.
    pub fn origin() -> Self {
        let (tangent, normal, side) = (Vector3::x(), Vector3::y(), Vector3::z());
        Self { point: Point3::origin(), tangent, normal, side }
    }

    fn rotated(&self, rotation: T) -> Self {
        let (sin, cos) = rotation.sin_cos();
        let normal = self.normal * cos + self.side * sin;
        Self { normal, side: self.side * cos - self.normal * sin, ..*self }
    }

    fn advanced(&self, by: T) -> Self {
        Self { point: self.point + self.tangent * by, ..*self }
    }

    /// The frame after a turn by `angle` on `radius`.
    fn turned(&self, angle: T, radius: T) -> Self {
        let (sin, cos) = angle.sin_cos();
        // 1 − cos, without what small angles lose.
        let half = (angle * T::of(0.5)).sin();
        let rise = half * half * T::of(2.0);
        Self {
            point: self.point + self.tangent * (radius * sin) + self.normal * (radius * rise),
            tangent: self.tangent * cos + self.normal * sin,
            normal: self.normal * cos - self.tangent * sin,
            side: self.side,
        }
    }
}

/// A straight or circular stretch. The first of a centreline starts at −∞, the last ends at +∞; both are straight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch<T: nalgebra::Scalar = f64> {
    /// Station where it starts.
    pub from: T,
    /// Station where it ends.
    pub to: T,
    /// Radius of an arc; `None` where it is straight.
    pub radius: Option<T>,
    /// By how much `frame` has been rotated about the line since the start.
    rotated: T,
    /// Station of `frame`.
    origin: T,
    frame: Frame<T>,
}

impl<T: Real> Stretch<T> {
    /// The place at `station`, which may lie beyond the stretch's ends.
    pub fn at(&self, station: T) -> Frame<T> {
        let along = station - self.origin;
        match self.radius {
            None => self.frame.advanced(along),
            Some(radius) => self.frame.turned(along / radius, radius),
        }
    }

    /// The place at `station` with its directions turned back to the line's mark: see [`Centreline::mark`].
    pub(super) fn marked(&self, station: T) -> Frame<T> {
        self.at(station).rotated(-self.rotated)
    }

    /// The straight line that touches the stretch at `station` and shares its stations there.
    pub fn tangent(&self, station: T) -> Line<T> {
        let here = self.at(station);
        Line { point: here.point - here.tangent * station, direction: here.tangent }
    }

    /// How strongly it turns, 1/radius.
    pub fn curvature(&self) -> f64 {
        self.radius.map_or(0.0, |radius| 1.0 / radius.value())
    }

    fn holds(&self, station: f64) -> bool {
        station <= self.to.value()
    }

    /// First station from `start` on, `start` lying within, that is `reach` away from `point`. `None` where the stretch
    /// ends before. At `start` the distance is below `reach`.
    fn leaves(&self, start: T, point: &Point3<T>, reach: T) -> Option<T> {
        let here = self.at(start);
        let apart = here.point - point;
        let square = apart.norm_squared();
        if square.value() >= (reach * reach).value() {
            return Some(start);
        }
        let step = match self.radius {
            None => {
                let along = apart.dot(&here.tangent);
                (along * along + reach * reach - square).sqrt() - along
            }
            Some(radius) => radius * arc_leaves(&here, &apart, radius, reach)?,
        };
        let station = start + step;
        self.holds(station.value()).then_some(station)
    }

    /// Stations within where `(point − from) · direction` is `height`, from `start` on.
    fn levels(&self, start: T, from: &Point3<T>, direction: &Vector3<T>, height: T) -> Option<T> {
        let here = self.at(start);
        let left = height - (here.point - from).dot(direction);
        let (along, aside) = (here.tangent.dot(direction), here.normal.dot(direction));
        let step = match self.radius {
            None if along.value() == 0.0 => return None,
            None => left / along,
            Some(radius) => radius * arc_level(along, aside, left / radius)?,
        };
        let (before, after) = (self.from.value() - start.value(), self.to.value() - start.value());
        (before <= step.value() && step.value() <= after).then_some(start + step)
    }
}

/// The first angle at which an arc that starts `apart` from a point is `reach` away from it.
fn arc_leaves<T: Real>(here: &Frame<T>, apart: &Vector3<T>, radius: T, reach: T) -> Option<T> {
    // Seen from the arc's middle the square of the distance is a constant plus one wave.
    let middle = apart + here.normal * radius;
    let (sine, cosine) = (middle.dot(&here.tangent), -middle.dot(&here.normal));
    let swing = (sine * sine + cosine * cosine).sqrt();
    let rest = reach * reach - middle.norm_squared() - radius * radius;
    let height = rest / (radius * T::of(2.0));
    if height.value() > swing.value() || swing.value() == 0.0 {
        return None;
    }
    let share = height / swing;
    let opening = if share.value() <= -1.0 { T::of(std::f64::consts::PI) } else { share.acos() };
    Some(first_turn(sine.atan2(cosine) - opening))
}

/// The smallest angle either way at which `along · sin + aside · (1 − cos)` is `left`.
fn arc_level<T: Real>(along: T, aside: T, left: T) -> Option<T> {
    let swing = (along * along + aside * aside).sqrt();
    let share = if swing.value() == 0.0 { return None } else { (left - aside) / swing };
    if share.value().abs() > 1.0 {
        return None;
    }
    // along · sin θ − aside · cos θ = swing · sin(θ − lead).
    let (lead, step) = (aside.atan2(along), share.asin());
    let near = |angle: T| {
        let turns = (angle.value() / TAU).round();
        angle - T::of(TAU * turns)
    };
    let (one, other) = (near(lead + step), near(lead + T::of(std::f64::consts::PI) - step));
    Some(if one.value().abs() <= other.value().abs() { one } else { other })
}

/// An angle brought into one turn from 0.
fn first_turn<T: Real>(angle: T) -> T {
    angle - T::of((angle.value() / TAU).floor() * TAU)
}

/// A line of straight stretches and arcs, straight and without end at both sides.
#[derive(Clone, Debug, PartialEq)]
pub struct Centreline<T: nalgebra::Scalar = f64> {
    stretches: Vec<Stretch<T>>,
}

impl<T: Real> Centreline<T> {
    /// The line that starts at `frame`, whose station is `station`, and takes `turns` one after the other. A turn of angle
    /// 0 has no arc; its rotation still counts.
    pub fn new(frame: Frame<T>, station: T, turns: &[Turn<T>]) -> Self {
        let endless = T::of(f64::INFINITY);
        let mut stretches = Vec::with_capacity(2 * turns.len() + 1);
        let (mut frame, mut station, mut from) = (frame, station, -endless);
        let mut rotated = T::zero();
        for turn in turns {
            let straight_end = station + turn.before;
            if turn.angle.value() <= 0.0 {
                frame = frame.advanced(turn.before).rotated(turn.rotation);
                (station, rotated) = (straight_end, rotated + turn.rotation);
                continue;
            }
            stretches.push(Stretch { from, to: straight_end, radius: None, rotated, origin: station, frame });
            rotated += turn.rotation;
            frame = frame.advanced(turn.before).rotated(turn.rotation);
            let to = straight_end + turn.angle * turn.radius;
            let radius = Some(turn.radius);
            stretches.push(Stretch { from: straight_end, to, radius, rotated, origin: straight_end, frame });
            frame = frame.turned(turn.angle, turn.radius);
            (station, from) = (to, to);
        }
        stretches.push(Stretch { from, to: endless, radius: None, rotated, origin: station, frame });
        Self { stretches }
    }

    /// The same line in other axes: what `point` and `direction`, which keep lengths and angles, make of it.
    pub fn seen(
        &self,
        point: impl Fn(&Point3<T>) -> Point3<T>,
        direction: impl Fn(&Vector3<T>) -> Vector3<T>,
    ) -> Self {
        let frame = |frame: &Frame<T>| Frame {
            point: point(&frame.point),
            tangent: direction(&frame.tangent),
            normal: direction(&frame.normal),
            side: direction(&frame.side),
        };
        let stretch = |stretch: &Stretch<T>| Stretch { frame: frame(&stretch.frame), ..*stretch };
        Self { stretches: self.stretches.iter().map(stretch).collect() }
    }

    /// The same line with its stations counted from `station` on.
    pub fn counted_from(mut self, station: T) -> Self {
        for stretch in &mut self.stretches {
            stretch.from -= station;
            stretch.to -= station;
            stretch.origin -= station;
        }
        self
    }

    /// The stretches in order of station, straight and curved in turn.
    pub fn stretches(&self) -> &[Stretch<T>] {
        &self.stretches
    }

    /// The arcs in order of station.
    pub fn arcs(&self) -> impl Iterator<Item = &Stretch<T>> {
        self.stretches.iter().filter(|stretch| stretch.radius.is_some())
    }

    /// The stretch that holds `station`; at a joint the one before it.
    pub fn stretch(&self, station: f64) -> Option<&Stretch<T>> {
        self.stretches.get(self.place(station))
    }

    /// Which of the stretches holds `station`, by its place; at a joint the one before it.
    pub fn place(&self, station: f64) -> usize {
        let last = self.stretches.len().saturating_sub(1);
        self.stretches.iter().position(|stretch| stretch.holds(station)).unwrap_or(last)
    }

    /// The place at `station`, with its directions.
    pub fn at(&self, station: T) -> Frame<T> {
        // A centreline always has a last stretch.
        self.stretch(station.value()).map_or_else(Frame::origin, |stretch| stretch.at(station))
    }

    /// The side of the line that its first turn's rotation counts from, carried along without turning about the line: the
    /// mark on a straight rod that was bent.
    pub fn mark(&self, station: T) -> Vector3<T> {
        self.stretch(station.value()).map_or_else(Vector3::y, |stretch| stretch.marked(station).normal)
    }

    /// The straight line that touches the centreline at `station` and shares its stations there.
    pub fn tangent(&self, station: T) -> Line<T> {
        let here = self.at(station);
        Line { point: here.point - here.tangent * station, direction: here.tangent }
    }

    /// The first station after `start` whose straight distance from the place at `start` is `reach`, more than 0.
    pub fn reach(&self, start: T, reach: T) -> T {
        let point = self.at(start).point;
        let ahead = self.stretches.iter().filter(|stretch| start.value() < stretch.to.value());
        let mut found = ahead.map(|stretch| {
            let from = if stretch.from.value() > start.value() { stretch.from } else { start };
            stretch.leaves(from, &point, reach)
        });
        // The last stretch never ends, so it always leaves.
        found.find_map(|station| station).unwrap_or(start + reach)
    }

    /// The first station within `from` to `to` where the line crosses the plane `height` from `point` along `direction`.
    pub fn level(
        &self,
        (from, to): (f64, f64),
        point: &Point3<T>,
        direction: &Vector3<T>,
        height: T,
    ) -> Option<T> {
        let within =
            self.stretches.iter().filter(|stretch| from <= stretch.to.value() && stretch.from.value() <= to);
        let mut found = within.filter_map(|stretch| {
            let start = if stretch.from.value() >= from { stretch.from } else { T::of(from) };
            let station = stretch.levels(start, point, direction, height)?;
            (from <= station.value() && station.value() <= to).then_some(station)
        });
        found.next()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::{FRAC_PI_2, PI};

    fn turn(before: f64, rotation: f64, angle: f64, radius: f64) -> Turn {
        Turn { before, rotation, angle, radius }
    }

    fn near(a: Point3<f64>, b: [f64; 3]) -> bool {
        (a - Point3::from(b)).norm() < 1e-12
    }

    /// By hand: 100 straight, a quarter turn on 50 to the left, then onwards.
    #[test]
    fn a_quarter_turn_ends_where_the_compass_says() {
        let line = Centreline::new(Frame::origin(), 0.0, &[turn(100.0, 0.0, FRAC_PI_2, 50.0)]);
        let end = 100.0 + 50.0 * FRAC_PI_2;
        assert!(near(line.at(end).point, [150.0, 50.0, 0.0]));
        assert!((line.at(end + 7.0).point - Point3::new(150.0, 57.0, 0.0)).norm() < 1e-12);
        assert!((line.at(end).tangent - Vector3::y()).norm() < 1e-15);
        assert!(near(line.at(-5.0).point, [-5.0, 0.0, 0.0]));
        assert_eq!(line.stretches().len(), 3);
    }

    /// A second turn rotated by half a turn brings the line back to its first direction, beside it by 2R(1 − cos α).
    #[test]
    fn two_equal_turns_one_against_the_other_leave_an_offset() {
        let (angle, radius) = (0.3_f64, 120.0);
        let line = Centreline::new(
            Frame::origin(),
            0.0,
            &[turn(80.0, 0.0, angle, radius), turn(0.0, PI, angle, radius)],
        );
        let far = line.at(500.0);
        assert!((far.tangent - Vector3::x()).norm() < 1e-12);
        assert!((far.point.y - 2.0 * radius * (1.0 - angle.cos())).abs() < 1e-12);
    }

    #[test]
    fn a_turn_of_angle_0_is_straight_but_turns_the_next_ones_plane() {
        let line = Centreline::new(
            Frame::origin(),
            0.0,
            &[turn(10.0, FRAC_PI_2, 0.0, 50.0), turn(10.0, 0.0, 1.0, 50.0)],
        );
        assert_eq!(line.stretches().len(), 3);
        assert!(line.at(70.0).point.y.abs() < 1e-12 && line.at(70.0).point.z > 0.0);
    }

    /// The chord found is the chord asked for, wherever it starts and ends.
    #[test]
    fn reach_is_the_straight_distance() {
        let turns = [turn(60.0, 0.4, 0.5, 90.0), turn(40.0, 2.0, 1.2, 70.0), turn(5.0, -1.0, 0.2, 300.0)];
        let line = Centreline::new(Frame::origin(), -12.0, &turns);
        for start in [-80.0, -12.0, 30.0, 60.0, 111.0, 150.0, 240.0, 300.0] {
            for reach in [1.0, 20.0, 77.0, 160.0, 420.0] {
                let end = line.reach(start, reach);
                let chord = (line.at(end).point - line.at(start).point).norm();
                assert!((chord - reach).abs() < 1e-9, "{start} {reach}: {chord}");
                let before = (0..200).map(|i| start + (end - start) * f64::from(i) / 200.0);
                assert!(before.into_iter().all(|s| (line.at(s).point - line.at(start).point).norm() < reach));
            }
        }
    }

    #[test]
    fn a_plane_is_crossed_where_the_height_says() {
        let line =
            Centreline::new(Frame::origin(), 0.0, &[turn(60.0, 0.4, 0.5, 90.0), turn(20.0, 2.0, 0.7, 70.0)]);
        for height in [5.0, 59.9, 80.0, 110.0, 150.0, 200.0] {
            let found = line.level((0.0, 400.0), &Point3::origin(), &Vector3::x(), height);
            assert!(found.is_some_and(|s| (line.at(s).point.x - height).abs() < 1e-10), "{height}");
        }
        assert_eq!(line.level((0.0, 50.0), &Point3::origin(), &Vector3::x(), 60.0), None);
    }

    #[test]
    fn the_tangent_shares_its_stations_with_the_line() {
        let line = Centreline::new(Frame::origin(), 3.0, &[turn(60.0, 0.4, 0.5, 90.0)]);
        assert!((line.tangent(300.0).at(320.0) - line.at(320.0).point).norm() < 1e-12);
    }
}
