//! A plan as JSON: its figures, and what it finds in British English and millimetres.

use crate::model::Level;
use crate::plan::{Code, DropoutsPlan, Pairs, Plan, Warning, with_landings};
use crate::text::{self, Style};
use serde::Serialize;

/// The keys of a plan file.
#[derive(Serialize)]
struct PlanFile<'a> {
    format: u32,
    pairs: &'a Pairs,
    #[serde(skip_serializing_if = "Option::is_none")]
    dropouts: Option<&'a DropoutsPlan>,
    warnings: Vec<WarningFile>,
    axle_mm: [f64; 3],
    seat_tube_foot_mm: [f64; 3],
    seat_tube_direction: [f64; 3],
}

#[derive(Serialize)]
struct WarningFile {
    code: Code,
    level: Level,
    r#where: String,
    message: String,
}

impl WarningFile {
    fn new(warning: &Warning) -> Self {
        Self {
            code: warning.code(),
            level: warning.level(),
            r#where: warning.location.key(),
            message: text::plan_problem(&warning.problem, Style::FILE),
        }
    }
}

/// A plan's JSON text.
///
/// # Errors
/// What the writer of JSON says; a plan has nothing that it cannot write.
pub fn plan_text(plan: &Plan) -> Result<String, serde_json::Error> {
    let plan = &with_landings(plan);
    serde_json::to_string(&PlanFile {
        format: plan.format,
        pairs: &plan.pairs,
        dropouts: plan.dropouts.as_ref(),
        warnings: plan.warnings.iter().map(WarningFile::new).collect(),
        axle_mm: plan.axle.coords.into(),
        seat_tube_foot_mm: plan.seat_tube_foot.coords.into(),
        seat_tube_direction: plan.seat_tube_direction.into(),
    })
}
