//! What the figures beside a step are called.

use super::super::Style;
use super::super::machining::{standing_name, turning_name};
use super::{axis, face};
use crate::model::{Hand, capital};
use crate::procedure::{AxleSide, Quantity};
use crate::units::Length;

/// Its name.
pub fn quantity(what: Quantity, style: Style) -> String {
    let plain = match what {
        Quantity::DatumToAxle => "Front datum line to axle",
        Quantity::AxleFromPlane(AxleSide::Below) => "Below the stay plane",
        Quantity::AxleFromPlane(AxleSide::In) => "From the stay plane",
        Quantity::AxleFromPlane(AxleSide::Above) => "Above the stay plane",
        Quantity::PostStation(post) => return format!("Post {post} stands at"),
        Quantity::OnScale(post, hand) => return format!("Post {post}, {} on the scale", hand.key()),
        Quantity::CalipersInside(post) => return format!("Post {post}, calipers inside"),
        Quantity::CalipersOutside(post) => return format!("Post {post}, calipers over both"),
        Quantity::Trim(Hand::Right) => "Right, front end to its mark",
        Quantity::Trim(Hand::Left) => "Left, front end to its mark",
        Quantity::BendAlong(bend, whose) => return of_bend(bend, whose, "apex along the fixture"),
        Quantity::BendAbove(bend, whose) => return of_bend(bend, whose, "apex above the stay plane"),
        Quantity::BendOut(bend, whose) => {
            let line = style.word("apex from the center line", "apex from the centre line");
            return of_bend(bend, whose, line);
        }
        Quantity::EdgeFinder => "Edge finder",
        Quantity::FaceToAxis(from) => return format!("{} to cutter's axis", capital(face(from))),
        Quantity::EdgeToAxis => "Edge to cutter's axis",
        Quantity::EdgeToRoot => "Edge to slot's root",
        Quantity::Planned { axis: which, goes_in } => return planned(axis(which), goes_in, style),
        Quantity::Stays(which) => return format!("{} stays at", axis(which)),
        Quantity::CutThrough => "Must cut through",
        Quantity::SawGap => "Gap with this saw",
        Quantity::GoesIn => "Stay goes in by",
        Quantity::StandsOff => "Stay stands off by",
        Quantity::Spindle => "Spindle",
        Quantity::Feed => "Feed, at most",
        Quantity::SmallestGap(part, body) => {
            return format!("Smallest gap, {} to {}", turning_name(part), standing_name(body));
        }
        Quantity::Plate => "Plate",
        Quantity::SlotWidth => "Slot's width",
        Quantity::SawDiameter => "Saw",
        Quantity::ShallowerAtEdges => "Slot shallower at the tube's edges by",
        Quantity::CentreToSlot => {
            style.word("Center plane to slot's middle", "Centre plane to slot's middle")
        }
        Quantity::CentreToSlotAtRear => style.word(
            "Center plane to slot's middle at the dropout point",
            "Centre plane to slot's middle at the dropout point",
        ),
        Quantity::SlotDepth => "Slot depth along the stay",
        Quantity::PlaneToSpindle => "Stay plane to spindle",
    };
    plain.to_owned()
}

/// Why a readout is not the planned one: the saw is not as large as the member.
fn planned(which: &str, goes_in: Length, style: Style) -> String {
    if goes_in.mm() < 0.0 {
        format!("{which} as planned; with this saw the stay stands off {}", style.length(-goes_in))
    } else {
        format!("{which} as planned; with this saw the stay goes in {} further", style.length(goes_in))
    }
}

fn of_bend(bend: u8, whose: Option<Hand>, what: &str) -> String {
    let whose = whose.map_or_else(String::new, |hand| format!(", {}", hand.key()));
    format!("Bend {bend}{whose}: {what}")
}
