//! What a person types into a field of a form, and how a figure is written back.

use super::form::FormField;
use crate::model::{Spec, capital};
use crate::units::show::{in_unit, minus, sign};
use crate::units::{Angle, CuttingSpeed, Length, LengthUnit, Quantity, read_angle, read_length, trimmed};

const MM: &str = <Length as Quantity<f64>>::UNIT;
const DEGREES: &str = <Angle as Quantity<f64>>::UNIT;
const SURFACE: &str = <CuttingSpeed as Quantity<f64>>::UNIT;

/// The field of a figure; `None` leaves it empty.
pub(super) fn figure(path: &str, spec: &Spec, value: Option<f64>, unit: LengthUnit) -> FormField {
    FormField {
        path: path.to_owned(),
        name: capital(spec.name),
        value: value.map_or_else(String::new, |value| number(value, spec, unit)),
        unit: unit_sign(spec, unit).to_owned(),
        range: range(spec, unit),
        options: Vec::new(),
    }
}

/// The recorded number that a text stands for, and what was understood where the text does not say so itself.
///
/// # Errors
/// A sentence for the person who typed it, with the range allowed.
pub(super) fn understand(text: &str, spec: &Spec, unit: LengthUnit) -> Result<(f64, Option<String>), String> {
    let allowed = |error: String| format!("{}. Allowed: {}.", capital(&error), range(spec, unit));
    let (value, read_in) = match spec.unit {
        MM => read_length(text, unit).map(|figure| (figure.value.mm(), figure.unit)),
        DEGREES => read_angle(text).map(|figure| (figure.value.degrees(), unit)),
        _ => read_angle(text).map(|figure| (recorded(figure.value.degrees(), spec, unit), unit)),
    }
    .map_err(|error| allowed(error.to_string()))?;
    if !spec.bounds.contain(value) {
        let said = number(value, spec, unit);
        return Err(format!(
            "{} {} is outside {}.",
            capital(spec.name),
            with_unit(said, spec, unit),
            range(spec, unit)
        ));
    }
    let tells = read_in != unit || text.contains(['/', ',']);
    Ok((
        value,
        tells.then(|| format!("{} = {}", text.trim(), with_unit(number(value, spec, unit), spec, unit))),
    ))
}

fn recorded(value: f64, spec: &Spec, unit: LengthUnit) -> f64 {
    match (spec.unit, unit) {
        (SURFACE, LengthUnit::Inch) => CuttingSpeed::from_feet_per_min(value).m_per_min(),
        _ => value,
    }
}

fn shown(value: f64, spec: &Spec, unit: LengthUnit) -> f64 {
    match (spec.unit, unit) {
        (MM, _) => in_unit(value, unit),
        (SURFACE, LengthUnit::Inch) => CuttingSpeed::from_m_per_min(value).feet_per_min(),
        _ => value,
    }
}

fn number(value: f64, spec: &Spec, unit: LengthUnit) -> String {
    let decimals = if unit == LengthUnit::Inch && spec.unit == MM { 4 } else { 3 };
    trimmed(shown(value, spec, unit), decimals)
}

fn unit_sign(spec: &Spec, unit: LengthUnit) -> &'static str {
    match (spec.unit, unit) {
        (MM, _) => sign(unit),
        (SURFACE, LengthUnit::Inch) => "ft/min",
        (other, _) => other,
    }
}

fn with_unit(number: String, spec: &Spec, unit: LengthUnit) -> String {
    match unit_sign(spec, unit) {
        "" => number,
        DEGREES => format!("{number}°"),
        sign => format!("{number} {sign}"),
    }
}

fn range(spec: &Spec, unit: LengthUnit) -> String {
    let end = |value| minus(&number(value, spec, unit));
    with_unit(format!("{} to {}", end(spec.bounds.min), end(spec.bounds.max)), spec, unit)
}
