//! Job files.

use crate::link;
use crate::model::{Fault, Job, RejectedValue};
use crate::text::fault as fault_words;
use crate::text::{Style, fault_message};

/// Most faults that are told one by one.
const MOST: usize = 12;

/// The job of a file's text as a link text, or what is wrong with the file.
pub(super) fn open(text: &str) -> Result<String, String> {
    let refused = |faults: Vec<Fault>| refused("The job file was not opened", "a job file", &faults);
    Job::from_json(text).map(|job| link::encode(&job)).map_err(refused)
}

/// What was not done and why: a single fault in the sentence, several in a line each after it. `kind` is what the text should
/// have been.
pub(super) fn refused(what: &str, kind: &str, faults: &[Fault]) -> String {
    let style = Style::FILE;
    let why = match faults {
        [fault] if fault.field.is_empty() && fault.value == RejectedValue::Nothing => {
            fault_message(fault, style)
        }
        [fault] if fault.field.is_empty() => format!("it is not {kind}: {}", fault_message(fault, style)),
        [fault] => format!("at {}, {}", fault.field, fault_message(fault, style)),
        _ => format!("it has {} faults", faults.len()),
    };
    let mut words = format!("{what}: {why}. Nothing was changed.");
    if faults.len() > 1 {
        faults.iter().take(MOST).for_each(|fault| words += &format!("\n{}.", fault_words(fault, style)));
    }
    if faults.len() > MOST {
        words += &format!("\nAnd {} more.", faults.len() - MOST);
    }
    words
}

/// A job's file.
pub(super) fn text(job: &Job) -> String {
    serde_json::to_string_pretty(&job.to_json()).unwrap_or_default()
}
