//! What a change does to clearances and cuts, in words.

use super::Style;
use crate::clearance::{Effect, Obstacle};
use crate::model::Hand;
use crate::units::{Angle, Length};

/// One effect of a change on a stay: `right: rear miter 11.2° (was 10.9°)`. It begins small and has no full stop.
pub fn effect((hand, effect): (Hand, &Effect), style: Style) -> String {
    let lengths = |from: Length, to: Length| format!("{} (was {})", style.length(to), style.length(from));
    let angles = |from: Angle, to: Angle| format!("{} (was {})", style.angle(to), style.angle(from));
    let miter = style.word("miter", "mitre");
    let what = match effect {
        Effect::Length(from, to) => format!("stay length {}", lengths(*from, *to)),
        Effect::Splay(from, to) => format!("splay {}", angles(*from, *to)),
        Effect::Miter { at_front: true, from, to } => format!("front {miter} {}", angles(*from, *to)),
        Effect::Miter { at_front: false, from, to } => format!("rear {miter} {}", angles(*from, *to)),
        Effect::Slide(from, to) => format!("slide {}", lengths(*from, *to)),
        Effect::AxleHeight(from, to) => format!("axle height {}", lengths(*from, *to)),
        Effect::Clearance(to_what, from, to) => {
            format!("clearance to {} {}", neighbour(*to_what, style), lengths(*from, *to))
        }
    };
    format!("{}: {what}", hand.key())
}

/// What a neighbour is called, with its article; rings and posts by number.
pub(super) fn neighbour(to: Obstacle, style: Style) -> String {
    match to {
        Obstacle::Tyre => format!("the {}", style.word("tire", "tyre")),
        Obstacle::Chainring(i) => format!("chainring {}", i + 1),
        Obstacle::Crank => "the crank arm".to_owned(),
        Obstacle::Heel => "the heel".to_owned(),
        Obstacle::Chain => "the chain".to_owned(),
        Obstacle::Rotor => "the rotor".to_owned(),
        Obstacle::Caliper => "the caliper".to_owned(),
        Obstacle::Other => "the other stay".to_owned(),
        Obstacle::Post(i) => format!("post {}", i + 1),
    }
}
