//! Job files.

use crate::link;
use crate::trade::{Fault, Job};

/// The job of a file's text as a link text, or what is wrong with the file.
pub(super) fn open(text: &str) -> Result<String, String> {
    Job::from_json(text).map(|job| link::encode(&job)).map_err(|faults| first_of(&faults))
}

/// The first fault and how many more there are, to follow what was not opened and a colon.
pub(super) fn first_of(faults: &[Fault]) -> String {
    let first = faults.first().map(|fault| match fault.field.as_str() {
        "" => fault.message.clone(),
        field => format!("at {field}, {}", fault.message),
    });
    let more = match faults.len().saturating_sub(1) {
        0 => String::new(),
        1 => " (and 1 more fault)".to_owned(),
        more => format!(" (and {more} more faults)"),
    };
    first.unwrap_or_default() + &more
}

/// A job's file.
pub(super) fn text(job: &Job) -> String {
    serde_json::to_string_pretty(&job.to_json()).unwrap_or_default()
}
