//! Each setting of the machine as a row of the page.

use crate::procedure::{Posture, Reading, Saw, Scale, SettingKey, SettingSummary};
use crate::text::Style;
use crate::text::procedure as words;
use serde::{Deserialize, Serialize};

/// One setting.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SettingRow {
    /// The setting.
    pub key: SettingKey,
    /// What it is called.
    pub title: String,
    /// The saw; empty where nothing is cut.
    pub saw: String,
    /// How the fixture stands; empty where nothing is cut.
    pub posture: String,
    /// What is set: the name of each scale, and its figure without a unit.
    pub readings: Vec<(String, String)>,
    /// The spindle's speed; empty where nothing is cut.
    pub speed: String,
}

/// The row of a setting.
pub(super) fn row(setting: &SettingSummary, style: Style) -> SettingRow {
    let written = |reading: Reading| reading.text(style.unit);
    SettingRow {
        key: setting.key,
        title: words::setting(&setting.key),
        saw: setting.saw.map_or_else(String::new, |saw| saw_words(saw, style)),
        posture: setting.posture.map_or_else(String::new, |posture| posture_words(posture, style)),
        readings: setting
            .readings
            .iter()
            .map(|(scale, reading)| (scale_word(*scale).to_owned(), reading.parts(style.unit).0))
            .collect(),
        speed: setting.speed.map_or_else(String::new, written),
    }
}

fn saw_words(saw: Saw, style: Style) -> String {
    let (name, diameter) = match saw {
        Saw::Hole(diameter) => ("hole saw", diameter),
        Saw::Slitting(diameter) => ("slitting saw", diameter),
    };
    diameter.map_or_else(|| name.to_owned(), |diameter| format!("{name} {}", diameter.text(style.unit)))
}

fn posture_words(posture: Posture, style: Style) -> String {
    match posture {
        Posture::OnSide(side) => format!("on its side, {} side to the spindle", side.key()),
        Posture::Tilted(end_up, gauge) => {
            let gauge = gauge.map_or_else(String::new, |gauge| format!(", gauge {}", gauge.text(style.unit)));
            format!("{}{gauge}", words::end_up(end_up))
        }
    }
}

/// The short word for a scale.
const fn scale_word(scale: Scale) -> &'static str {
    match scale {
        Scale::Slide => "slide",
        Scale::AxleHeight => "axle",
        Scale::HalfSpacing(_) => "post",
        Scale::Tilt => "gauge",
        Scale::Swivel => "swivel",
        Scale::Dro(crate::model::shop::Axis::X) => "X",
        Scale::Dro(crate::model::shop::Axis::Y) => "Y",
        Scale::Dro(crate::model::shop::Axis::Z) => "Z",
    }
}
