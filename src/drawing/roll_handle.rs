//! The handle by which a bent tube is turned about its chord.

use super::pull::{Pull, Round};
use super::sheet::{Handle, Point};
use super::view::View;
use crate::plan::{BentStay, Stay};
use crate::trade::Hand;
use nalgebra::{Point3, Vector3};

/// Of two apexes, the second one is further off the chord if it is by more than this, mm.
const FURTHER: f64 = 1e-6;

/// At the apex of the bend that stands furthest off the chord; none on a straight stay.
pub(super) fn roll_handle(stay: &Stay, hand: Hand, path: String, view: View) -> Option<Handle> {
    let bent = stay.bent.as_ref()?;
    let chord = (stay.rear_point - stay.front_point).try_normalize(0.0)?;
    let (apex, off) = furthest(bent, &stay.front_point, &chord)?;
    Some(Handle {
        path,
        name: format!("{} roll about the chord", hand.key()),
        at: view.point(&apex),
        pull: Pull::Round(round(&off, &chord, hand, view)),
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

/// How what stands `off` the chord is seen to go round it. Roll counts from outboard upwards, on the left the other way about.
fn round(off: &Vector3<f64>, chord: &Vector3<f64>, hand: Hand, view: View) -> Round {
    let along = outwards(view.direction(chord), hand);
    let across = |vector: &Vector3<f64>| {
        let seen = view.direction(vector);
        seen.x * along.x + seen.y * along.y
    };
    let (here, ahead) = (across(off), across(&(chord.cross(off) * hand.sign())));
    Round { along, swing: here.hypot(ahead), phase: (-ahead).atan2(here) }
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
