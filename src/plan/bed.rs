//! Where a bent tube is laid: its chord, and the directions that its roll counts from.

use super::placements::Placement;
use crate::geometry::{Centreline, Frame, Turn};
use crate::model::Tube;
use crate::units::Real;
use nalgebra::{Point3, Vector3};

/// The two reference points of a stay, and the directions about the chord between them.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Bed<T: nalgebra::Scalar> {
    front: Point3<T>,
    /// Front to rear, length 1.
    chord: Vector3<T>,
    /// Length of the chord.
    pub(crate) span: T,
    /// Square to the chord, outboard.
    outboard: Vector3<T>,
    /// Square to both, upwards.
    up: Vector3<T>,
}

impl<T: Real> Bed<T> {
    /// The bed from `front` to `rear` of the stay on the side `sign`. The points lie apart and not straight across the bicycle.
    pub(crate) fn new(front: Point3<T>, rear: Point3<T>, sign: f64) -> Self {
        let between = rear - front;
        let span = between.norm();
        let chord = between / span;
        let across = Vector3::y() * T::of(sign);
        let outboard = (across - chord * across.dot(&chord)).normalize();
        Self { front, chord, span, outboard, up: chord.cross(&outboard) * T::of(sign) }
    }

    /// The middle line of a straight tube that lies unrolled.
    pub(crate) fn straight(&self) -> Centreline<T> {
        let frame = Frame { point: self.front, tangent: self.chord, normal: self.outboard, side: self.up };
        Centreline::new(frame, T::zero(), &[])
    }

    /// The tube's middle line as it lies; stations count from the front reference point. A left tube is the mirror of a
    /// right one.
    pub(crate) fn line(&self, turns: &[Turn<T>], placement: &Placement<T>) -> Centreline<T> {
        let raw = Centreline::new(Frame::origin(), T::zero(), turns);
        let front = raw.at(placement.trim).point;
        let between = raw.at(raw.reach(placement.trim, self.span)).point - front;
        let chord = between / between.norm();
        let normal = square_to(&chord);
        let side = chord.cross(&normal);
        let (sin, cos) = placement.roll.sin_cos();
        let (first, second) = (self.outboard * cos + self.up * sin, self.up * cos - self.outboard * sin);
        let turned =
            |v: Vector3<T>| self.chord * v.dot(&chord) + first * v.dot(&normal) + second * v.dot(&side);
        let start = Frame {
            point: self.front - turned(front.coords),
            tangent: turned(Vector3::x()),
            normal: turned(Vector3::y()),
            side: turned(Vector3::z()),
        };
        Centreline::new(start, -placement.trim, turns)
    }
}

impl Bed<f64> {
    /// How a point moves by radian of roll.
    pub(crate) fn turning(&self, point: &Point3<f64>) -> Vector3<f64> {
        let off = point - self.front;
        self.up * off.dot(&self.outboard) - self.outboard * off.dot(&self.up)
    }

    /// How far a point stands off the chord.
    pub(crate) fn off(&self, point: &Point3<f64>) -> f64 {
        (point - self.front).cross(&self.chord).norm()
    }

    /// How fast a flat end's rim moves with the roll: as far out as it is, and as far as it is tilted to the chord.
    pub(crate) fn tilting(&self, line: &Centreline, station: f64, radius: f64) -> f64 {
        radius * line.at(station).tangent.cross(&self.chord).norm()
    }

    /// How fast the middle line of a tube so laid moves sideways at `station` when its front trim changes by up to `half`. It
    /// slides along itself, which moves it only as far as it lies aslant to the chord, and turns so that its ends stay on
    /// their points, which takes off what the ends lie aslant. To first order, with a quarter to spare for what this changes
    /// by.
    pub(crate) fn rate(&self, line: &Centreline, length: f64, station: f64, half: f64) -> f64 {
        let aslant = |station: f64| {
            let tangent = line.at(station).tangent;
            tangent - self.chord * tangent.dot(&self.chord)
        };
        let (front, rear) = (aslant(0.0), aslant(length));
        let sideways = |step: i32| {
            let at = (station + half * 0.5 * f64::from(step)).max(0.0).min(length);
            (aslant(at) - front * (1.0 - at / length) - rear * (at / length)).norm()
        };
        1.25 * (-2..=2).map(sideways).fold(0.0, f64::max) + 0.01
    }
}

/// The tube's own direction of rotation 0 as far as it is square to its chord. Where the chord runs along it, the tube's first
/// direction reversed, which is what the other has turned into.
fn square_to<T: Real>(chord: &Vector3<T>) -> Vector3<T> {
    let part = |v: Vector3<T>| v - chord * v.dot(chord);
    let normal = part(Vector3::y());
    let along = if normal.norm_squared().value() > 1e-12 { normal } else { part(-Vector3::x()) };
    along.normalize()
}

/// A tube's bends as turns of its middle line.
pub(crate) fn turns<T: Real>(tube: &Tube<T>) -> Vec<Turn<T>> {
    let turn = |bend: &crate::model::Bend<T>| Turn {
        before: bend.before.mm(),
        rotation: bend.rotation.radians(),
        angle: bend.angle.radians(),
        radius: bend.radius.mm(),
    };
    tube.bends.list.iter().map(turn).collect()
}

/// The placement that a tube's own figures give.
pub(crate) fn entered<T: Real>(tube: &Tube<T>) -> Placement<T> {
    let roll = tube.bends.roll.map_or(T::zero(), |roll| roll.radians());
    Placement { trim: tube.front_trim.mm(), roll }
}
