//! Where one stay runs: its axis or middle line, its surface, and the frames about it.

use super::bed::{Bed, turns};
use super::clamp::ClampFrame;
use super::placements::{BestPlacement, Placement};
use super::tube_surface::{surface_from, wall_from};
use super::which::Which;
use crate::geometry::{Centreline, Generators, Line, Outline};
use crate::model::{Hand, Tube};
use crate::units::{Angle, Real};
use nalgebra::{Point3, Vector3};
use std::borrow::Cow;

/// One stay, laid between its reference points.
#[derive(Clone)]
pub(crate) struct StayGeometry<T: Real> {
    pub(crate) hand: Hand,
    pub(crate) clamp: ClampFrame<T>,
    /// From the front reference point; stations count from there. A bent stay's is its chord.
    pub(crate) axis: Line<T>,
    /// Station of the rear reference point.
    pub(crate) length: T,
    /// Where a round dropout sits: the rear reference point, brought onto the centre plane.
    pub(crate) rear_middle: Point3<T>,
    pub(crate) outer: Outline<T>,
    pub(crate) bore: Outline<T>,
    pub(crate) wall: T,
    /// Stations of the raw tube's two ends.
    pub(crate) raw: (T, T),
    /// What a bent tube has more.
    pub(crate) bent: Option<Bent<T>>,
}

/// How a bent stay lies.
#[derive(Clone)]
pub(crate) struct Bent<T: Real> {
    /// Its middle line; stations count from the front reference point.
    pub(crate) line: Centreline<T>,
    pub(crate) placement: Placement<T>,
    pub(crate) chord: T,
    /// Stations of the straight pieces that its two ends are cut on.
    pub(crate) ends: [T; 2],
    /// What a search for the most room said of the placement.
    pub(crate) found: Option<BestPlacement>,
}

impl<T: Real> StayGeometry<T> {
    /// Lays a bent tube, its ends as they run at the reference points.
    pub(crate) fn bend(
        &mut self,
        bed: &Bed<T>,
        tube: &Tube<T>,
        placement: Placement<T>,
        found: Option<BestPlacement>,
    ) {
        let line = bed.line(&turns(tube), &placement);
        self.length = line.reach(T::zero(), bed.span);
        self.bent = Some(Bent { line, placement, chord: bed.span, ends: [T::zero(), self.length], found });
        self.put_tube(tube, placement.trim);
    }

    pub(crate) fn put_tube(&mut self, tube: &Tube<T>, trim: T) {
        self.outer = surface_from(tube, trim);
        self.bore = match wall_from(tube, trim) {
            Some(wall) => self.outer.less(&wall),
            None => self.outer.inset(tube.wall.mm()),
        };
        self.raw = (-trim, tube.length.mm() - trim);
    }

    /// The straight stay that this one is part of at `station`: the line that touches it there, and the wall it has there.
    pub(crate) fn straight_at(&self, station: T) -> Cow<'_, Self> {
        let wall = self.outer.radius(station) - self.bore.radius(station);
        let plain = (wall - self.wall).value().abs() < 1e-9 && !self.outer.is_oval();
        if plain && self.bent.is_none() {
            return Cow::Borrowed(self);
        }
        let axis = self.bent.as_ref().map_or(self.axis, |bent| bent.line.tangent(station));
        let mut straight = Self { axis, wall, ..self.clone() };
        if self.outer.is_oval() {
            straight.turn_ovals(&self.mark(station));
        }
        Cow::Owned(straight)
    }

    /// Turns the ovals from where they count from the tube's mark, from outboard upwards, to where they count from φ = 0: on the
    /// left that is the other way round.
    fn turn_ovals(&mut self, mark: &Vector3<T>) {
        let around = self.generators(&self.outer);
        let turn = mark.dot(&around.second).atan2(mark.dot(&around.first));
        let way = T::of(self.hand.sign());
        (self.outer, self.bore) = (self.outer.counted(way, turn), self.bore.counted(way, turn));
    }

    /// The tube's side that faces outboard where it lies unrolled, square to its middle at `station`.
    fn mark(&self, station: T) -> Vector3<T> {
        if let Some(bent) = &self.bent {
            return bent.line.mark(station);
        }
        let outboard = Vector3::y() * T::of(self.hand.sign());
        (outboard - self.axis.direction * outboard.dot(&self.axis.direction)).normalize()
    }

    /// The tube's outline as it is seen square to the clamp plane about `station`: an oval counts as round, as wide as it is
    /// across the fixture.
    pub(crate) fn above(&self, station: T) -> Cow<'_, Outline<T>> {
        if !self.outer.is_oval() {
            return Cow::Borrowed(&self.outer);
        }
        let straight = self.straight_at(station);
        let around = straight.generators(&straight.outer);
        let outboard = Vector3::y() * T::of(self.hand.sign());
        Cow::Owned(straight.outer.seen((outboard.dot(&around.first), outboard.dot(&around.second))))
    }

    /// The front and the rear reference point.
    pub(crate) fn reference_points(&self) -> (Point3<T>, Point3<T>) {
        (self.axis.point, self.axis.at(self.bent.as_ref().map_or(self.length, |bent| bent.chord)))
    }

    /// Station of a reference point.
    pub(crate) fn reference(&self, which: Which) -> T {
        if which == Which::Front { T::zero() } else { self.length }
    }

    /// Station of the straight piece that an end is cut on: the reference point's, unless a bend there is sawn off.
    pub(crate) fn cut_at(&self, which: Which) -> T {
        let reference = self.reference(which);
        let Some(Bent { ends: [front, rear], .. }) = self.bent else { return reference };
        if which == Which::Front { front } else { rear }
    }

    /// The middle line, straight or bent.
    pub(crate) fn line(&self) -> Cow<'_, Centreline<T>> {
        match &self.bent {
            Some(bent) => Cow::Borrowed(&bent.line),
            None => {
                let (front, rear) = self.reference_points();
                Cow::Owned(Bed::new(front, rear, self.hand.sign()).straight())
            }
        }
    }

    /// The generators of a surface of this stay. φ = 0 points along `w`, which a straight stay lies square to, or as near to it
    /// as a bent stay's end allows.
    pub(crate) fn generators<'a>(&self, outline: &'a Outline<T>) -> Generators<'a, T> {
        let first = if self.bent.is_some() { self.upwards() } else { self.clamp.w };
        Generators { axis: self.axis, first, second: self.axis.direction.cross(&first), outline }
    }

    /// The part of `w` square to the axis; of `−u` where the axis runs along `w`.
    fn upwards(&self) -> Vector3<T> {
        let part = |v: Vector3<T>| v - self.axis.direction * v.dot(&self.axis.direction);
        let up = part(self.clamp.w);
        let found = if up.norm_squared().value() > 1e-12 { up } else { part(-self.clamp.u) };
        found.normalize()
    }

    /// Between the axis and the centre plane, positive outwards to the rear.
    pub(crate) fn splay(&self) -> Angle<T> {
        self.splay_from(Angle::from_degrees(T::zero()))
    }

    /// The same from a plane that itself splays by `plane`, upright on the clamp plane.
    pub(crate) fn splay_from(&self, plane: Angle<T>) -> Angle<T> {
        let (sin, cos) = plane.radians().sin_cos();
        let out = self.axis.direction.y * T::of(self.hand.sign());
        let back = self.axis.direction.dot(&self.clamp.u);
        let (outwards, along) = (out * cos - back * sin, back * cos + out * sin);
        if self.bent.is_none() {
            return Angle::from_radians(outwards.atan2(along));
        }
        let above = self.axis.direction.dot(&self.clamp.w);
        let flat = along * along + above * above;
        let flat = if flat.value() == 0.0 { T::zero() } else { flat.sqrt() };
        Angle::from_radians(outwards.atan2(if along.value() < 0.0 { -flat } else { flat }))
    }
}
