//! What is to be done at a step, on what, and how to see that it was done.

use super::super::Style;
use super::{axis, face, label, motion, scale, stays};
use crate::model::shop::SpindleWay;
use crate::model::{Hand, TouchSide};
use crate::plan::EndUp;
use crate::procedure::{
    AxleSide, CutPart, Face, HeightFrom, Motion, Phase, Scale, SettingKey, Step, StepKind, Task, Turn,
};

/// What to do, in a few words.
pub fn task(step: &Step) -> String {
    let plain = match step.task {
        Task::MarkHands => "Mark every tube left or right",
        Task::SetSlide => "Set the slide",
        Task::SetAxleHeight(_) => "Set the dummy axle's height",
        Task::SetAxle(_) => "Set the slide and the dummy axle's height",
        Task::SetPosts { count: 1, .. } => "Set the post",
        Task::SetPosts { .. } => "Set the posts",
        Task::Clamp { .. } => {
            let SettingKey { pair, stays: which, .. } = step.key.setting;
            return format!("Clamp the {}", stays(pair, which));
        }
        Task::TakeAxleOut => "Take the dummy axle out",
        Task::StandOnSide { side, .. } => {
            return format!("Stand the fixture on its side, {} side to the spindle", side.key());
        }
        Task::Tilt { end_up, .. } => tilt(end_up),
        Task::Swivel { .. } => "Swivel the fixture",
        Task::TouchCorner { from, along, face: which, across } => {
            let (from, which) = (touch_side(from), face(which));
            let (along, across) = (axis(along), axis(across));
            return format!(
                "Touch the datum edge from the {from}, set {along} to zero; touch {which}, set {across} to zero"
            );
        }
        Task::PointAtEdge => "Point at the middle of the datum edge",
        Task::TouchFace(which) => return format!("Touch {}", face(which)),
        Task::TouchTop(side) => {
            return format!("Touch the {} side of the mounting block with the saw", side.key());
        }
        Task::MountHoleSaw { .. } => "Mount the hole saw",
        Task::MountSlittingSaw { touches: None, .. } => "Mount the slitting saw",
        Task::MountSlittingSaw { touches: Some(side), .. } => {
            return format!(
                "Mount the slitting saw; touch the {} side of the mounting block with it, set Z to zero",
                side.key()
            );
        }
        Task::Move { .. } => return format!("{}: move to", readouts(step)),
        Task::MoveAlong { .. } => return format!("{}: move to", readout(step)),
        Task::MoveAcross { .. } => return format!("{}: move to", readout(step)),
        Task::StopAtRoot { across: None, .. } => {
            return format!("{}: set the stop at the slot's root", readout(step));
        }
        Task::StopAtRoot { across: Some(_), .. } => {
            return format!("{}: set the stop at the slot's root, and move to", readouts(step));
        }
        Task::Slot { hand, passes, .. } => return slot(hand, passes),
        Task::Cut { part } => return cut(part, step.key.setting),
        Task::SawSquare => "Saw square",
        Task::ClearSlug { takes_saw_out: false } => "Clear the slug, spindle off and locked",
        Task::ClearSlug { takes_saw_out: true } => {
            "Take the saw out and clear the slug, spindle off and locked"
        }
        Task::TakeSawOut => "Take the slitting saw out, spindle off and locked",
        Task::Deburr => "Deburr every end",
    };
    plain.to_owned()
}

/// What stands in the figure's place where the task itself is what is set.
pub const fn figure(task: Task) -> Option<&'static str> {
    match task {
        Task::StandOnSide { .. } => Some("on its side"),
        _ => None,
    }
}

const fn touch_side(from: TouchSide) -> &'static str {
    match from {
        TouchSide::Front => "front",
        TouchSide::Rear => "rear",
    }
}

/// How the fixture stands when it is tilted.
pub const fn end_up(end_up: EndUp) -> &'static str {
    match end_up {
        EndUp::Front => "front end up",
        EndUp::Rear => "rear end up",
        EndUp::Level => "level",
        EndUp::Either => "upright, front end up",
    }
}

const fn tilt(end_up: EndUp) -> &'static str {
    match end_up {
        EndUp::Front => "Tilt the fixture, front end up",
        EndUp::Rear => "Tilt the fixture, rear end up",
        EndUp::Level => "Lay the fixture level",
        EndUp::Either => "Stand the fixture upright, front end up",
    }
}

fn readout(step: &Step) -> &'static str {
    match step.scale {
        Some(Scale::Dro(which)) => axis(which),
        _ => "Table",
    }
}

/// Every readout that is set: `X and Y`.
fn readouts(step: &Step) -> String {
    let names: Vec<String> = step.set_points().filter_map(|point| label(point.scale)).collect();
    names.join(" and ")
}

fn slot(hand: Hand, passes: u8) -> String {
    match passes {
        1 => format!("Slot the {} stay", hand.key()),
        _ => format!("Slot the {} stay in {passes} passes", hand.key()),
    }
}

fn cut(part: CutPart, setting: SettingKey) -> String {
    let end = if setting.phase == Phase::Front { "front" } else { "rear" };
    match part {
        CutPart::One => format!("Cut the {end} end"),
        CutPart::Both => format!("Cut the {end} ends"),
        CutPart::First => format!("Cut the first stay's {end} end and stop"),
        CutPart::Second => format!("Cut the second stay's {end} end"),
    }
}

/// On what it is set, and which way round.
pub fn set_on(step: &Step, style: Style) -> String {
    let centre = style.word("center", "centre");
    let on = step.scale.map_or("", scale);
    match step.task {
        Task::MarkHands => {
            "chainstays and seat stays, seen from the rider's seat; where no cut takes the mark away"
                .to_owned()
        }
        Task::SetSlide => slide(on),
        Task::SetAxleHeight(side) => axle_height(on, side),
        Task::SetAxle(side) => format!("{}; {}", slide(on), axle_height(scale_of(step, 1), side)),
        Task::SetPosts { .. } => {
            format!("clamp scale, from the {centre} line out to the middle of each tube")
        }
        Task::Clamp { is_bent } => {
            let turned = if is_bent { ", each turned until its bends stand as given" } else { "" };
            format!(
                "mark each tube so far from its raw front end; the marks on the front datum line, the tubes at the posts' \
                 spacing{turned}"
            )
        }
        Task::TakeAxleOut => "the cutter would meet it; the clamps hold the stays".to_owned(),
        Task::StandOnSide { mounting, .. } => format!(
            "{centre} plane square to the spindle, base face towards the side that is touched, {}",
            mounting.name()
        ),
        Task::Tilt { spindle, .. } => gauge(spindle).to_owned(),
        Task::Swivel { turn, is_on_side } => swivel(turn, is_on_side),
        Task::TouchCorner { .. } => "edge finder in the spindle".to_owned(),
        Task::PointAtEdge => format!(
            "{on} along the fixture, a pointed tip in the spindle where the {centre} line crosses the edge; set it to zero there"
        ),
        Task::TouchFace(_) => {
            format!("{on} across the fixture, edge finder in the spindle; set it to zero there")
        }
        Task::TouchTop(_) => {
            format!("{on}, the saw's face just rubbing, spindle still; set it to zero there")
        }
        Task::MountHoleSaw { .. } => "measured over the teeth; spindle off and locked".to_owned(),
        Task::MountSlittingSaw { passes, touches } => mount(passes, touches.is_some()),
        Task::Move { is_rearwards, along, face: from, across } => {
            moves(step, (is_rearwards, along), (from, across))
        }
        Task::MoveAlong { is_rearwards, motion } => along(on, is_rearwards, motion),
        Task::MoveAcross { face: from, motion: goes } => crosswise(on, from, goes),
        Task::StopAtRoot { motion, across } => match across {
            Some((from, goes)) => {
                format!("{}; {}", stop(on, motion), crosswise(scale_of(step, 1), from, goes))
            }
            None => stop(on, motion),
        },
        Task::Slot { from, passes, .. } => height(from, passes, style),
        Task::Cut { part } => feed(part).to_owned(),
        Task::SawSquare => "from the front reference point along the stay, square to it".to_owned(),
        Task::TakeSawOut => "before hands go near the stays".to_owned(),
        Task::ClearSlug { .. } => "push it out from behind; no fingers into the teeth".to_owned(),
        Task::Deburr => "out of the fixture, inside and out; the fit must not change".to_owned(),
    }
}

fn slide(on: &str) -> String {
    format!("{on}, from the front datum line back to the dummy axle, which is in its holder")
}

fn axle_height(on: &str, side: AxleSide) -> String {
    format!("{on}: the axle sits {}", axle_side(side))
}

const fn axle_side(side: AxleSide) -> &'static str {
    match side {
        AxleSide::Below => "below the stay plane, towards the base",
        AxleSide::In => "in the stay plane",
        AxleSide::Above => "above the stay plane",
    }
}

const fn gauge(spindle: SpindleWay) -> &'static str {
    match spindle {
        SpindleWay::Vertical => "gauge zeroed on the table, then laid along the fixture",
        SpindleWay::Horizontal => {
            "gauge zeroed square to the spindle, then laid along the fixture; up is towards the spindle"
        }
    }
}

/// Which way a turn goes, seen from above the stays.
pub const fn turn(turn: Turn) -> &'static str {
    match turn {
        Turn::Clockwise => "clockwise, seen from above the stays",
        Turn::CounterClockwise => "counter-clockwise, seen from above the stays",
    }
}

fn swivel(way: Turn, is_on_side: bool) -> String {
    let when = if is_on_side { "as it stands on its side" } else { "the tilt staying as it is" };
    format!("about the fixture's own normal, {when}: {}", turn(way))
}

fn mount(passes: Option<u8>, touches: bool) -> String {
    let then = if touches { "; then touch with the saw's face just rubbing, spindle still" } else { "" };
    let mounted = match passes {
        Some(1) => "width of its cut, measured in scrap; one pass; spindle off and locked".to_owned(),
        Some(count) => format!(
            "width of its cut, measured in scrap; {count} passes, evenly about the middle; spindle off and locked"
        ),
        None => "the slot's width; a thinner saw takes more passes, evenly about the middle".to_owned(),
    };
    mounted + then
}

/// The scale of the figure at that place among those that a step sets.
fn scale_of(step: &Step, place: usize) -> &'static str {
    step.set_points().nth(place).and_then(|point| point.scale).map_or("", scale)
}

fn moves(step: &Step, (is_rearwards, goes): (bool, Motion), (from, across): (Face, Motion)) -> String {
    let along = along(scale_of(step, 0), is_rearwards, goes);
    format!("{along}; {}", crosswise(scale_of(step, 1), from, across))
}

fn crosswise(on: &str, from: Face, goes: Motion) -> String {
    format!("{on} across the fixture, from {} inwards: the cutter goes {}", face(from), motion(goes))
}

fn along(on: &str, is_rearwards: bool, goes: Motion) -> String {
    let way = if is_rearwards { "rearwards" } else { "forwards" };
    format!("{on} along the fixture, {way} from the touch: the cutter goes {}", motion(goes))
}

fn stop(on: &str, goes: Option<Motion>) -> String {
    match goes {
        Some(goes) => format!(
            "{on} along the fixture, the saw behind the root and fed forwards to here: from the touch the cutter goes {}",
            motion(goes)
        ),
        None => format!(
            "{on} along the fixture: the saw's front edge; its middle stands half its diameter further to the rear"
        ),
    }
}

fn height(from: HeightFrom, passes: u8, style: Style) -> String {
    let centre = style.word("center", "centre");
    let set = match from {
        HeightFrom::Touch(goes) => format!("Z readout, from the touch {}", motion(goes)),
        HeightFrom::Datum => {
            "along the spindle, from that point of the datum edge outboard to the middle of the saw; \
                              measured, as no scale shows it"
                .to_owned()
        }
        HeightFrom::CentrePlane => {
            format!("along the spindle, from the {centre} plane out to the middle of the saw")
        }
    };
    let each = if passes > 1 { "at each height, feed" } else { "feed" };
    format!("{set}; {each} from the open end in to the stop, slowly, and back out")
}

const fn feed(part: CutPart) -> &'static str {
    match part {
        CutPart::One => "table clamped; feed slowly, let the saw cut",
        CutPart::Both => "table clamped; one pass through both stays, feed slowly",
        CutPart::First => {
            "table clamped; feed slowly, stop between the stays: the saw is not deep enough for both slugs"
        }
        CutPart::Second => "table still clamped; on through the second stay, feed slowly",
    }
}

/// How to see that it was done right.
pub const fn check(step: &Step) -> Option<&'static str> {
    match step.task {
        Task::SetSlide => Some("measure from the front datum line to the middle of the dummy axle"),
        Task::SetAxle(_) => Some(
            "measure from the front datum line, and from the stay plane, to the middle of the dummy axle",
        ),
        Task::SetAxleHeight(_) => Some("measure from the stay plane to the middle of the dummy axle"),
        Task::SetPosts { has_calipers: true, .. } => {
            Some("calipers between the tubes and over them, across the fixture")
        }
        Task::Clamp { .. } => Some("pull at each stay by hand; read the posts once more"),
        Task::StandOnSide { .. } => Some("run an indicator along the side of the mounting block, both ways"),
        Task::Tilt { .. } => Some("the gauge, again, when everything is tightened"),
        Task::MountHoleSaw { is_measured: false } => {
            Some("this saw has not been measured: cut a scrap of tube and measure the cut")
        }
        Task::Slot { .. } => Some("the plate slides in by hand and stands square"),
        Task::MarkHands
        | Task::SetPosts { .. }
        | Task::TakeAxleOut
        | Task::Swivel { .. }
        | Task::TouchCorner { .. }
        | Task::PointAtEdge
        | Task::TouchFace(_)
        | Task::TouchTop(_)
        | Task::MountHoleSaw { .. }
        | Task::MountSlittingSaw { .. }
        | Task::Move { .. }
        | Task::MoveAlong { .. }
        | Task::MoveAcross { .. }
        | Task::StopAtRoot { .. }
        | Task::Cut { .. }
        | Task::SawSquare
        | Task::ClearSlug { .. }
        | Task::TakeSawOut
        | Task::Deburr => None,
    }
}

/// Why a step comes now and not later.
pub fn why(step: &Step) -> Option<&'static str> {
    let is_first_saw = step.key.kind == StepKind::HoleSaw && step.key.setting.phase == Phase::Front;
    is_first_saw.then_some(
        "the front ends hang from the front datum line, where the tubes are marked; the rear ends follow in the same clamping",
    )
}
