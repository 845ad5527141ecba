//! What a plan finds, in words.

use super::Style;
use super::location::location;
use crate::model::Hand;
use crate::plan::{Mate, OutOfRange, Problem, SectionChange, Warning};
use crate::units::{Angle, Length};

/// What is wrong and where, as one sentence without a full stop.
pub fn warning(warning: &Warning, style: Style) -> String {
    format!("{}: {}", location(warning.location), problem(&warning.problem, style))
}

/// What is wrong, without the place: it begins small and has no full stop.
pub fn problem(problem: &Problem, style: Style) -> String {
    let length = |length: Length| style.length(length);
    match problem {
        Problem::SidesApart(pair) => {
            let one = pair.one();
            format!(
                "the right and the left {one} need clamp planes of their own: clamp and cut them one at a time"
            )
        }
        Problem::AxesParallel(mate) => parallel(*mate, style),
        Problem::MissesMate(mate) => nothing_to_cut("the tube misses the", mate_name(*mate)),
        Problem::MissesSaw { saw } => nothing_to_cut("the tube misses the saw of", &length(*saw)),
        Problem::SeatsNowhere(mate) => {
            format!("the tube misses the {}: the saw cuts it, but it seats nowhere", mate_name(*mate))
        }
        Problem::TouchesMate(mate) => nothing_to_cut("the tube only touches the", mate_name(*mate)),
        Problem::TouchesSaw => nothing_to_cut("the tube only touches the", "saw"),
        Problem::PartlyMissesMate { mate, saw_fits, missed } => partly(*mate, *saw_fits, missed, style),
        Problem::PartlyMissesSaw => "partial contact with the saw: it misses part of the tube".to_owned(),
        Problem::GrazingCut => {
            "the saw runs out along the side of the tube: the edge there is thinner than the wall".to_owned()
        }
        Problem::SawUnderStay { saw, stay } => slim_saw(*saw, "stay", *stay, style) + " at the cut",
        Problem::SawUnderMate { saw, mate, diameter } => {
            slim_saw(*saw, mate_name(*mate), *diameter, style)
                + ": the stay touches at its edges and cannot seat"
        }
        Problem::StaysCollide { depth, at_cut_ends } => collision(*depth, *at_cut_ends, style),
        Problem::CutPastTubeEnd { by } => {
            format!("the cut lies {} past the end of the raw tube", length(*by))
        }
        Problem::SectionChangesInCut { change, station } => section_change(*change, *station, style),
        Problem::SlideOutOfRange(reading) => out_of_range("slide", reading, style),
        Problem::AxleHeightOutOfRange(reading) => out_of_range("axle height", reading, style),
        Problem::PostOffStay { post, hand } => off_stay(*post, *hand, style),
        Problem::PostOnBend { post, hand } => {
            format!("the post at {} holds the {} stay on a bend", length(*post), hand.key())
        }
        Problem::SlotOutsideTube { at_mouth, outboard } => slot_outside(*at_mouth, *outboard),
        Problem::SlotTooDeep { past } => {
            format!("the slot runs {} past the stay's front reference point", length(*past))
        }
        Problem::CutsOverlap => {
            "the front cut and the rear cut meet: nothing is left between them".to_owned()
        }
        Problem::BendBeginsInCut { by } => {
            format!("a bend begins {} before the cut ends: move the bend or trim less here", length(*by))
        }
        Problem::BendEndsInCut { by } => {
            format!("a bend ends {} after the cut begins: move the bend or trim more here", length(*by))
        }
        Problem::TightBend { number, radius, diameter } => {
            let (radius, diameter) = (length(*radius), length(*diameter));
            format!("bend {number} of {radius} radius is tight for a tube of {diameter}")
        }
        Problem::TaperInBends(numbers) => taper_in(numbers),
        Problem::BendPastTubeEnd { number } => format!("bend {number} lies past the end of the raw tube"),
        Problem::TubeCannotSpan => {
            "no place of the tube has both cuts on it and off its bends: it lies as entered".to_owned()
        }
        Problem::DropoutsOffHub { between, hub } => off_hub(*between, *hub, style),
        Problem::DropoutOffHubFace { by } => {
            format!("the dropout's inner face lies {} the hub's face", beside(*by, style))
        }
        Problem::RoundDropoutInsideHub { by } => format!(
            "the stay meets the round dropout up to {} inboard of the hub's face, where the hub is",
            length(*by)
        ),
        Problem::EndBesideHubFace { by } => {
            format!(
                "the tube ends {} the hub's face: see that the dropout makes up for it",
                beside(*by, style)
            )
        }
        Problem::PastMateEnd { mate, by } => {
            format!("the stay runs {} past the end of the {}", length(*by), mate_name(*mate))
        }
        Problem::SawOverMate { saw, mate, diameter, gap } => format!(
            "the saw, {}, is larger than the {}, {}: a gap of {} is left",
            length(*saw),
            mate_name(*mate),
            length(*diameter),
            length(*gap)
        ),
        Problem::NothingToFind => "the tube is straight: there is no placement to find".to_owned(),
        Problem::WallUnused { wall } => {
            format!("the plain wall of {} counts for nothing: the butts say the wall", length(*wall))
        }
        Problem::TabsOffStays { by } => tabs_off(*by, style),
        Problem::RoundDropoutApart { by } => format!(
            "the chainstay and the seat stay are cut to round dropouts whose axes lie {} apart",
            length(*by)
        ),
        Problem::PlugTooLarge { by } => {
            format!("the plug is {} larger than the stay's bore", length(*by))
        }
        Problem::PostsTogether { post } => format!("two posts stand at {}", length(*post)),
    }
}

fn tabs_off(by: Angle, style: Style) -> String {
    let by_size = style.angle(Angle::from_degrees(by.degrees().abs()));
    let way = if by.degrees() > 0.0 { "further apart" } else { "closer together" };
    format!("the stays stand {by_size} {way} than the dropout's tabs")
}

const fn mate_name(mate: Mate) -> &'static str {
    match mate {
        Mate::Shell => "shell",
        Mate::SeatTube => "seat tube",
        Mate::RoundDropout => "round dropout",
    }
}

fn parallel(mate: Mate, style: Style) -> String {
    let mitred = style.word("mitered", "mitred");
    format!("the stay runs parallel to the {}: it cannot be {mitred} to it", mate_name(mate))
}

fn nothing_to_cut(what: &str, name: &str) -> String {
    format!("{what} {name}: there is nothing to cut")
}

fn partly(mate: Mate, saw_fits: bool, missed: &[[Angle; 2]], style: Style) -> String {
    let turn = |angle: Angle| Angle::from_degrees(angle.degrees() % 360.0);
    let one =
        |[from, to]: &[Angle; 2]| format!("{} to {}", style.rough_angle(*from), style.rough_angle(turn(*to)));
    let ranges: Vec<String> = missed.iter().map(one).collect();
    let lacks = if saw_fits { "no cut" } else { "no seat" };
    format!("partial contact with the {}: {lacks} from {}", mate_name(mate), ranges.join(" and from "))
}

fn slim_saw(saw: Length, what: &str, diameter: Length, style: Style) -> String {
    format!("the saw, {}, is slimmer than the {what}, {}", style.length(saw), style.length(diameter))
}

fn collision(depth: Length, at_cut_ends: bool, style: Style) -> String {
    let depth = style.length(depth);
    if at_cut_ends {
        format!(
            "with ends cut square the right and the left tube would run {depth} into each other: see what the cuts leave there"
        )
    } else {
        format!("the right and the left tube run {depth} into each other")
    }
}

fn section_change(change: SectionChange, station: Length, style: Style) -> String {
    let what = match change {
        SectionChange::Taper => "the taper",
        SectionChange::Oval => "an oval",
    };
    format!("{what} begins or ends inside the cut, {}", from_front_point(station, style))
}

/// A station as a distance with a word for its side: nobody reads a sign.
pub(super) fn from_front_point(station: Length, style: Style) -> String {
    let (distance, side) = if station.mm() < 0.0 { (-station, "ahead of") } else { (station, "behind") };
    format!("{} {side} the front reference point", style.length(distance))
}

fn out_of_range(name: &str, reading: &OutOfRange, style: Style) -> String {
    let side = match reading.hand {
        None => "",
        Some(Hand::Right) => "on the right ",
        Some(Hand::Left) => "on the left ",
    };
    let [reading, min, max] = [reading.reading, reading.min, reading.max].map(|figure| style.length(figure));
    format!("{side}the {name} would stand at {reading}; it goes from {min} to {max}")
}

fn off_stay(post: Length, hand: Option<Hand>, style: Style) -> String {
    let which = match hand {
        None => "neither stay reaches",
        Some(Hand::Right) => "the right stay does not reach",
        Some(Hand::Left) => "the left stay does not reach",
    };
    format!("{which} the post at {}", style.length(post))
}

fn off_hub(between: Length, hub: Length, style: Style) -> String {
    let over = between - hub;
    let (by, word) = if over.mm() < 0.0 { (-over, "less") } else { (over, "more") };
    let [by, between, hub] = [by, between, hub].map(|figure| style.length(figure));
    format!("the dropouts' inner faces are {between} apart, {by} {word} than the hub of {hub}")
}

/// A distance across the bicycle with a word for its side.
fn beside(by: Length, style: Style) -> String {
    let (by, side) = if by.mm() < 0.0 { (-by, "inboard of") } else { (by, "outboard of") };
    format!("{} {side}", style.length(by))
}

fn slot_outside(at_mouth: bool, outboard: bool) -> String {
    let end = if at_mouth { "mouth" } else { "root" };
    let face = if outboard { "outboard" } else { "inboard" };
    format!("at its {end} the slot's {face} face lies outside the tube")
}

fn taper_in(numbers: &[u32]) -> String {
    let bend = if numbers.len() == 1 { "bend" } else { "bends" };
    let numbers: Vec<String> = numbers.iter().map(u32::to_string).collect();
    format!("the tube tapers in {bend} {}: a die fits one diameter", numbers.join(", "))
}
