//! Where each warning of a plan is shown.

use super::place::Place;
use staywright::model::{BOTH_HANDS, Hand, place_name};
use staywright::plan::{Code, CutAt, Warning};
use staywright::units::{LengthUnit, show};

/// The place of the page that a warning belongs to.
pub const fn place_of(code: Code) -> Place {
    match code {
        Code::StaysCollide
        | Code::BendInCut
        | Code::TightBend
        | Code::TaperInBend
        | Code::BendPastTubeEnd
        | Code::TubeCannotSpan => Place::Stays,
        Code::SidesApart
        | Code::SlideOutOfRange
        | Code::AxleHeightOutOfRange
        | Code::PostOffStay
        | Code::PostOnBend
        | Code::CompoundSetting => Place::SetUp,
        _ => Place::Cuts,
    }
}

/// The warnings of a place, each said once.
pub fn at(warnings: &[Warning], place: Place) -> Vec<Warning> {
    once(warnings.iter().filter(|warning| place_of(warning.code) == place))
}

/// The same warning of the right and the left side is one warning of both.
pub fn once<'a>(warnings: impl IntoIterator<Item = &'a Warning>) -> Vec<Warning> {
    let mut said: Vec<Warning> = Vec::new();
    for warning in warnings {
        match said.iter_mut().find(|right| mirrors(right, warning)) {
            Some(right) => right.place = right.place.replace(Hand::Right.key(), BOTH_HANDS),
            None => said.push(warning.clone()),
        }
    }
    said
}

fn mirrors(right: &Warning, left: &Warning) -> bool {
    right.code == left.code
        && right.message == left.message
        && right.place != left.place
        && right.place.replace(Hand::Right.key(), Hand::Left.key()) == left.place
}

/// Whether a warning is about that cut, its stay or its pair.
pub fn about(warning: &Warning, pick: CutAt) -> bool {
    let key = pick.key();
    key == warning.place || key.strip_prefix(&warning.place).is_some_and(|rest| rest.starts_with('.'))
}

/// The warning with what it is about in front, its lengths in the unit of the page.
pub fn sentence(warning: &Warning, unit: LengthUnit) -> String {
    let place = place_name(&warning.place);
    let message = show::in_sentence(&warning.message, unit);
    if place.is_empty() { message } else { format!("{place}: {message}") }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn warning(place: &str) -> Warning {
        Warning { code: Code::PartialContact, place: place.into(), message: "…".into() }
    }

    #[test]
    fn what_both_sides_share_is_said_once() {
        let warnings =
            ["chainstays.right.front", "chainstays.left.front", "seatstays.left", "chainstays", "chainstays"];
        let places: Vec<String> =
            once(&warnings.map(warning)).into_iter().map(|warning| warning.place).collect();
        assert_eq!(places, ["chainstays.both.front", "seatstays.left", "chainstays", "chainstays"]);
    }

    #[test]
    fn what_differs_between_the_sides_is_said_of_each() {
        let other = Warning { message: "-".into(), ..warning("chainstays.left") };
        assert_eq!(once(&[warning("chainstays.right"), other]).len(), 2);
    }

    #[test]
    fn a_warning_reaches_the_cuts_it_is_about() {
        let pick = CutAt::FIRST;
        assert!(about(&warning("chainstays.right.front"), pick));
        assert!(about(&warning("chainstays"), pick));
        assert!(!about(&warning("chainstays.right.rear"), pick));
        assert!(!about(&warning("chain"), pick));
    }
}
