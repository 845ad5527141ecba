//! What can be measured on finished stays, and how, in words.

use super::Style;
use super::tolerance::stay;
use crate::plan::CutAt;
use crate::tolerance::{AtPost, Measurand, Measurement, Method, Refusal};

/// What is measured.
pub fn measurand(one: &Measurement, style: Style) -> String {
    match one.measurand {
        Measurand::TipToTip(pair, hand) => ["Tip to tip of the ", &stay(pair, hand)].concat(),
        Measurand::Length(pair, hand) => ["Length of the ", &stay(pair, hand)].concat(),
        Measurand::CutAngle(CutAt { pair, hand, at_front }) => {
            let end = if at_front { "front" } else { "rear" };
            let what = if one.method == Method::GaugeOnPlate { "slot" } else { "cut" };
            format!("Angle of the {end} {what} of the {}", stay(pair, hand))
        }
        Measurand::Post(pair, number, what) => {
            let what = match what {
                AtPost::Inside => "inside",
                AtPost::Outside => "outside",
                AtPost::Axis(hand) => hand.key(),
            };
            format!("At post {number} of the {}, {what}", pair.name())
        }
        Measurand::Dropout(pair, hand) => {
            let line = style.word("Center line", "Centre line");
            format!("{line} to the {} dropout of the {}", hand.key(), pair.name())
        }
        Measurand::Dropouts(pair) => ["Between the dropouts of the ", pair.name()].concat(),
    }
}

/// With what it is measured, and from where to where.
pub const fn method(method: Method, style: Style) -> &'static str {
    match method {
        Method::RuleOverTips => {
            "long calipers or a rule, from front long point to rear long point, along the stay"
        }
        Method::RuleToReference => "a rule, from the middle of the front cut to the rear reference point",
        Method::GaugeOnBar => style.word(
            "an angle gauge, between the stay and a bar held in the miter",
            "an angle gauge, between the stay and a bar held in the mitre",
        ),
        Method::GaugeOnPlate => "an angle gauge, between the stay and a plate held in the slot",
        Method::CalipersBetweenTubes => "calipers between the two tubes, across the fixture",
        Method::CalipersOverTubes => "calipers over the two tubes, across the fixture",
        Method::CalipersToAxis => style.word(
            "calipers from the center line to the tube's middle",
            "calipers from the centre line to the tube's middle",
        ),
        Method::RuleToDropout => style.word(
            "a rule on a flat plate, from the center line to the dropout's inner face",
            "a rule on a flat plate, from the centre line to the dropout's inner face",
        ),
        Method::CalipersBetweenDropouts => "calipers, between the dropouts' inner faces",
    }
}

/// Why a reading was left out.
pub const fn refusal(why: Refusal) -> &'static str {
    match why {
        Refusal::NoSuchFigure => "this job has no such figure",
        Refusal::NoNumber => "not a number",
        Refusal::NoUncertainty => "its uncertainty is not a number above 0",
    }
}
