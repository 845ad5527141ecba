//! What moves with a figure that is touched.

use crate::model::Job;
use crate::text::{self, Style};
use crate::tolerance::{Sensitivity, sensitivities};

/// As many as are told.
const MOST: usize = 12;

pub(super) fn moves(job: &Job, touched: Option<&str>, style: Style) -> Vec<(String, String)> {
    let Some((path, spec)) = touched.and_then(|path| Some((path, job.spec(path)?))) else {
        return Vec::new();
    };
    let line = |one: &Sensitivity| {
        (text::tolerance::plan_figure(one.figure, style), text::tolerance::sensitivity(one, spec.kind, style))
    };
    sensitivities(job, path).iter().take(MOST).map(line).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::LengthUnit;

    #[test]
    fn what_moves_is_named_and_in_the_unit_of_the_page() {
        let by = |unit, sign| {
            let style = Style { unit, ..Style::default() };
            let all = moves(&Job::default(), Some("frame.bb_drop_mm"), style);
            let slide = all.into_iter().find(|(name, _)| name == "Seat stays, slide");
            slide.map(|(_, by)| by.replace(sign, ""))
        };
        assert!(by(LengthUnit::Millimetre, " mm").is_some());
        assert_eq!(by(LengthUnit::Millimetre, " mm"), by(LengthUnit::Inch, " in"));
        assert!(moves(&Job::default(), Some("no.such"), Style::default()).is_empty());
        assert!(moves(&Job::default(), None, Style::default()).is_empty());
    }
}
