//! The settings of the bench that can be off, in words.

use super::Style;
use crate::model::{Hand, PairName};
use crate::tolerance::{Place, SettingKind};
use crate::units::{Length, show};

/// What a setting is called, with where it is: `tilt, seat stays front`.
pub fn setting(place: &Place, style: Style) -> String {
    let end = |at_front| if at_front { "front" } else { "rear" };
    let whose = match (place.pair, place.hand) {
        (Some(pair), Some(_)) => Some(pair.one()),
        (Some(pair), None) => Some(PairName::name(pair)),
        (None, _) => None,
    };
    let of = [place.hand.map(Hand::key), whose, place.at_front.map(end)];
    let of: Vec<&str> = of.into_iter().flatten().collect();
    let name = kind(place.kind, style);
    if of.is_empty() { name } else { [name, of.join(" ")].join(", ") }
}

fn kind(kind: SettingKind, style: Style) -> String {
    let name = match kind {
        SettingKind::Slide => "slide",
        SettingKind::AxleHeight => "axle height",
        SettingKind::FrontPost => "spacing at the front post",
        SettingKind::RearPost => "spacing at the rear post",
        SettingKind::Spacer => "dummy axle spacer",
        SettingKind::Datum => "touched edge along",
        SettingKind::DatumHeight => "touched edge above",
        SettingKind::ClampHeight => "clamp height",
        SettingKind::BlockWidth => "block width",
        SettingKind::EdgeFinder => "edge finder diameter",
        SettingKind::Along => "table move along",
        SettingKind::Across => "table move across",
        SettingKind::Tilt => "tilt",
        SettingKind::Turn => "fixture square to the spindle",
        SettingKind::Cutter => "cutter diameter",
        SettingKind::Member => style.word("diameter it is mitered to", "diameter it is mitred to"),
        SettingKind::FrontDiameter => "tube front diameter",
        SettingKind::RearDiameter => "tube rear diameter",
        SettingKind::FrontTrim => "front trim of the raw tube",
        SettingKind::Roll => "roll about the chord",
        SettingKind::Placing => "place on the frame",
        SettingKind::Bend(number) => return format!("angle of bend {number}"),
    };
    name.to_owned()
}

/// Where a setting's starting spread comes from.
pub fn starting_spread(kind: SettingKind, style: Style) -> String {
    let length = |mm: f64| show::fine(mm, false, style.unit);
    let why = match kind {
        SettingKind::Slide | SettingKind::AxleHeight => format!("half of a {} scale division", length(0.5)),
        SettingKind::FrontPost | SettingKind::RearPost => "calipers over tubes, unsourced".to_owned(),
        SettingKind::Spacer => "a turned spacer, unsourced".to_owned(),
        SettingKind::Datum | SettingKind::DatumHeight | SettingKind::ClampHeight => {
            "how the fixture is made".to_owned()
        }
        SettingKind::BlockWidth => "calipers".to_owned(),
        SettingKind::EdgeFinder => "a caliper's resolution".to_owned(),
        SettingKind::Along | SettingKind::Across => "readout and backlash, unsourced".to_owned(),
        SettingKind::Tilt => "a 0.1° angle gauge".to_owned(),
        SettingKind::Turn => {
            format!("{} over {} on a dial gauge", length(0.1), style.entered(Length::from_mm(115.0)))
        }
        SettingKind::Cutter => format!("hole saws cut {} to {} over, unsourced", length(0.2), length(0.8)),
        SettingKind::Member => "calipers on a painted or turned part, unsourced".to_owned(),
        SettingKind::FrontDiameter | SettingKind::RearDiameter => "drawn tube, unsourced".to_owned(),
        SettingKind::FrontTrim => "a pencil line".to_owned(),
        SettingKind::Roll => {
            "bends leveled by eye or gauge, unsourced".replace("leveled", style.word("leveled", "levelled"))
        }
        SettingKind::Bend(_) => "what a bend springs back, unsourced".to_owned(),
        SettingKind::Placing => "a scribed line".to_owned(),
    };
    [&why, "; measure yours"].concat()
}
