//! Where one stay runs.

use super::axes::Axes;
use super::bed::{Bed, Placing, entered, turns};
use super::bent::BentStay;
use super::clamp::ClampFrame;
use super::cut::Which;
use super::result::Plan;
use super::room::Found;
use super::tips::tips;
use crate::geometry::{Centreline, Generators, Line, Outline, OvalStretch};
use crate::model::{Hand, Job, PairName, Press, Side, Tube};
use crate::units::{Angle, Real};
use nalgebra::{Point3, Vector3};
use std::borrow::Cow;

/// One stay, laid between its reference points.
#[derive(Clone)]
pub(super) struct Laid<T: Real> {
    pub(super) hand: Hand,
    pub(super) clamp: ClampFrame<T>,
    /// From the front reference point; stations count from there. A bent stay's is its chord.
    pub(super) axis: Line<T>,
    /// Station of the rear reference point.
    pub(super) length: T,
    /// Where a round dropout sits: the rear reference point, brought onto the centre plane.
    pub(super) rear_middle: Point3<T>,
    pub(super) outer: Outline<T>,
    pub(super) bore: Outline<T>,
    pub(super) wall: T,
    /// Stations of the raw tube's two ends.
    pub(super) raw: (T, T),
    /// What a bent tube has more.
    pub(super) bent: Option<Bent<T>>,
}

/// How a bent stay lies.
#[derive(Clone)]
pub(super) struct Bent<T: Real> {
    /// Its middle line; stations count from the front reference point.
    pub(super) line: Centreline<T>,
    pub(super) placing: Placing<T>,
    pub(super) chord: T,
    /// Stations of the straight pieces that its two ends are cut on.
    pub(super) ends: [T; 2],
    /// What a search for the most room said of the placing.
    pub(super) found: Option<Found>,
}

impl<T: Real> Laid<T> {
    /// The stay of `job`. A bent tube is laid as `found`, or as its own figures say.
    pub(super) fn new(
        axes: &Axes<T>,
        job: &Job<T>,
        pair: PairName,
        hand: Hand,
        found: Option<Found>,
    ) -> Self {
        let of = |placing: Placing| Placing { trim: T::of(placing.trim), roll: T::of(placing.roll) };
        let tube = &job.pair(pair).side(hand).tube;
        let placing = found.map_or_else(|| entered(tube), |found| of(found.placing));
        Self::placed(axes, job, pair, hand, (placing, found))
    }

    /// A stay of `plan` as it lies there.
    pub(super) fn again(axes: &Axes<T>, plan: &Plan<T>, pair: PairName, hand: Hand) -> Self {
        let lies = |bent: &BentStay<T>| Placing { trim: bent.trim.mm(), roll: bent.roll.radians() };
        let bent = plan.pair(pair).stay(hand).bent.as_ref();
        let placing = bent.map_or_else(|| entered(&plan.job.pair(pair).side(hand).tube), lies);
        Self::placed(axes, &plan.job, pair, hand, (placing, None))
    }

    fn placed(
        axes: &Axes<T>,
        job: &Job<T>,
        pair: PairName,
        hand: Hand,
        (placing, found): (Placing<T>, Option<Found>),
    ) -> Self {
        let side = job.pair(pair).side(hand);
        let (front_middle, rear_middle) = middles(axes, job, pair, side);
        let across = |half_spacing: T| Vector3::y() * (half_spacing * T::of(hand.sign()));
        let front = front_middle + across(side.front.half_spacing.mm());
        let rear = rear_middle + across(side.rear.half_spacing.mm());
        let (axis, length) = Line::between(front, rear);
        let mut laid = Self {
            hand,
            clamp: ClampFrame::new(front_middle, rear_middle - front_middle),
            axis,
            length,
            rear_middle,
            bore: Outline::level(T::zero()),
            outer: Outline::level(T::zero()),
            wall: side.tube.wall.mm(),
            raw: (T::zero(), T::zero()),
            bent: None,
        };
        if side.tube.bends.list.is_empty() {
            laid.put_tube(&side.tube, side.tube.front_trim.mm());
        } else {
            let bed = Bed::new(front, rear, hand.sign());
            laid.bend(&bed, &side.tube, placing, found);
            let ends =
                [Which::Front, Which::Rear].map(|which| tips(&laid, (axes, &job.frame), side, which).on);
            laid.bent = laid.bent.map(|bent| Bent { ends, ..bent });
        }
        laid
    }

    /// Lays a bent tube, its ends as they run at the reference points.
    pub(super) fn bend(&mut self, bed: &Bed<T>, tube: &Tube<T>, placing: Placing<T>, found: Option<Found>) {
        let line = bed.line(&turns(tube), &placing);
        self.length = line.reach(T::zero(), bed.span);
        self.bent = Some(Bent { line, placing, chord: bed.span, ends: [T::zero(), self.length], found });
        self.put_tube(tube, placing.trim);
    }

    fn put_tube(&mut self, tube: &Tube<T>, trim: T) {
        self.outer = surface_from(tube, trim);
        self.bore = match wall_from(tube, trim) {
            Some(wall) => self.outer.less(&wall),
            None => self.outer.inset(tube.wall.mm()),
        };
        self.raw = (-trim, tube.length.mm() - trim);
    }

    /// The straight stay that this one is part of at `station`: the line that touches it there, and the wall it has there.
    pub(super) fn straight_at(&self, station: T) -> Cow<'_, Self> {
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
    pub(super) fn above(&self, station: T) -> Cow<'_, Outline<T>> {
        if !self.outer.is_oval() {
            return Cow::Borrowed(&self.outer);
        }
        let straight = self.straight_at(station);
        let around = straight.generators(&straight.outer);
        let outboard = Vector3::y() * T::of(self.hand.sign());
        Cow::Owned(straight.outer.seen((outboard.dot(&around.first), outboard.dot(&around.second))))
    }

    /// The front and the rear reference point.
    pub(super) fn reference_points(&self) -> (Point3<T>, Point3<T>) {
        (self.axis.point, self.axis.at(self.bent.as_ref().map_or(self.length, |bent| bent.chord)))
    }

    /// Station of a reference point.
    pub(super) fn reference(&self, which: Which) -> T {
        if which == Which::Front { T::zero() } else { self.length }
    }

    /// Station of the straight piece that an end is cut on: the reference point's, unless a bend there is sawn off.
    pub(super) fn cut_at(&self, which: Which) -> T {
        let reference = self.reference(which);
        let Some(Bent { ends: [front, rear], .. }) = self.bent else { return reference };
        if which == Which::Front { front } else { rear }
    }

    /// The middle line, straight or bent.
    pub(super) fn line(&self) -> Cow<'_, Centreline<T>> {
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
    pub(super) fn generators<'a>(&self, outline: &'a Outline<T>) -> Generators<'a, T> {
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
    pub(super) fn splay(&self) -> Angle<T> {
        self.splay_from(Angle::from_degrees(T::zero()))
    }

    /// The same from a plane that itself splays by `plane`, upright on the clamp plane.
    pub(super) fn splay_from(&self, plane: Angle<T>) -> Angle<T> {
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

/// The two reference points of a side, brought onto the centre plane.
pub(super) fn middles<T: Real>(
    axes: &Axes<T>,
    job: &Job<T>,
    pair: PairName,
    side: &Side<T>,
) -> (Point3<T>, Point3<T>) {
    let datum = axes.front_datum(job, pair);
    let straight = ClampFrame::new(datum, axes.axle - datum);
    (
        datum + straight.w * side.front.rise.mm(),
        axes.axle - straight.u * side.rear.reach.mm() + straight.w * side.rear.rise.mm(),
    )
}

/// A tube's outer radius by station along its stay, where its front trim stands as entered.
pub fn stay_outline<T: Real>(tube: &Tube<T>) -> Outline<T> {
    outline_from(tube, tube.front_trim.mm())
}

/// A tube's outer radius by station from the place `trim` on it.
pub(super) fn outline_from<T: Real>(tube: &Tube<T>, trim: T) -> Outline<T> {
    let half = T::of(0.5);
    let (front, rear) = (tube.od_front.mm() * half, tube.od_rear.mm() * half);
    if front == rear {
        return Outline::level(front);
    }
    Outline::through(&[(tube.taper_start.mm() - trim, front), (tube.taper_end.mm() - trim, rear)])
}

/// A tube's outer surface by station from the place `trim` on it, its ovals turned from the tube's own mark: the side that faces
/// outboard where it lies unrolled.
pub(super) fn surface_from<T: Real>(tube: &Tube<T>, trim: T) -> Outline<T> {
    let half = T::of(0.5);
    let stretch = |oval: &Press<T>| OvalStretch {
        from: oval.from.mm() - trim,
        to: oval.to.mm() - trim,
        blend: oval.blend.mm(),
        halves: (oval.width.mm() * half, oval.height.mm() * half),
        turn: oval.roll.radians(),
    };
    let stretches: Vec<OvalStretch<T>> = tube.ovals.list.iter().map(stretch).collect();
    outline_from(tube, trim).pressed(&stretches)
}

/// A butted tube's wall by station from the place `trim` on it; `None` for a plain wall.
fn wall_from<T: Real>(tube: &Tube<T>, trim: T) -> Option<Outline<T>> {
    let knots: Vec<(T, T)> =
        tube.butts.list.iter().map(|butt| (butt.at.mm() - trim, butt.wall.mm())).collect();
    (!knots.is_empty()).then(|| Outline::through(&knots))
}
