//! An oval section of a pipe, as a solid sees it.

use super::circle::{Node, narrowed, turning, valley};
use super::{Frame, Near, Oval, Piece, Rod, Solid, Stretch};
use crate::units::Real;
use nalgebra::{Point3, Vector3};
use std::f64::consts::TAU;

/// Places looked at round a section before the valley is narrowed.
const SAMPLES: u8 = 12;

/// Golden sections of a gap between samples: it shrinks to 2e-4 rad, and the distance at its bottom is exact to 1e-6 mm.
const SECTIONS: usize = 16;

/// No direction that has been narrowed so is further off than this, radians.
const ROUGH: f64 = 1e-3;

/// How much longer an ellipse's edge is than its larger half times the angle, and how much flatter a section between ellipse and
/// circle is than the ellipse, at most: 1.36 and 1.22 for halves as unlike as 1 to 3, computed.
const LEAN: f64 = 1.4;

/// A function on a circle, looked at all round.
struct Round<F> {
    f: F,
    step: f64,
    samples: Vec<(f64, f64)>,
}

impl<F: Fn(f64) -> f64> Round<F> {
    fn new(f: F) -> Self {
        let step = TAU / f64::from(SAMPLES);
        let samples = (0..SAMPLES).map(|i| step * f64::from(i)).map(|angle| (angle, f(angle))).collect();
        Self { f, step, samples }
    }

    /// The bottom of the valley about the lowest sample.
    fn valley(&self) -> f64 {
        let lower = |a: (f64, f64), b: &(f64, f64)| if b.1 < a.1 { *b } else { a };
        let (angle, _) = self.samples.iter().fold((0.0, f64::INFINITY), lower);
        narrowed(SECTIONS + 2, angle - self.step, angle + self.step, &self.f)
    }

    /// The lowest place of all, where the value changes by no more than `pace` a radian: each gap between samples that can hold
    /// it is narrowed.
    fn lowest(&self, pace: f64) -> f64 {
        let valley = self.valley();
        let mut best = (valley, (self.f)(valley));
        for (here, after) in self.samples.iter().zip(self.samples.iter().cycle().skip(1)) {
            // Neither end's value can have fallen further than the pace allows.
            if 0.5 * (here.1 + after.1 - pace * self.step) < best.1 {
                let angle = narrowed(SECTIONS, here.0, here.0 + self.step, &self.f);
                let value = (self.f)(angle);
                best = if value < best.1 { (angle, value) } else { best };
            }
        }
        best.0
    }
}

/// The point of a section nearest to a solid.
pub(super) struct Touch<T: nalgebra::Scalar> {
    /// Its direction round the axis.
    angle: f64,
    pub(super) point: Point3<T>,
    pub(super) near: Near<T>,
    /// At the square of the way from it the distance of the section's other points grows at least this fast; `None` where
    /// that is not known.
    rise: Option<f64>,
}

/// The elliptical sections of one part of a pipe.
#[derive(Clone, Copy)]
pub(super) struct Section<T> {
    oval: Oval<T>,
    from: T,
    to: T,
}

impl<T: Real> Section<T> {
    /// `None` where the piece is round.
    pub(super) fn of(piece: &Piece<T>) -> Option<Self> {
        piece.oval.map(|oval| Self { oval: oval.turned_if_oval(), from: piece.from, to: piece.to })
    }

    /// The same sections taken as flat, where `oval` is told from one station to another.
    pub(super) fn flat(oval: Oval<T>, from: T, to: T) -> Self {
        Self { oval, from, to }
    }

    /// Whether all of them are circles.
    pub(super) fn is_round(&self) -> bool {
        self.oval.round_radius(self.from, (self.from, self.to)).is_some()
    }

    /// The smallest half of any.
    pub(super) fn narrowest(&self) -> f64 {
        self.oval.narrowest()
    }

    /// Distance of the section at `station` from a solid, and a floor under those within `half` of there.
    ///
    /// From the nearest point on, the distance grows along the section at least as it would along a ball of the section's flattest
    /// radius, less what the solid bends; what the section's change and the line's bend take off again is made up for by
    /// that, but for a square of the interval's length.
    pub(super) fn floor(
        &self,
        stretch: &Stretch<T>,
        solid: &impl Solid<T>,
        station: T,
        half: f64,
    ) -> (f64, f64) {
        let marked = stretch.marked(station);
        let Touch { point, near, rise, .. } = self.nearest(&marked, solid, station);
        let (room, curvature) = (near.distance.value(), stretch.curvature());
        let (widest, change) = (self.oval.widest(), self.oval.steepest(self.from, self.to));
        let by_length = room - (1.0 + curvature * widest + change) * half;
        let dip = solid.dip(&point, half + 2.0 * widest);
        let Some(rise) = rise.filter(|_| dip.is_finite()) else { return (room, by_length) };
        let away = near.away;
        let along = away.dot(&marked.tangent);
        let out = point - marked.point;
        let (_, growth) = self.towards(&out, &marked);
        let growing = (along + away.dot(&out) / out.norm() * growth).value().abs();
        let along = along.value().abs();
        let steep = growing + 3.0 * along * curvature * widest;
        let bend = curvature * (1.0 + curvature * widest) + dip;
        let twist = 4.0 * change / self.oval.narrowest() + along * curvature;
        let off = 0.5 * bend + twist * twist / (4.0 * rise);
        (room, by_length.max(room - steep * half - off * half * half))
    }

    /// A floor under the distances of all sections within `half` of `station`, from the solid's distance of the middle alone.
    ///
    /// A distance grows along its own gradient, less what the solid bends, and a section reaches no further against that than its
    /// support. On the way the support changes with the section, and as the line turns under the gradient: at first by what
    /// the gradient has along the line, then by the square of the turn.
    pub(super) fn below(&self, stretch: &Stretch<T>, solid: &impl Solid<T>, station: T, half: f64) -> f64 {
        let (marked, curvature, widest) = (stretch.marked(station), stretch.curvature(), self.oval.widest());
        let Near { distance, away } = solid.near(&marked.point);
        let distance = distance.value();
        if away.norm_squared().value() == 0.0 {
            let change = self.oval.steepest(self.from, self.to);
            return distance - widest - (1.0 + curvature * widest + change) * half;
        }
        let (at_zero, slope) =
            self.oval.reach((away.dot(&marked.normal), away.dot(&marked.side)), self.from, self.to);
        let along = away.dot(&marked.tangent).value();
        let steep = (along - slope.value()).abs() + curvature * widest * along.abs();
        let bend = curvature * (1.0 + curvature * widest);
        let reach = half + widest;
        let dip = solid.dip(&marked.point, reach);
        let floor = distance - (at_zero + slope * station).value() - steep * half - 0.5 * bend * half * half;
        if dip > 0.0 { floor - 0.5 * dip * reach * reach } else { floor }
    }

    /// The generator that a way out from the middle points along.
    fn towards(&self, out: &Vector3<T>, marked: &Frame<T>) -> (T, T) {
        let angle = out.dot(&marked.side).value().atan2(out.dot(&marked.normal).value());
        self.oval.generator(Node::at(angle), self.from, self.to)
    }

    /// The points of the section at `station`, by their direction round the axis from the first half.
    fn points(&self, marked: &Frame<T>, station: T) -> impl Fn(f64) -> Point3<T> + use<T> {
        let Frame { point, normal, side, .. } = *marked;
        let cut = self.oval.section(station, (self.from, self.to));
        move |angle| {
            let (radius, (along, aside)) = cut.towards(angle);
            point + (normal * along + side * aside) * radius
        }
    }

    fn touch(&self, marked: &Frame<T>, solid: &impl Solid<T>, (angle, point): (f64, Point3<T>)) -> Touch<T> {
        let near = solid.near(&point);
        let dip = solid.dip(&point, 2.0 * self.oval.widest());
        let rise = self.rise(&(point - marked.point), &near.away, marked, dip);
        Touch { angle, point, near, rise }
    }

    /// The point of the section at `station` that comes nearest to a solid. `marked` is the line's place there.
    pub(super) fn nearest(&self, marked: &Frame<T>, solid: &impl Solid<T>, station: T) -> Touch<T> {
        let point = self.points(marked, station);
        let touch = |angle: f64| self.touch(marked, solid, (angle, point(angle)));
        let distance = |angle: f64| solid.near(&point(angle)).distance.value();
        let facing = self.is_round().then(|| Self::facing(marked, solid, &point)).flatten();
        let found = touch(facing.unwrap_or_else(|| Round::new(distance).valley()));
        // Where distance rises from the bottom of a valley all over the section, there is no other.
        if found.rise.is_some() || solid.out_of_plane().is_some() {
            return found;
        }
        touch(Round::new(distance).lowest(LEAN * self.oval.widest()))
    }

    /// The direction round a circular section in which the distance to a solid has the bottom of a valley: straight towards a
    /// plane; else where its slope turns.
    fn facing(marked: &Frame<T>, solid: &impl Solid<T>, point: &impl Fn(f64) -> Point3<T>) -> Option<f64> {
        let away = |place: &Point3<T>| solid.near(place).away.map(T::value);
        let Frame { normal, side, .. } = *marked;
        let (normal, side) = (normal.map(T::value), side.map(T::value));
        let facing = solid.out_of_plane().map_or_else(|| away(&marked.point), |out| out.map(T::value));
        let start = (-facing.dot(&side)).atan2(-facing.dot(&normal));
        if solid.out_of_plane().is_some() {
            return Some(start);
        }
        turning(start, |angle| {
            let (sin, cos) = angle.sin_cos();
            away(&point(angle)).dot(&(side * cos - normal * sin))
        })
    }

    /// The same to rounding.
    pub(super) fn settled(&self, marked: &Frame<T>, solid: &impl Solid<T>, station: T) -> Touch<T> {
        let rough = self.nearest(marked, solid, station);
        if self.is_round() && (rough.rise.is_some() || solid.out_of_plane().is_some()) {
            return rough;
        }
        let point = self.points(marked, station);
        let distance = |angle: f64| solid.near(&point(angle)).distance.value();
        let angle = valley(rough.angle - ROUGH, rough.angle + ROUGH, distance);
        self.touch(marked, solid, (angle, point(angle)))
    }

    /// The point of the full section at `station` nearest to a point.
    pub(super) fn nearest_to(&self, marked: &Frame<T>, point: &Point3<T>, station: T) -> Point3<T> {
        let out = point - marked.point;
        let flat = out - marked.tangent * out.dot(&marked.tangent);
        let (at_zero, slope) = self.towards(&flat, marked);
        let radius = at_zero + slope * station;
        let square = flat.norm_squared();
        if square.value() <= (radius * radius).value() {
            return marked.point + flat;
        }
        if let Some(radius) = self.oval.round_radius(station, (self.from, self.to)) {
            return marked.point + flat * (radius / square.sqrt());
        }
        self.nearest(marked, &Rod::ball(*point, T::zero()), station).point
    }

    /// The point nearest to a solid of the flat face that ends the body at `station`.
    pub(super) fn face(&self, marked: &Frame<T>, solid: &impl Solid<T>, station: T) -> Touch<T> {
        let shrunk = |share: f64| Self { oval: self.oval.scaled(T::of(share)), ..*self };
        let touch = |share: f64| shrunk(share).nearest(marked, solid, station);
        let share = narrowed(SECTIONS, 1e-6, 1.0, |share| touch(share).near.distance.value());
        touch(share)
    }

    /// A section lies within the ball of its flattest radius that touches it at the nearest point, so that distance grows as
    /// from a plane to that ball, less what the solid bends.
    fn rise(&self, out: &Vector3<T>, away: &Vector3<T>, marked: &Frame<T>, dip: f64) -> Option<f64> {
        let across = away - marked.tangent * away.dot(&marked.tangent);
        let flattest = LEAN * self.oval.widest() * self.oval.widest() / self.oval.narrowest();
        let rise = 0.5 * (across.norm().value() / flattest - dip);
        (out.dot(&across).value() < 0.0 && rise > 0.0).then_some(rise)
    }
}

#[cfg(test)]
mod tests {
    use super::super::solid::{Block, Turned};
    use super::super::{Centreline, Line, Outline, OvalStretch, Turn};
    use super::*;

    /// A bent tube with an oval stretch, its blends and a taper.
    fn tube() -> (Centreline, Outline) {
        let turns = [
            Turn { before: 60.0, rotation: 0.4, angle: 0.5, radius: 90.0 },
            Turn { before: 20.0, rotation: 2.0, angle: 0.7, radius: 70.0 },
        ];
        let oval = OvalStretch { from: 60.0, to: 120.0, blend: 40.0, halves: (7.0, 14.0), turn: 0.6 };
        let outline = Outline::through(&[(0.0, 11.0), (300.0, 8.0)]).pressed(&[oval]);
        (Centreline::new(Frame::origin(), 0.0, &turns), outline)
    }

    /// How often the floor held, and how often it came within half a millimetre.
    fn held(solid: &impl Solid<f64>) -> (usize, usize) {
        let (line, outline) = tube();
        let (mut all, mut tight) = (0, 0);
        let mut check = |stretch: &Stretch, section: &Section<f64>, middle: f64, half: f64| {
            let floor = section.below(stretch, solid, middle, half);
            let room = |s: f64| section.nearest(&stretch.marked(s), solid, s).near.distance;
            let stations = (-4..=4).map(|k| middle + half * f64::from(k) / 4.0);
            let least = stations.map(room).fold(f64::INFINITY, f64::min);
            assert!(floor <= least + 1e-6, "{middle} {half}: {floor} {least}");
            (all, tight) = (all + 1, tight + usize::from(floor > least - 0.5));
        };
        for stretch in line.stretches() {
            for piece in outline.pieces() {
                let Some(section) = Section::of(piece) else { continue };
                let (from, to) = (piece.from.max(stretch.from), piece.to.min(stretch.to));
                for (i, half) in (0..12).flat_map(|i| [(i, 0.0), (i, 0.5), (i, 4.0)]) {
                    let middle = from + (to - from) * f64::from(i) / 11.0;
                    if from <= middle - half && middle + half <= to {
                        check(stretch, &section, middle, half);
                    }
                }
            }
        }
        (all, tight)
    }

    /// No section within an interval comes nearer than the floor from the middle says, whether the solid is convex or a ring that the
    /// tube passes through.
    #[test]
    fn the_floor_from_the_middle_lies_under_every_section() {
        let direction = Vector3::new(0.6, 0.0, 0.8);
        let axis = |x: f64, y: f64, z: f64| Line { point: Point3::new(x, y, z), direction };
        let disc = axis(90.0, 70.0, 10.0);
        let disc = Turned { axis: disc, hole: 0.0, rim: 40.0, low: -3.0, high: 3.0, rounding: 0.0 };
        let ring = axis(90.0, 10.0, 5.0);
        let ring = Turned { axis: ring, hole: 60.0, rim: 60.0, low: 0.0, high: 0.0, rounding: 15.0 };
        let directions = [Vector3::x(), Vector3::y(), Vector3::z()];
        let block = Block { middle: Point3::new(120.0, -30.0, 10.0), directions, halves: [30.0, 12.0, 9.0] };
        for (all, tight) in [held(&disc), held(&ring), held(&block)] {
            assert!(all > 50 && tight < all, "{all} {tight}");
        }
        assert!(held(&block).1 > 10 && held(&disc).1 > 10);
    }
}
