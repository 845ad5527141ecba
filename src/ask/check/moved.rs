//! What moves with a figure that is touched.

use crate::model::{Job, capital, place_name};
use crate::tolerance;
use crate::units::{Kind, LengthUnit, show, trimmed};

/// As many as are told.
const MOST: usize = 12;

pub(super) fn moves(job: &Job, touched: Option<&str>, unit: LengthUnit) -> Vec<(String, String)> {
    let Some((path, spec)) = touched.and_then(|path| Some((path, job.spec(path)?))) else {
        return Vec::new();
    };
    let touched_is_angle = spec.kind == Kind::Angle;
    let line = |one: &tolerance::Moved| (name(&one.id), amount(one, touched_is_angle, unit));
    tolerance::moves(job, path).iter().take(MOST).map(line).collect()
}

/// By how much it grows for one of the touched figure's unit.
fn amount(moved: &tolerance::Moved, touched_is_angle: bool, unit: LengthUnit) -> String {
    let of_unit = |is_angle: bool| if is_angle { 1.0 } else { show::in_unit(1.0, unit) };
    let is_angle = moved.id.ends_with("_deg");
    let per_unit = moved.per_unit * of_unit(is_angle) / of_unit(touched_is_angle);
    let sign = if per_unit < 0.0 { "−" } else { "+" };
    let amount = trimmed(per_unit.abs(), 3);
    if is_angle { format!("{sign}{amount}°") } else { format!("{sign}{amount} {}", show::sign(unit)) }
}

/// `chainstays.right.front.dro_along_mm` as the trade says it.
fn name(id: &str) -> String {
    let (place, key) = id.rsplit_once('.').unwrap_or(("", id));
    let what = match key.strip_suffix("_mm").or_else(|| key.strip_suffix("_deg")).unwrap_or(key) {
        "dro_along" => "along the table",
        "dro_across" => "across the table",
        "axis_station" => "axes nearest at",
        "right" => "right axis",
        "left" => "left axis",
        other => return format!("{}, {}", capital(&place_name(place)), other.replace('_', " ")),
    };
    format!("{}, {what}", capital(&place_name(place)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_moves_is_named_in_the_trades_words() {
        assert_eq!(
            name("chainstays.right.front.dro_along_mm"),
            "Right chainstay, front end, along the table"
        );
        assert_eq!(name("seatstays.slide_mm"), "Seat stays, slide");
        let by = |unit, sign| {
            let all = moves(&Job::default(), Some("frame.bb_drop_mm"), unit);
            let slide = all.into_iter().find(|(name, _)| name == "Seat stays, slide");
            slide.map(|(_, by)| by.replace(sign, ""))
        };
        assert!(by(LengthUnit::Millimetre, " mm").is_some());
        assert_eq!(by(LengthUnit::Millimetre, " mm"), by(LengthUnit::Inch, " in"));
        assert!(moves(&Job::default(), Some("no.such"), LengthUnit::Inch).is_empty());
        assert!(moves(&Job::default(), None, LengthUnit::Inch).is_empty());
    }
}
