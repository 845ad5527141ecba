//! What a person types into a figure's field, what it means, and how it is written back.

use staywright::model::capital;
use staywright::model::{Fault, Spec};
use staywright::units::show::{in_unit, minus, sign};
use staywright::units::{Angle, Count, Length, LengthUnit, Quantity, read_angle, read_length, trimmed};

/// A text that was understood.
#[derive(Clone, Debug, PartialEq)]
pub struct Understood {
    /// The recorded number.
    pub value: f64,
    /// `1 1/8 in = 28.575 mm`, where the text does not say so itself.
    pub note: Option<String>,
}

/// Whether the figure is an angle.
pub fn is_angle(spec: &Spec) -> bool {
    spec.unit == <Angle as Quantity<f64>>::UNIT
}

/// Whether the figure counts something.
fn is_count(spec: &Spec) -> bool {
    spec.unit == <Count as Quantity<f64>>::UNIT
}

/// Whether the figure is written in the unit of the page.
fn is_length(spec: &Spec) -> bool {
    !is_angle(spec) && !is_count(spec)
}

/// The unit's sign beside the field.
pub fn unit_sign(spec: &Spec, unit: LengthUnit) -> &'static str {
    if is_length(spec) { sign(unit) } else { spec.unit }
}

/// A figure with its unit.
pub fn said(value: f64, spec: &Spec, unit: LengthUnit) -> String {
    let space = if is_length(spec) { " " } else { "" };
    format!("{}{space}{}", number(value, spec, unit), unit_sign(spec, unit))
}

/// Reads the text of a field.
///
/// # Errors
/// A sentence for the person who typed it, with the range allowed.
pub fn understand(text: &str, spec: &Spec, unit: LengthUnit) -> Result<Understood, String> {
    if is_count(spec) {
        return counted(text, spec, unit);
    }
    let read = if is_angle(spec) {
        read_angle(text).map(|figure| (figure.value.degrees(), figure.unit))
    } else {
        read_length(text, unit).map(|figure| (figure.value.mm(), figure.unit))
    };
    let (value, read_in) =
        read.map_err(|error| format!("{}. Allowed: {}.", capital(&error.to_string()), range(spec, unit)))?;
    if !spec.bounds.contain(value) {
        return Err(outside(spec, value, unit));
    }
    Ok(Understood { value, note: note(text, value, read_in, spec, unit) })
}

/// The range of a figure with its unit: `250 to 800 mm`.
pub fn range(spec: &Spec, unit: LengthUnit) -> String {
    let (min, _) = range_ends(spec, unit);
    format!("{} to {}", minus(&min), said(spec.bounds.max, spec, unit))
}

/// Reads how many there are of something.
fn counted(text: &str, spec: &Spec, unit: LengthUnit) -> Result<Understood, String> {
    match text.trim().parse::<u16>().ok().map(f64::from) {
        Some(value) if spec.bounds.contain(value) => Ok(Understood { value, note: None }),
        Some(value) => Err(outside(spec, value, unit)),
        None => Err(format!("A whole number is needed here. Allowed: {}.", range(spec, unit))),
    }
}

/// The ends of a figure's range as plain numbers, in the unit of the page.
pub fn range_ends(spec: &Spec, unit: LengthUnit) -> (String, String) {
    (number(spec.bounds.min, spec, unit), number(spec.bounds.max, spec, unit))
}

/// The text a field shows for a recorded number when nobody is typing in it.
pub fn written(value: f64, spec: &Spec, unit: LengthUnit) -> String {
    number(value, spec, unit)
}

/// The recorded number `count` steps on: 0.5 mm, 1/64 in, 0.1° or one each, held inside the range.
pub fn stepped(value: f64, count: f64, spec: &Spec, unit: LengthUnit) -> f64 {
    let step = match unit {
        _ if is_angle(spec) => 0.1,
        _ if is_count(spec) => 1.0,
        LengthUnit::Millimetre => 0.5,
        LengthUnit::Inch => Length::from_inches(1.0 / 64.0).mm(),
    };
    // Decimal steps are not exact in binary; a millionth is far below what any figure is read to.
    let next = ((value + count * step) * 1e6).round() / 1e6;
    spec.bounds.nearest(next)
}

fn outside(spec: &Spec, value: f64, unit: LengthUnit) -> String {
    let message = capital(&Fault::outside("", spec, value).message);
    match unit {
        LengthUnit::Inch if is_length(spec) => format!("{message} (allowed: {}).", range(spec, unit)),
        _ => format!("{message}."),
    }
}

/// What the text was taken for, where it is a fraction, has a comma or is in another unit than the page's.
fn note(text: &str, value: f64, read_in: LengthUnit, spec: &Spec, unit: LengthUnit) -> Option<String> {
    let other_unit = read_in != unit && !is_angle(spec);
    if !other_unit && !text.contains(['/', ',']) {
        return None;
    }
    Some(format!("{} = {}", text.trim(), said(value, spec, unit)))
}

fn number(value: f64, spec: &Spec, unit: LengthUnit) -> String {
    if !is_length(spec) {
        return trimmed(value, 3);
    }
    let decimals = if unit == LengthUnit::Inch { 4 } else { 3 };
    trimmed(in_unit(value, unit), decimals)
}

#[cfg(test)]
mod tests {
    use super::*;
    use LengthUnit::{Inch, Millimetre};
    use staywright::model::{Job, Surroundings};

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
        assert_eq!(note_of("28,6", tube, Millimetre).as_deref(), Some("28,6 = 28.6 mm"));
        assert_eq!(note_of("28.6 mm", tube, Millimetre), None);
        assert_eq!(note_of("28.575 mm", tube, Inch).as_deref(), Some("28.575 mm = 1.125 in"));
        assert_eq!(note_of("1.125", tube, Inch), None);
        assert_eq!(note_of("73,5", "frame.seat_angle_deg", Inch).as_deref(), Some("73,5 = 73.5°"));
    }

    #[test]
    fn a_range_that_goes_below_0_has_a_minus_sign() {
        assert_eq!(range(spec("frame.bb_drop_mm"), Millimetre), "−200 to 200 mm");
    }

    #[test]
    fn a_faulty_text_is_told_the_range() {
        let length = spec("frame.chainstay_length_mm");
        let why = |text, unit| understand(text, length, unit).map(|understood| understood.value);
        assert_eq!(why("", Millimetre), Err("A figure is needed here. Allowed: 250 to 800 mm.".into()));
        assert_eq!(why("abc", Millimetre), Err("“abc” is not a figure. Allowed: 250 to 800 mm.".into()));
        assert_eq!(why("1200", Millimetre), Err("Chainstay length 1200 mm is outside 250 to 800 mm.".into()));
        assert_eq!(
            why("40", Inch),
            Err("Chainstay length 1016 mm is outside 250 to 800 mm (allowed: 9.8425 to 31.4961 in).".into())
        );
    }

    #[test]
    fn teeth_are_counted_in_no_unit() {
        let job = Job { surroundings: Some(Surroundings::starting()), ..Job::default() };
        let teeth = job.spec("surroundings.chainrings[0].teeth").unwrap_or_else(|| panic!("no teeth"));
        assert_eq!(understand("42", teeth, Inch).map(|read| read.value), Ok(42.0));
        let why = |text| understand(text, teeth, Inch).map(|read| read.value);
        assert_eq!(why("42.5"), Err("A whole number is needed here. Allowed: 10 to 80.".into()));
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
