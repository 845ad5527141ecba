//! What to measure on the finished stays.

use super::Limits;
use super::pick::Pick;
use super::reading::Reading;
use super::show;
use serde_json::Value;
use staywright::plan::{Cut, Pair, Plan};
use staywright::quantity::{Angle, Length, LengthUnit, read_angle, read_length};
use staywright::trade::{Hand, PairName, json_number};

/// One figure to measure.
#[derive(Clone, Debug, PartialEq)]
pub struct Check {
    /// Stays the same while the job does.
    pub id: String,
    /// What is measured.
    pub name: String,
    /// What it should be.
    pub nominal: Reading,
    /// With what, and from where to where.
    pub how: String,
}

/// What was measured, set against what it should be.
#[derive(Clone, Debug, PartialEq)]
pub struct Difference {
    /// Measured less nominal, in mm or degrees.
    pub value: f64,
    /// The same as the page writes it.
    pub text: String,
}

/// The checks of one pair: those that every plan has, then those that the checker knows besides.
pub fn all_checks(plan: &Plan, name: PairName, answer: Option<&Value>) -> Vec<Check> {
    let mut checks = pair_checks(plan, name);
    let figures = answer.and_then(|answer| answer.get("figures")).and_then(Value::as_array);
    let more = figures.into_iter().flatten().filter_map(further).filter(|one| one.id.starts_with(name.key()));
    let new: Vec<Check> = more.filter(|one| checks.iter().all(|known| known.id != one.id)).collect();
    checks.extend(new);
    checks
}

/// A figure of the checker's answer.
fn further(figure: &Value) -> Option<Check> {
    let text = |key: &str| figure.get(key).and_then(Value::as_str);
    let nominal = figure.get("nominal").and_then(json_number)?;
    let nominal = match text("unit")? {
        "mm" => Reading::Length(Length::from_mm(nominal)),
        _ => Reading::Angle(Angle::from_degrees(nominal)),
    };
    Some(Check {
        id: text("id")?.to_owned(),
        name: text("name")?.to_owned(),
        nominal,
        how: text("with")?.to_owned(),
    })
}

fn pair_checks(plan: &Plan, name: PairName) -> Vec<Check> {
    let pair = plan.pair(name);
    let mut checks = Vec::new();
    for hand in Hand::ALL {
        stay_checks(pair, name, hand, &mut checks);
    }
    for (i, post) in pair.posts.iter().enumerate() {
        let calipers = [
            ("inside", post.inside, "calipers between the two tubes, across the fixture"),
            ("outside", post.outside, "calipers over the two tubes, across the fixture"),
        ];
        for (key, reading, how) in calipers {
            let label = format!("At post {}, {key}", i + 1);
            let id = format!("{}.post-{}.{key}", name.key(), i + 1);
            checks.extend(reading.map(|known| Check {
                id,
                name: label,
                nominal: Reading::Length(known),
                how: how.to_owned(),
            }));
        }
    }
    checks
}

fn stay_checks(pair: &Pair, name: PairName, hand: Hand, checks: &mut Vec<Check>) {
    let stay = pair.stay(hand);
    let at = format!("{}.{}", name.key(), hand.key());
    let title = format!("{} {}", hand.key(), name.one());
    let mut add = |key: &str, what: &str, nominal, how: &str| {
        let label = format!("{} of the {title}", what);
        checks.push(Check { id: format!("{at}.{key}"), name: label, nominal, how: how.to_owned() });
    };
    if let Some(length) = stay.tip_to_tip {
        add(
            "tip-to-tip",
            "Tip to tip",
            Reading::Length(length),
            "from front long point to rear long point, along the stay",
        );
    }
    add(
        "length",
        "Length",
        Reading::Length(stay.length),
        "from the middle of the front cut to the rear reference point",
    );
    for at_front in [true, false] {
        let pick = Pick { pair: name, hand, at_front };
        let cut = if at_front { &stay.front } else { &stay.rear };
        let (what, angle, how) = match cut {
            Cut::Cope(cut) | Cut::Boss(cut) => {
                ("cut", cut.angle, "between the stay and the axis of a bar held in the cope")
            }
            Cut::Slot(cut) => ("slot", cut.angle, "between the stay and a plate held in the slot"),
            Cut::Square(_) => continue,
        };
        let label =
            if at_front { format!("Angle of the front {what}") } else { format!("Angle of the rear {what}") };
        add(&format!("{}.angle", pick.end()), &label, Reading::Angle(angle), how);
    }
}

/// What a measured figure says.
#[derive(Clone, Debug, PartialEq)]
pub struct Verdict {
    /// Whether it lies within the builder's limit.
    pub good: bool,
    /// The sentence.
    pub words: String,
}

impl Verdict {
    /// The sentence alone.
    pub fn words(self) -> String {
        self.words
    }
}

/// Judges what was measured; `None` while nothing is written.
pub fn judge(text: &str, nominal: Reading, limits: Limits, unit: LengthUnit) -> Option<Verdict> {
    let limit = if matches!(nominal, Reading::Angle(_)) { limits.angle_deg } else { limits.length_mm };
    let (good, words) = match difference(text, nominal, unit) {
        Err(fault) => (false, fault),
        Ok(None) => return None,
        Ok(Some(off)) if off.value.abs() <= limit => (true, format!("{}, within your limit", off.text)),
        Ok(Some(off)) => (false, format!("{}, outside your limit", off.text)),
    };
    Some(Verdict { good, words })
}

/// Reads what was measured and sets it against the nominal; `None` while nothing is written.
///
/// # Errors
/// A sentence on what is wrong with the text.
pub fn difference(text: &str, nominal: Reading, unit: LengthUnit) -> Result<Option<Difference>, String> {
    let Some(wanted) = nominal.number().filter(|_| !text.trim().is_empty()) else { return Ok(None) };
    let angle = matches!(nominal, Reading::Angle(_));
    let read = if angle {
        read_angle(text).map(|figure| figure.value.degrees())
    } else {
        read_length(text, unit).map(|figure| figure.value.mm())
    };
    let value = read.map_err(|error| error.to_string())? - wanted;
    let text = if angle { show::signed_angle(value) } else { show::signed_length(value, unit) };
    Ok(Some(Difference { value, text }))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_measured_figure_is_set_against_its_nominal() {
        let wanted = Reading::Length(Length::from_mm(400.0));
        let text = |typed| difference(typed, wanted, LengthUnit::Millimetre).map(|d| d.map(|d| d.text));
        assert_eq!(text("400.25"), Ok(Some("+0.25 mm".into())));
        assert_eq!(text("399,5"), Ok(Some("−0.50 mm".into())));
        assert_eq!(text("  "), Ok(None));
        assert_eq!(text("long"), Err("“long” is not a figure".into()));
        let angle = Reading::Angle(Angle::from_degrees(82.3));
        assert_eq!(
            difference("82", angle, LengthUnit::Inch).map(|d| d.map(|d| d.text)),
            Ok(Some("−0.30°".into()))
        );
    }
}
