//! Faults as JSON: `{"errors": [{"field", "value", "message"}]}`.

use crate::model::{Fault, RejectedValue};
use crate::text::{Style, fault_message};
use serde::Serialize;

#[derive(Serialize)]
struct FaultsFile<'a> {
    errors: Vec<FaultFile<'a>>,
}

#[derive(Serialize)]
struct FaultFile<'a> {
    field: &'a str,
    value: &'a RejectedValue,
    message: String,
}

/// All faults, their messages in British English and millimetres.
pub fn faults_text(faults: &[Fault]) -> String {
    let one = |fault: &'_ Fault| fault_message(fault, Style::FILE);
    let errors = faults
        .iter()
        .map(|fault| FaultFile { field: &fault.field, value: &fault.value, message: one(fault) })
        .collect();
    serde_json::to_string(&FaultsFile { errors }).unwrap_or_default()
}
