//! What was measured on the finished stays, set against what it should be.

use super::Limits;
use staywright::ask::{Measure, ShopErrors};
use staywright::model::Spec;
use staywright::text::entry::understand;
use staywright::units::{Angle, Bounds, Kind, Length, LengthUnit, show};

/// What was measured, set against what it should be.
#[derive(Clone, Debug, PartialEq)]
pub struct Difference {
    /// Measured less nominal, in mm or degrees.
    pub value: f64,
    /// The same as the page writes it.
    pub text: String,
}

/// What a measured figure says.
#[derive(Clone, Debug, PartialEq)]
pub struct Verdict {
    /// Whether it lies within the builder's limit.
    pub good: bool,
    /// Whether it is a reading at all.
    pub is_reading: bool,
    /// The sentence.
    pub words: String,
}

impl Verdict {
    /// The sentence alone.
    pub fn words(self) -> String {
        self.words
    }
}

/// What a reading may be: its name stands at its field.
const fn spec(is_angle: bool) -> Spec {
    let (kind, most) = if is_angle { (Kind::Angle, 180.0) } else { (Kind::Length, 2000.0) };
    Spec { key: "reading", name: "reading", meaning: "", kind, bounds: Bounds::new(0.0, most) }
}

/// A figure of the builder's own, mm or degrees: a limit, or the largest error of a setting.
pub const fn own_figure(name: &'static str, is_angle: bool) -> Spec {
    let kind = if is_angle { Kind::Angle } else { Kind::Length };
    Spec { key: name, name, meaning: "", kind, bounds: Bounds::new(0.0, ShopErrors::MOST) }
}

/// Reads what was measured, in mm or degrees.
///
/// # Errors
/// A sentence on what is wrong with the text, with the range allowed.
pub fn reading(text: &str, is_angle: bool, unit: LengthUnit) -> Result<f64, String> {
    understand(text, &spec(is_angle), unit).map(|read| read.value)
}

/// Judges what was measured; `None` while nothing is written.
pub fn judge(text: &str, measure: &Measure, limits: Limits, unit: LengthUnit) -> Option<Verdict> {
    let limit = if measure.is_angle { limits.angle_deg } else { limits.length_mm };
    let difference = difference(text, measure, unit);
    let is_reading = difference.is_ok();
    let (good, words) = match difference {
        Err(fault) => (false, fault),
        Ok(None) => return None,
        Ok(Some(off)) if off.value.abs() <= limit => (true, format!("{}, within your limit", off.text)),
        Ok(Some(off)) => (false, format!("{}, outside your limit", off.text)),
    };
    Some(Verdict { good, is_reading, words })
}

/// What it should be, as the page writes it.
pub fn nominal(measure: &Measure, unit: LengthUnit) -> String {
    let Measure { nominal, is_angle, .. } = measure;
    if *is_angle {
        show::angle(Angle::from_degrees(*nominal))
    } else {
        show::length(Length::from_mm(*nominal), unit)
    }
}

/// Reads what was measured and sets it against the nominal; `None` while nothing is written.
///
/// # Errors
/// A sentence on what is wrong with the text.
pub fn difference(text: &str, measure: &Measure, unit: LengthUnit) -> Result<Option<Difference>, String> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    let value = reading(text, measure.is_angle, unit)? - measure.nominal;
    let text = if measure.is_angle { show::signed_angle(value) } else { show::signed_length(value, unit) };
    Ok(Some(Difference { value, text }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use staywright::model::PairName;

    fn measure(nominal: f64, is_angle: bool) -> Measure {
        Measure {
            id: String::new(),
            pair: PairName::Chainstays,
            name: String::new(),
            how: String::new(),
            nominal,
            is_angle,
        }
    }

    #[test]
    fn a_measured_figure_is_set_against_its_nominal() {
        let wanted = measure(400.0, false);
        let text = |typed| difference(typed, &wanted, LengthUnit::Millimetre).map(|d| d.map(|d| d.text));
        assert_eq!(text("400.25"), Ok(Some("+0.25 mm".into())));
        assert_eq!(text("399,5"), Ok(Some("−0.50 mm".into())));
        assert_eq!(text("  "), Ok(None));
        assert_eq!(text("long"), Err("“long” is not a figure. Allowed: 0 to 2000 mm.".into()));
        assert_eq!(text("-5"), Err("Reading −5 mm is outside 0 to 2000 mm.".into()));
        assert_eq!(nominal(&wanted, LengthUnit::Millimetre), "400.00 mm");
        let angle = measure(82.3, true);
        assert_eq!(
            difference("200", &angle, LengthUnit::Inch),
            Err("Reading 200° is outside 0 to 180°.".into())
        );
        assert_eq!(
            difference("82", &angle, LengthUnit::Inch).map(|d| d.map(|d| d.text)),
            Ok(Some("−0.30°".into()))
        );
    }
}
