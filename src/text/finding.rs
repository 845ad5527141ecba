//! A finding, in words.

use super::clearance::neighbour;
use super::location::location;
use super::machining::{advice, advice_reason};
use super::procedure::{problem as procedure_problem, verdict};
use super::{Style, fault, plan_problem};
use crate::clearance::Obstacle;
use crate::findings::{ClearanceFound, Finding, What};
use crate::model::{Basis, Level, Location};

/// What was found and where, as one sentence without a full stop.
pub fn finding(finding: &Finding, style: Style) -> String {
    let message = finding_message(finding, style);
    match (&finding.what, finding.location) {
        (What::Fault(_), _) | (_, Location::Whole) => message,
        (_, place) => format!("{}: {message}", location(place)),
    }
}

/// What was found, without the place: it begins small, where it is not advice, and has no full stop.
pub fn finding_message(finding: &Finding, style: Style) -> String {
    match &finding.what {
        What::Fault(wrong) => fault(wrong, style),
        What::Plan(problem) => plan_problem(problem, style),
        What::Clearance(found) => clearance(found, style),
        What::Procedure(problem) => procedure_problem(problem, style),
        What::SawUnfit { saw, verdict: why } => {
            format!("the saw of {} is {}", style.length(*saw), verdict(*why, style))
        }
        What::Advice(one) => {
            format!("{} {}", advice(*one).trim_end_matches('.'), because(&advice_reason(*one, style)))
        }
        What::LimitsUnsourced(limits) => unsourced(limits, style),
    }
}

fn because(reason: &str) -> String {
    format!("– {reason}")
}

/// `hits the tyre by 3.03 mm (need 6 mm, a shop habit, unsourced), 212 mm behind the front reference point`.
fn clearance(found: &ClearanceFound, style: Style) -> String {
    let name = named(found.to, found.is_one_of_several, style);
    let [distance, hit, limit] =
        [found.distance, -found.distance, found.limit].map(|length| style.length(length));
    let need = match found.basis {
        Basis::Habit => format!("need {limit}, {}", basis(found.basis)),
        Basis::Published | Basis::Own => format!("need {limit}"),
    };
    let place = super::plan::from_front_point(found.station, style);
    match Finding::new(Location::Whole, What::Clearance(*found)).level {
        Level::Stop => format!("hits {name} by {hit} ({need}), {place}"),
        Level::Check => format!("clears {name} by {distance} only ({need}), {place}"),
        Level::Note => format!("clears {name} by {distance}, which is tight ({need}), {place}"),
    }
}

/// What a limit rests on.
pub const fn basis(basis: Basis) -> &'static str {
    match basis {
        Basis::Published => "published",
        Basis::Habit => "a shop habit, unsourced",
        Basis::Own => "your own figure",
    }
}

/// An obstacle with its article: by number where there are several.
fn named(to: Obstacle, is_one_of_several: bool, style: Style) -> String {
    match to {
        Obstacle::Chainring(_) if !is_one_of_several => "the chainring".to_owned(),
        _ => neighbour(to, style),
    }
}

fn unsourced(limits: &[Obstacle], style: Style) -> String {
    let names: Vec<String> = limits.iter().map(|limit| kind(*limit, style)).collect();
    let (last, first) =
        names.split_last().map_or((String::new(), &[][..]), |(last, first)| (last.clone(), first));
    let list = if first.is_empty() { last } else { format!("{} and {last}", first.join(", ")) };
    format!("the clearance wanted to {list} is {}", basis(Basis::Habit))
}

/// A kind of obstacle with its article.
fn kind(to: Obstacle, style: Style) -> String {
    match to {
        Obstacle::Chainring(_) => "chainrings".to_owned(),
        Obstacle::Post(_) => "posts".to_owned(),
        _ => neighbour(to, style),
    }
}
