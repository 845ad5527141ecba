//! What cannot be done at a step, in words.

use super::super::Style;
use super::super::machining::{standing_name, turning_name};
use super::{axis, verdict};
use crate::procedure::{Problem, Ranged, Turned};
use crate::units::{Angle, Length, said};

/// The sentence, as a list of such takes it.
pub fn problem(problem: &Problem, style: Style) -> String {
    let length = |length: &Length| style.length(*length);
    match problem {
        Problem::OutOfRange { what, wanted, from, to } => out_of_range(*what, [*wanted, *from, *to], style),
        Problem::TurnOutOfRange { what, wanted, from, to } => turn(*what, [*wanted, *from, *to], style),
        Problem::NoHoleSaw { planned, nearest } => {
            let nearest = nearest.map_or_else(
                || "there is none".to_owned(),
                |near| {
                    format!(
                        "the nearest, {}, is {}",
                        style.length(near.diameter),
                        verdict(near.verdict, style)
                    )
                },
            );
            format!("no hole saw on hand: {} is planned, {nearest}", length(planned))
        }
        Problem::NoSlittingSaw { width } => format!(
            "no slitting saw on hand: the slot is {} wide, and every saw is wider or far thinner",
            length(width)
        ),
        Problem::PostNotReached(post) => format!("post {post} is not needed: no stay reaches it"),
        Problem::SawsUnknown => "nobody has said what saws are on hand: enter yours in the shop".to_owned(),
        Problem::CollarShort(by) => {
            format!("the saw's collar meets the stay's end {} before the slot is deep enough", length(by))
        }
        Problem::ArborShort(by) => format!(
            "the holder meets the first stay before the saw is through: the arbor is too short by {}",
            length(by)
        ),
        Problem::SawShallow(by) => {
            format!("the slug does not go into the saw: it is too shallow by {}", length(by))
        }
        Problem::SpindleTravelShort(by) => {
            format!("the way in is longer than the travel along the spindle by {}", length(by))
        }
        Problem::TableTravelShort { axis: which, by } => {
            format!("the table's {} travel is short by {}", axis(*which), length(by))
        }
        Problem::Meets { part, body, after } => {
            format!(
                "the {} meets the {} after {} of its way in",
                turning_name(*part),
                standing_name(*body),
                length(after)
            )
        }
        Problem::ClearFrom(hand) => {
            format!("with the spindle on the {} nothing is in the way", hand.key())
        }
        Problem::TooFast { wanted, times } => format!(
            "this cutter wants {} rpm; the mill's slowest speed is {} times that",
            said(wanted.rpm(), 0),
            said(*times, 1)
        ),
    }
}

fn out_of_range(what: Ranged, [wanted, from, to]: [Length; 3], style: Style) -> String {
    let what = match what {
        Ranged::Slide => "the slide",
        Ranged::AxleHeight => "the axle height",
        Ranged::Post => "the post",
        Ranged::Clamp => "the clamp",
    };
    let over = if wanted < from { from - wanted } else { wanted - to };
    let [wanted, from, to, over] = [wanted, from, to, over].map(|figure| style.length(figure));
    format!("{what} would stand at {wanted}; it goes from {from} to {to}: {over} is missing")
}

fn turn(what: Turned, [wanted, from, to]: [Angle; 3], style: Style) -> String {
    let way = match what {
        Turned::Tilt => "tilt",
        Turned::Swivel => "swivel",
    };
    let over =
        if wanted < from { from.degrees() - wanted.degrees() } else { wanted.degrees() - to.degrees() };
    let [wanted, from, to, over] =
        [wanted, from, to, Angle::from_degrees(over)].map(|figure| style.angle(figure));
    format!("the fixture would {way} by {wanted}; it can {way} from {from} to {to}: {over} is missing")
}
