//! What a person types into a figure's field, what it means, and how it is written back.

use crate::model::{Spec, capital};
use crate::units::show::minus;
use crate::units::{FigureError, Kind, Length, LengthUnit, Unit, read_within, trimmed};

/// A text that was understood.
#[derive(Clone, Debug, PartialEq)]
pub struct Understood {
    /// The recorded number.
    pub value: f64,
    /// `1 1/8 in = 28.575 mm`, where the text does not say so itself.
    pub note: Option<String>,
}

/// Reads the text of a field; a number without a unit is taken in the unit of the page.
///
/// # Errors
/// A sentence for the person who typed it, with the range allowed.
pub fn understand(text: &str, spec: &Spec, page: LengthUnit) -> Result<Understood, String> {
    let read =
        read_within(text, spec.kind, spec.bounds, page).map_err(|error| refusal(&error, spec, page))?;
    Ok(Understood { value: read.value, note: note(text, read.value, read.unit, spec, page) })
}

/// What is said at a field of a text that is refused there.
pub fn refusal(error: &FigureError, spec: &Spec, page: LengthUnit) -> String {
    match error {
        FigureError::Outside { value, .. } => {
            let figure = said(*value, spec, page);
            format!("{} {figure} is outside {}.", capital(spec.name), range(spec, page))
        }
        other => format!("{}. Allowed: {}.", reason(other), range(spec, page)),
    }
}

/// Why a text is not the figure that is wanted, without the range.
fn reason(error: &FigureError) -> String {
    match error {
        FigureError::Empty => "A figure is needed here".to_owned(),
        FigureError::NotANumber(text) => format!("“{text}” is not a figure"),
        FigureError::ZeroDenominator => "A fraction cannot have 0 below the line".to_owned(),
        FigureError::TwoDecimalMarks(text) => format!("“{text}” has more than one decimal mark"),
        FigureError::UnknownUnit(text) => format!("“{text}” is not a unit known here"),
        FigureError::WrongUnit { text, wanted } => format!("“{text}” is not a unit {}", of_kind(*wanted)),
        FigureError::NotWhole => "A whole number is needed here".to_owned(),
        FigureError::Outside { .. } => "The figure is outside its range".to_owned(),
    }
}

const fn of_kind(kind: Kind) -> &'static str {
    match kind {
        Kind::Length => "of length",
        Kind::Angle => "of angle",
        Kind::Count => "in which teeth are counted",
        Kind::CuttingSpeed => "of cutting speed",
        Kind::SpindleSpeed => "of spindle speed",
        Kind::Feed => "of feed",
        Kind::Force => "of force",
        Kind::Stress => "of stress",
    }
}

/// The unit's sign beside the field.
pub const fn unit_sign(spec: &Spec, page: LengthUnit) -> &'static str {
    spec.kind.unit(page).sign()
}

/// A recorded number as a field shows it when nobody is typing there: to a thousandth, in inches to a ten-thousandth.
pub fn written(value: f64, spec: &Spec, page: LengthUnit) -> String {
    trimmed(spec.kind.unit(page).of_recorded(value), decimals(spec, page))
}

const fn decimals(spec: &Spec, page: LengthUnit) -> u32 {
    if matches!(spec.kind.unit(page), Unit::Inch) { 4 } else { 3 }
}

/// A figure with its unit: `−12.5 mm`, `73°`, `34`.
pub fn said(value: f64, spec: &Spec, page: LengthUnit) -> String {
    format!("{}{}", minus(&written(value, spec, page)), spaced_sign(spec, page))
}

/// The range of a figure with its unit: `250 to 800 mm`.
pub fn range(spec: &Spec, page: LengthUnit) -> String {
    let (min, max) = range_ends(spec, page);
    format!("{} to {}{}", minus(&min), minus(&max), spaced_sign(spec, page))
}

/// The ends of a figure's range as plain numbers, in the unit of the page; where that is not the unit of record they are rounded
/// inwards, so that both are allowed.
pub fn range_ends(spec: &Spec, page: LengthUnit) -> (String, String) {
    let end = |bound: f64, round: fn(f64) -> f64| inwards(bound, spec, page, round);
    (end(spec.bounds.min, f64::ceil), end(spec.bounds.max, f64::floor))
}

fn inwards(bound: f64, spec: &Spec, page: LengthUnit, round: fn(f64) -> f64) -> String {
    let steps = 10f64.powi(decimals(spec, page) as i32);
    let shown = spec.kind.unit(page).of_recorded(bound) * steps;
    // What is a whole step but for rounding stays.
    let whole = if (shown - shown.round()).abs() < 1e-6 { shown.round() } else { round(shown) };
    trimmed(whole / steps, decimals(spec, page))
}

/// The recorded number `count` steps on: 0.5 mm, 1/64 in, 0.1° or one each, held inside the range.
pub fn stepped(value: f64, count: f64, spec: &Spec, page: LengthUnit) -> f64 {
    let step = match spec.kind.unit(page) {
        Unit::Degree => 0.1,
        Unit::Millimetre => 0.5,
        Unit::Inch => Length::from_inches(1.0 / 64.0).mm(),
        _ => 1.0,
    };
    // Decimal steps are not exact in binary; a millionth is far below what any figure is read to.
    let next = ((value + count * step) * 1e6).round() / 1e6;
    spec.bounds.nearest(next)
}

/// ISO 80000-1: a space before `mm`, none before `°`. A count has no unit.
fn spaced_sign(spec: &Spec, page: LengthUnit) -> String {
    match unit_sign(spec, page) {
        sign @ ("" | "°") => sign.to_owned(),
        sign => format!(" {sign}"),
    }
}

/// What the text was taken for, where it is a fraction, has a comma or is in another unit than the page's.
fn note(text: &str, value: f64, unit: Unit, spec: &Spec, page: LengthUnit) -> Option<String> {
    let plain = |c: char| matches!(c, '0'..='9' | '.' | '-' | '−' | '+' | ' ') || unit.sign().contains(c);
    if unit == spec.kind.unit(page) && text.trim().chars().all(plain) {
        return None;
    }
    Some(format!("{} = {}", text.trim(), said(value, spec, page)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::{Group, Job, Surroundings};
    use LengthUnit::{Inch, Millimetre};

    fn spec(path: &str) -> &'static Spec {
        match Job::default().spec(path) {
            Some(spec) => spec,
            None => panic!("no figure {path}"),
        }
    }

    fn note_of(text: &str, path: &str, unit: LengthUnit) -> Option<String> {
        understand(text, spec(path), unit).ok().and_then(|understood| understood.note)
    }

    #[test]
    fn what_was_understood_is_said_when_the_text_does_not_say_it() {
        let tube = "frame.seat_tube_od_mm";
        assert_eq!(note_of("1 1/8 in", tube, Millimetre).as_deref(), Some("1 1/8 in = 28.575 mm"));
        assert_eq!(note_of("1⅛", tube, Inch).as_deref(), Some("1⅛ = 1.125 in"));
        assert_eq!(note_of("28,6", tube, Millimetre).as_deref(), Some("28,6 = 28.6 mm"));
        assert_eq!(note_of("28.6 mm", tube, Millimetre), None);
        assert_eq!(note_of("28.575 mm", tube, Inch).as_deref(), Some("28.575 mm = 1.125 in"));
        assert_eq!(note_of("1.125", tube, Inch), None);
        assert_eq!(note_of("73,5", "frame.seat_angle_deg", Inch).as_deref(), Some("73,5 = 73.5°"));
        assert_eq!(note_of("73.5°", "frame.seat_angle_deg", Inch), None);
    }

    #[test]
    fn a_range_that_goes_below_0_has_a_minus_sign() {
        assert_eq!(range(spec("frame.bb_drop_mm"), Millimetre), "−200 to 200 mm");
        assert_eq!(range(spec("frame.bb_drop_mm"), Inch), "−7.874 to 7.874 in");
    }

    #[test]
    fn the_ends_of_every_range_of_a_job_are_read_back_and_allowed() {
        Job { surroundings: Some(Surroundings::starting()), ..Job::default() }.each(
            "",
            &mut |path, spec, value| {
                for page in [Millimetre, Inch] {
                    let (min, max) = range_ends(spec, page);
                    for text in [min, max, said(value, spec, page), written(value, spec, page)] {
                        assert!(understand(&text, spec, page).is_ok(), "{path}: {text}");
                    }
                }
            },
        );
    }

    #[test]
    fn a_faulty_text_is_told_the_range_in_the_unit_of_the_page() {
        let length = spec("frame.chainstay_length_mm");
        let why = |text, unit| understand(text, length, unit).map(|understood| understood.value);
        assert_eq!(why("", Millimetre), Err("A figure is needed here. Allowed: 250 to 800 mm.".into()));
        assert_eq!(why("abc", Inch), Err("“abc” is not a figure. Allowed: 9.8426 to 31.496 in.".into()));
        assert_eq!(
            why("12°", Millimetre),
            Err("“°” is not a unit of length. Allowed: 250 to 800 mm.".into())
        );
        assert_eq!(why("1200", Millimetre), Err("Chainstay length 1200 mm is outside 250 to 800 mm.".into()));
        assert_eq!(why("40", Inch), Err("Chainstay length 40 in is outside 9.8426 to 31.496 in.".into()));
    }

    #[test]
    fn teeth_are_counted_in_whole_numbers_and_no_unit() {
        let job = Job { surroundings: Some(Surroundings::starting()), ..Job::default() };
        let teeth = job.spec("surroundings.chainrings[0].teeth").unwrap_or_else(|| panic!("no teeth"));
        assert_eq!(understand("42", teeth, Inch).map(|read| read.value), Ok(42.0));
        let why = |text| understand(text, teeth, Inch).map(|read| read.value);
        assert_eq!(why("42.5"), Err("A whole number is needed here. Allowed: 10 to 80.".into()));
        assert_eq!(
            why("42°"),
            Err("“°” is not a unit in which teeth are counted. Allowed: 10 to 80.".into())
        );
        assert_eq!(why("9"), Err("Chainring teeth 9 is outside 10 to 80.".into()));
        assert_eq!((stepped(34.0, -1.0, teeth, Inch), unit_sign(teeth, Inch)), (33.0, ""));
    }

    #[test]
    fn steps_stay_in_range_and_leave_no_binary_dust() {
        let angle = spec("frame.seat_angle_deg");
        assert_eq!(stepped(73.2, 1.0, angle, Millimetre), 73.3);
        assert_eq!(stepped(89.95, 3.0, angle, Millimetre), 90.0);
        let length = spec("frame.chainstay_length_mm");
        assert_eq!(stepped(430.0, -1.0, length, Millimetre), 429.5);
        assert_eq!(stepped(406.4, 64.0, length, Inch), 431.8);
    }
}
