//! The handle by which a bent tube is turned about its chord.

use super::pull::Pull;
use super::sheet::{Handle, Point};
use super::view::View;
use crate::model::Hand;
use crate::plan::{BentStay, Stay};
use nalgebra::{Point3, Vector3};

/// Of two apexes, the second one is further off the chord if it is by more than this, mm.
const FURTHER: f64 = 1e-6;

/// The way of the hand for each degree, in lettering heights: the sixteenth part, a dot of the page. The apex itself goes a
/// fraction of that, so that no finger could turn the tube by following it.
const DEGREE: f64 = 1.0 / 16.0;

/// A sine below this is that of a turn that lies flat.
const FLAT: f64 = 1e-9;

/// At the apex of the bend that stands furthest off the chord; none on a straight stay.
pub(super) fn roll_handle(
    stay: &Stay,
    hand: Hand,
    path: String,
    (view, letter): (View, f64),
) -> Option<Handle> {
    let bent = stay.bent.as_ref()?;
    let chord = (stay.rear_point - stay.front_point).try_normalize(0.0)?;
    let (apex, off) = furthest(bent, &stay.front_point, &chord)?;
    let way = pull(&off, &chord, hand, view);
    Some(Handle {
        path,
        name: format!("{} roll about the chord", hand.key()),
        at: view.point(&apex),
        from: view.point(&apex),
        pull: Pull(Point::new(way.x * DEGREE * letter, way.y * DEGREE * letter)),
        value: bent.roll.degrees(),
    })
}

/// The apex that stands furthest off the chord, and how it stands off; the first of those that stand off alike.
fn furthest(
    bent: &BentStay,
    front: &Point3<f64>,
    chord: &Vector3<f64>,
) -> Option<(Point3<f64>, Vector3<f64>)> {
    let apexes = bent.bends.iter().map(|bend| {
        let apex = bent.line.at(bend.apex.mm()).point;
        let from = apex - front;
        (apex, from - chord * from.dot(chord))
    });
    apexes.reduce(|one, other| if other.1.norm() > one.1.norm() + FURTHER { other } else { one })
}

/// Which way what stands `off` the chord is pulled to turn it on, length 1: the way it then goes; flat, towards the eye where
/// it is pulled inwards. Roll counts from outboard upwards, on the left the other way about.
fn pull(off: &Vector3<f64>, chord: &Vector3<f64>, hand: Hand, view: View) -> Point {
    let along = outwards(view.direction(chord), hand);
    let ahead = view.direction(&(chord.cross(off) * hand.sign()));
    let goes = (ahead.x * along.x + ahead.y * along.y) / off.norm();
    let way = if goes > FLAT { 1.0 } else { -1.0 };
    Point::new(along.x * way, along.y * way)
}

/// On the sheet, square to what is seen of the chord, to the stay's own side.
fn outwards(chord: Point, hand: Hand) -> Point {
    let length = chord.x.hypot(chord.y);
    let side = if chord.x * hand.sign() < 0.0 { -1.0 } else { 1.0 };
    if length > 0.0 {
        Point::new(-chord.y * side / length, chord.x * side / length)
    } else {
        Point::new(0.0, hand.sign())
    }
}
