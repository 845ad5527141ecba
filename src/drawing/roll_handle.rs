//! The handle by which a bent tube is turned about its chord.

use super::sheet::{Handle, Point};
use super::view::View;
use crate::plan::Stay;
use crate::quantity::Length;
use crate::trade::Hand;

/// How far the hand goes for each degree, mm. The apex itself may hardly move as it is seen from above, so it is not followed.
const MM_A_DEGREE: f64 = 2.0;

/// At the apex of the bend that stands furthest off the chord; none on a straight stay. Outwards turns it from outboard upwards.
pub(super) fn roll_handle(stay: &Stay, hand: Hand, path: String, view: View) -> Option<Handle> {
    let bent = stay.bent.as_ref()?;
    let chord = stay.rear_point - stay.front_point;
    let off = |station: Length| {
        let point = bent.line.at(station.mm()).point;
        (point, chord.cross(&(point - stay.front_point)).norm())
    };
    let apexes = bent.bends.iter().map(|bend| off(bend.apex));
    let (apex, _) = apexes.max_by(|one, other| one.1.total_cmp(&other.1))?;
    Some(Handle {
        path,
        name: format!("{} roll about the chord", hand.key()),
        at: view.point(&apex),
        along: Point::new(0.0, MM_A_DEGREE * hand.sign()),
        value: bent.roll.degrees(),
    })
}
