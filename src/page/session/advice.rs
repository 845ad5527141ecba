//! Where each warning of a plan is shown.

use super::pick::{Pick, place_name};
use super::place::Place;
use super::show::length;
use staywright::plan::{Code, Warning};
use staywright::quantity::{Length, LengthUnit, parsed};

/// The place of the page that a warning belongs to.
pub const fn place_of(code: Code) -> Place {
    match code {
        Code::StaysCollide => Place::Stays,
        Code::SidesApart
        | Code::SlideOutOfRange
        | Code::AxleHeightOutOfRange
        | Code::PostOffStay
        | Code::CompoundSetting => Place::SetUp,
        _ => Place::Cuts,
    }
}

/// The warnings of a place.
pub fn at(warnings: &[Warning], place: Place) -> Vec<Warning> {
    warnings.iter().filter(|warning| place_of(warning.code) == place).cloned().collect()
}

/// Whether a warning is about that cut, its stay or its pair.
pub fn about(warning: &Warning, pick: Pick) -> bool {
    let key = pick.key();
    key == warning.place || key.strip_prefix(&warning.place).is_some_and(|rest| rest.starts_with('.'))
}

/// The warning with what it is about in front, its lengths in the unit of the page.
pub fn sentence(warning: &Warning, unit: LengthUnit) -> String {
    let place = place_name(&warning.place);
    let message = message(warning, unit);
    if place.is_empty() { message } else { format!("{place}: {message}") }
}

/// What the warning says, its lengths in the unit of the page. A plan writes each as a number and ` mm`.
pub fn message(warning: &Warning, unit: LengthUnit) -> String {
    let mut pieces = warning.message.split(" mm").peekable();
    let mut said = String::new();
    while let Some(piece) = pieces.next() {
        said += &if pieces.peek().is_some() { with_length(piece, unit) } else { piece.to_owned() };
    }
    said
}

/// A piece of a sentence that ends with a number of millimetres.
fn with_length(piece: &str, unit: LengthUnit) -> String {
    let words = piece.trim_end_matches(|c: char| c.is_ascii_digit() || matches!(c, '.' | '-'));
    let number = piece.strip_prefix(words).and_then(parsed);
    match number {
        Some(mm) if unit == LengthUnit::Inch => format!("{words}{}", length(Length::from_mm(mm), unit)),
        _ => format!("{piece} mm"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn warning(place: &str) -> Warning {
        Warning { code: Code::PartialContact, place: place.into(), message: "…".into() }
    }

    #[test]
    fn lengths_in_a_warning_follow_the_unit_of_the_page() {
        let mut warning = warning("chainstays");
        warning.message = "the slide would stand at 25.4 mm; it goes from -50.8 mm to 381 mm, 12 mm!".into();
        let inches = "the slide would stand at 1.000 in; it goes from −2.000 in to 15.000 in, 0.472 in!";
        assert_eq!(message(&warning, LengthUnit::Inch), inches);
        assert_eq!(message(&warning, LengthUnit::Millimetre), warning.message);
        warning.message = "no length".into();
        assert_eq!(message(&warning, LengthUnit::Inch), "no length");
    }

    #[test]
    fn a_warning_reaches_the_cuts_it_is_about() {
        let pick = Pick::default();
        assert!(about(&warning("chainstays.right.front"), pick));
        assert!(about(&warning("chainstays"), pick));
        assert!(!about(&warning("chainstays.right.rear"), pick));
        assert!(!about(&warning("chain"), pick));
    }
}
