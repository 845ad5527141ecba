//! The steps of the order of work, in words.

mod caution;
mod problem;
mod quantity;
mod task;

pub use caution::{caution, source};
pub use problem::problem;
pub use quantity::quantity;
pub use task::{check, end_up, figure, set_on, task, turn, why};

use super::Style;
use crate::machining::Verdict;
use crate::model::shop::Axis;
use crate::model::{Hand, PairName, Stays, capital};
use crate::procedure::{Face, Motion, Phase, Scale, SettingKey};

/// The heading of a setting's steps: `Chainstays, front ends`.
pub fn setting(setting: &SettingKey) -> String {
    let stays = match setting.stays {
        Stays::Both => setting.pair.name().to_owned(),
        Stays::One(hand) => format!("{} {}", hand.key(), setting.pair.one()),
    };
    let ends = |end: &str| match setting.stays {
        Stays::Both => format!("{stays}, {end} ends"),
        Stays::One(_) => format!("{stays}, {end} end"),
    };
    let words = match setting.phase {
        Phase::Before => "before clamping".to_owned(),
        Phase::Clamping => format!("{stays} in the fixture"),
        Phase::Front => ends("front"),
        Phase::Rear => ends("rear"),
        Phase::After => "when all is cut".to_owned(),
    };
    capital(&words)
}

/// `chainstays`, or `right chainstay`.
fn stays(pair: PairName, stays: Stays) -> String {
    match stays {
        Stays::Both => pair.name().to_owned(),
        Stays::One(hand) => format!("{} {}", hand.key(), pair.one()),
    }
}

/// A scale or readout.
pub const fn scale(scale: Scale) -> &'static str {
    match scale {
        Scale::Slide => "slide scale",
        Scale::AxleHeight => "axle height scale",
        Scale::HalfSpacing(_) => "clamp scale",
        Scale::Tilt => "gauge",
        Scale::Swivel => "swivel scale",
        Scale::Dro(Axis::X) => "X readout",
        Scale::Dro(Axis::Y) => "Y readout",
        Scale::Dro(Axis::Z) => "Z readout",
    }
}

/// What a figure is called beside others of its step; `None` for one that needs no name.
pub fn label(scale: Option<Scale>) -> Option<String> {
    match scale? {
        Scale::Dro(which) => Some(axis(which).to_owned()),
        Scale::Slide => Some("slide".to_owned()),
        Scale::AxleHeight => Some("height".to_owned()),
        Scale::HalfSpacing(post) => Some(format!("post {post}")),
        _ => None,
    }
}

const fn axis(axis: Axis) -> &'static str {
    match axis {
        Axis::X => "X",
        Axis::Y => "Y",
        Axis::Z => "Z",
    }
}

const fn face(face: Face) -> &'static str {
    match face {
        Face::Base => "the base face",
        Face::Block(Hand::Left) => "the left side of the mounting block",
        Face::Block(Hand::Right) => "the right side of the mounting block",
    }
}

/// How the cutter is seen to go.
const fn motion(motion: Motion) -> &'static str {
    match motion {
        Motion::Right => "to the right",
        Motion::Left => "to the left",
        Motion::Away => "away from you",
        Motion::Near => "towards you",
        Motion::Up => "up",
        Motion::Down => "down",
        Motion::OutOfWork => "out of the work",
        Motion::IntoWork => "into the work",
    }
}

/// What a saw is for a cut: `fit`, or `too large: …` with the reason.
pub fn verdict(verdict: Verdict, style: Style) -> String {
    match verdict {
        Verdict::Fits => "fit".to_owned(),
        Verdict::CannotSeat(by) => {
            format!("too small: {} slimmer than the member, so the stay cannot seat", style.length(by))
        }
        Verdict::TooLarge(by) => format!("too large: the gap is {} too wide", style.length(by)),
        Verdict::TooShort(by) => format!("too short: {} deeper is needed for the slug", style.length(by)),
        Verdict::NotAllRound => "unfit: it does not cut all round".to_owned(),
    }
}
