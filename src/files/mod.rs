//! Plans, clearances, questions and answers as files of an open format.

mod check;
mod faults;
mod json;
mod plan;

pub use check::worked_json;
pub use faults::faults_text;
pub use json::{check_json, plan_json, rooms_json};
pub use plan::plan_text;
