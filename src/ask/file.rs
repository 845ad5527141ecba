//! Job files.

use crate::link;
use crate::trade::Job;

/// The job of a file's text as a link text, or what is wrong with the file.
pub(super) fn open(text: &str) -> Result<String, String> {
    Job::from_json(text).map(|job| link::encode(&job)).map_err(|faults| {
        let first = faults.first().map(ToString::to_string).unwrap_or_default();
        match faults.len().saturating_sub(1) {
            0 => first,
            more => format!("{first} (and {more} more)"),
        }
    })
}

/// A job's file.
pub(super) fn text(job: &Job) -> String {
    serde_json::to_string_pretty(&job.to_json()).unwrap_or_default()
}
