//! What was ticked and measured, job by job, so that a reload at the mill loses nothing.

use serde::{Deserialize, Serialize};

/// Jobs remembered; the one touched longest ago goes first.
const MOST_JOBS: usize = 40;

/// What belongs to one job.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Record {
    /// Steps that are done.
    pub ticks: Vec<String>,
    /// What was measured, as it was typed.
    pub measured: Vec<(String, String)>,
}

impl Record {
    /// Ticks a step, or takes its tick away.
    pub fn tick(&mut self, step: &str, done: bool) {
        self.ticks.retain(|known| known != step);
        if done {
            self.ticks.push(step.to_owned());
        }
    }

    /// What was measured for a check, as it was typed; empty where nothing was.
    pub fn measured(&self, check: &str) -> &str {
        self.measured.iter().find(|(known, _)| known == check).map_or("", |(_, text)| text)
    }

    /// Writes down what was measured for a check.
    pub fn measure(&mut self, check: &str, text: &str) {
        self.measured.retain(|(known, _)| known != check);
        if !text.trim().is_empty() {
            self.measured.push((check.to_owned(), text.to_owned()));
        }
    }
}

/// The records of all jobs, the one touched last at the end.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Records(Vec<(String, Record)>);

impl Records {
    /// Records by the marks of their jobs.
    pub fn of_jobs(records: Vec<(String, Record)>) -> Self {
        Self(records)
    }

    /// The record of the job with that mark.
    pub fn of(&self, mark: &str) -> Option<&Record> {
        self.0.iter().find(|(known, _)| known == mark).map(|(_, record)| record)
    }

    /// Changes the record of the job with that mark; an emptied record is forgotten.
    pub fn change(&mut self, mark: &str, change: impl FnOnce(&mut Record)) {
        let at = self.0.iter().position(|(known, _)| known == mark);
        let mut record = at.map(|at| self.0.remove(at).1).unwrap_or_default();
        change(&mut record);
        if record != Record::default() {
            self.0.push((mark.to_owned(), record));
        }
        let surplus = self.0.len().saturating_sub(MOST_JOBS);
        self.0.drain(..surplus);
    }
}

/// A short mark of a text, which tells one job's ticks from another's.
pub fn mark(text: &str) -> String {
    format!("{:016x}", staywright::link::digest(text.as_bytes()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_mark_has_sixteen_letters() {
        // Published test vector of FNV-1a, 64 bits.
        assert_eq!(mark(""), "cbf29ce484222325");
    }

    #[test]
    fn the_oldest_goes_first_and_an_empty_one_is_forgotten() {
        let mut records = Records::default();
        for job in 0..=MOST_JOBS {
            records.change(&job.to_string(), |record| record.tick("cut", true));
        }
        assert_eq!(records.of("0"), None);
        assert!(records.of("1").is_some_and(|record| record.ticks.iter().any(|step| step == "cut")));
        records.change("1", |record| record.tick("cut", false));
        assert_eq!(records.of("1"), None);
        records.change("1", |record| record.measure("length", " 400,5 "));
        assert_eq!(records.of("1").map(|record| record.measured("length")), Some(" 400,5 "));
    }
}
