//! One list of what the rooms found: each thing once, the gravest first.

use super::finding::{Finding, What};
use crate::clearance::Obstacle;
use crate::machining::Verdict;
use crate::model::{Hand, Location, PairName, Stays};
use crate::{plan, procedure};
use std::cmp::Reverse;

/// One list of what was found, the gravest first, then by place. What is the same of right and left is said once of both, and
/// what two rooms found is said by the one that knows more of it.
pub fn gather(found: impl IntoIterator<Item = Finding>) -> Vec<Finding> {
    let mut said: Vec<Finding> = Vec::new();
    for finding in found {
        match said.iter_mut().find(|known| is_said_by(known, &finding)) {
            Some(known) => add_steps(known, &finding),
            None => said.push(finding),
        }
    }
    let mut said = once(said);
    said.sort_by_key(|finding| (Reverse(finding.level), place(finding.location)));
    said
}

/// The same finding of the right and the left side becomes one of both.
fn once(found: Vec<Finding>) -> Vec<Finding> {
    let mut said: Vec<Finding> = Vec::new();
    for finding in found {
        match said.iter_mut().find(|known| mirrors(known, &finding)) {
            Some(known) => {
                known.location = known.location.of(Stays::Both);
                add_steps(known, &finding);
            }
            None => said.push(finding),
        }
    }
    said
}

fn add_steps(known: &mut Finding, more: &Finding) {
    for step in &more.steps {
        if !known.steps.contains(step) {
            known.steps.push(*step);
        }
    }
}

fn mirrors(right: &Finding, left: &Finding) -> bool {
    right.what.is_same(&left.what)
        && right.location != left.location
        && right.location.stays().is_some_and(|stays| stays != Stays::Both)
        && right.location.of(Stays::Both) == left.location.of(Stays::Both)
}

/// Whether a finding says already what another does: the same thing of the same place, or what another room knows less of.
fn is_said_by(known: &Finding, other: &Finding) -> bool {
    let same_place = known.location == other.location;
    if same_place && known.what.is_same(&other.what) {
        return true;
    }
    known.location.meets(other.location) && is_of_one_cause(&known.what, &other.what)
}

/// Whether two rooms found the same thing, the first knowing more of it.
fn is_of_one_cause(known: &What, other: &What) -> bool {
    use procedure::{Problem, Ranged};
    match (known, other) {
        (What::Plan(known), What::Procedure(Problem::OutOfRange { what, .. })) => matches!(
            (known, what),
            (plan::Problem::SlideOutOfRange(_), Ranged::Slide)
                | (plan::Problem::AxleHeightOutOfRange(_), Ranged::AxleHeight)
        ),
        (What::Plan(plan::Problem::StaysCollide { .. }), What::Clearance(found)) => {
            found.to == Obstacle::Other && found.distance.mm() < 0.0
        }
        (What::Procedure(Problem::SawShallow(_)), What::SawUnfit { verdict, .. }) => {
            matches!(verdict, Verdict::TooShort(_))
        }
        _ => false,
    }
}

/// Where a place stands in the list: the whole first, then pair by pair from the whole pair to its ends, the right side first.
fn place(location: Location) -> [u8; 4] {
    let pair = location.pair().map_or(0, |pair| if pair == PairName::Chainstays { 1 } else { 2 });
    let end = location.at_front().map_or(0, |at_front| if at_front { 1 } else { 2 });
    let stays = location.stays().map_or(0, |stays| match stays {
        Stays::Both => 1,
        Stays::One(Hand::Right) => 2,
        Stays::One(Hand::Left) => 3,
    });
    let detail = u8::from(stays > 0) + u8::from(end > 0);
    [pair, detail, end, stays]
}
