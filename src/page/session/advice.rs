//! Where each finding of a plan is shown.

use super::place::Place;
use staywright::model::Stays;
use staywright::plan::{Code, CutAt, Warning};

/// The place of the page that a warning belongs to.
pub const fn place_of(code: Code) -> Place {
    match code {
        Code::StaysCollide
        | Code::BendInCut
        | Code::TightBend
        | Code::TaperInBend
        | Code::BendPastTubeEnd
        | Code::TubeCannotSpan
        | Code::HubSpacing
        | Code::NothingToFind
        | Code::WallUnused => Place::Stays,
        Code::SidesApart
        | Code::SlideOutOfRange
        | Code::AxleHeightOutOfRange
        | Code::PostOffStay
        | Code::PostOnBend
        | Code::PostsTogether => Place::SetUp,
        _ => Place::Cuts,
    }
}

/// The warnings of a place, each said once.
pub fn at(warnings: &[Warning], place: Place) -> Vec<Warning> {
    once(warnings.iter().filter(|warning| place_of(warning.code()) == place))
}

/// The same warning of the right and the left side is one warning of both.
pub fn once<'a>(warnings: impl IntoIterator<Item = &'a Warning>) -> Vec<Warning> {
    let mut said: Vec<Warning> = Vec::new();
    for warning in warnings {
        match said.iter_mut().find(|right| mirrors(right, warning)) {
            Some(right) => right.location = right.location.of(Stays::Both),
            None => said.push(warning.clone()),
        }
    }
    said
}

fn mirrors(right: &Warning, left: &Warning) -> bool {
    right.problem == left.problem
        && right.location != left.location
        && right.location.stays().is_some_and(|stays| stays != Stays::Both)
        && right.location.of(Stays::Both) == left.location.of(Stays::Both)
}

/// Whether a warning is about that cut, its stay or its pair.
pub fn about(warning: &Warning, pick: CutAt) -> bool {
    warning.location.covers(pick.pair, pick.hand, pick.at_front)
}

#[cfg(test)]
mod tests {
    use super::*;
    use staywright::model::{Hand, Location, PairName};
    use staywright::plan::Problem;

    const FRONT: Location = Location::End(PairName::Chainstays, Stays::One(Hand::Right), true);

    fn warning(location: Location) -> Warning {
        Warning { location, problem: Problem::GrazingCut }
    }

    #[test]
    fn what_both_sides_share_is_said_once() {
        let left = Location::Stay(PairName::Seatstays, Stays::One(Hand::Left));
        let pair = Location::Pair(PairName::Chainstays);
        let warnings = [FRONT, FRONT.of(Stays::One(Hand::Left)), left, pair, pair].map(warning);
        let places: Vec<String> = once(&warnings).into_iter().map(|warning| warning.location.key()).collect();
        assert_eq!(places, ["chainstays.both.front", "seatstays.left", "chainstays", "chainstays"]);
    }

    #[test]
    fn what_differs_between_the_sides_is_said_of_each() {
        let other =
            Warning { problem: Problem::PartlyMissesSaw, ..warning(FRONT.of(Stays::One(Hand::Left))) };
        assert_eq!(once(&[warning(FRONT), other]).len(), 2);
    }

    #[test]
    fn a_warning_reaches_the_cuts_it_is_about() {
        assert!(about(&warning(FRONT), CutAt::FIRST));
        assert!(about(&warning(Location::Pair(PairName::Chainstays)), CutAt::FIRST));
        assert!(!about(
            &warning(Location::End(PairName::Chainstays, Stays::One(Hand::Right), false)),
            CutAt::FIRST
        ));
    }
}
