//! What was ticked and measured, so that a reload at the mill loses nothing.
//!
//! A tick belongs to the setting that it was made for and a reading to the stay that it was read on, both told by their own
//! figures. They go along when the job is edited: what the edit leaves as it was stays ticked, what it changes is no longer
//! done, and is again when the figure comes back.

use serde::{Deserialize, Serialize};
use staywright::ask::MadeFor;

/// Jobs remembered; the one touched longest ago goes first.
const MOST_JOBS: usize = 40;

/// Nominal figures closer than this, mm or degrees, are one.
const SAME: f64 = 1e-6;

/// A step that was done.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Tick {
    /// The step.
    pub step: String,
    /// The figures that it was done for; `None` where an earlier version did not keep them: then it is of its job alone.
    pub made_for: Option<MadeFor>,
}

/// What was measured.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Measured {
    /// The figure that was measured.
    pub check: String,
    /// As it was typed.
    pub text: String,
    /// What it should have been, mm or degrees; `None` where that is not known: then it is of its job alone.
    pub nominal: Option<f64>,
}

impl Measured {
    /// Whether it was read on a stay that should have measured so.
    pub fn is_of(&self, nominal: Option<f64>) -> bool {
        self.nominal.zip(nominal).is_none_or(|(read, now)| (read - now).abs() < SAME)
    }
}

/// What belongs to one job.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Record {
    /// Steps that are done.
    pub ticks: Vec<Tick>,
    /// What was measured.
    pub measured: Vec<Measured>,
    /// Whether anything was ticked or measured while this very job was open; else all of it has come along with an edit.
    pub is_own: bool,
}

impl Record {
    fn is_empty(&self) -> bool {
        self.ticks.is_empty() && self.measured.is_empty()
    }

    /// Ticks a step for the figures that it is done for, or takes its tick away.
    pub fn tick(&mut self, step: &str, made_for: Option<MadeFor>, done: bool) {
        self.ticks.retain(|known| known.step != step);
        if done {
            self.ticks.push(Tick { step: step.to_owned(), made_for });
        }
    }

    /// The tick of a step, whatever it was made for.
    pub fn tick_of(&self, step: &str) -> Option<&Tick> {
        self.ticks.iter().find(|known| known.step == step)
    }

    /// What was measured for a check, whatever it should have been then.
    pub fn measured(&self, check: &str) -> Option<&Measured> {
        self.measured.iter().find(|known| known.check == check)
    }

    /// Writes down what was measured for a check.
    pub fn measure(&mut self, check: &str, text: &str, nominal: Option<f64>) {
        self.measured.retain(|known| known.check != check);
        if !text.trim().is_empty() {
            self.measured.push(Measured { check: check.to_owned(), text: text.to_owned(), nominal });
        }
    }

    /// What of it goes along when the job is edited: all that knows its figures.
    fn portable(&self) -> Self {
        Self {
            ticks: self.ticks.iter().filter(|tick| tick.made_for.is_some()).cloned().collect(),
            measured: self.measured.iter().filter(|one| one.nominal.is_some()).cloned().collect(),
            is_own: false,
        }
    }

    /// Puts what `other` knows in place of what this record knows of the same.
    fn join(&mut self, other: Self) {
        self.ticks.retain(|known| other.tick_of(&known.step).is_none());
        self.measured.retain(|known| other.measured(&known.check).is_none());
        self.ticks.extend(other.ticks);
        self.measured.extend(other.measured);
    }
}

/// The records of all jobs, the one touched last at the end.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Records(Vec<(String, Record)>);

impl Records {
    /// Records by the marks of their jobs.
    pub const fn of_jobs(records: Vec<(String, Record)>) -> Self {
        Self(records)
    }

    /// The record of the job with that mark.
    pub fn of(&self, mark: &str) -> Option<&Record> {
        self.0.iter().find(|(known, _)| known == mark).map(|(_, record)| record)
    }

    /// Changes the record of the job with that mark; an emptied record is forgotten.
    pub fn change(&mut self, mark: &str, change: impl FnOnce(&mut Record)) {
        self.put(mark, |record| {
            change(record);
            record.is_own = true;
        });
    }

    /// The job with mark `from` was edited into the one with mark `to`. Where that is one that was `left` before by such an edit,
    /// what has been done since counts; else what is known of it is kept beside.
    pub fn carry(&mut self, from: &str, to: &str, left: bool) {
        let Some(record) = self.of(from) else { return };
        let (portable, is_own) = (record.portable(), record.is_own);
        if !is_own {
            self.0.retain(|(known, _)| known != from);
        }
        self.put(to, |record| {
            if left {
                record.ticks.retain(|tick| tick.made_for.is_none());
                record.measured.retain(|one| one.nominal.is_none());
            }
            record.join(portable);
        });
    }

    fn put(&mut self, mark: &str, change: impl FnOnce(&mut Record)) {
        let at = self.0.iter().position(|(known, _)| known == mark);
        let mut record = at.map(|at| self.0.remove(at).1).unwrap_or_default();
        change(&mut record);
        if !record.is_empty() {
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

    fn figures(figure: f64) -> Option<MadeFor> {
        Some(MadeFor { figures: vec![figure], setting: 7 })
    }

    fn steps(records: &Records, mark: &str) -> Vec<String> {
        records
            .of(mark)
            .map(|one| one.ticks.iter().map(|tick| tick.step.clone()).collect())
            .unwrap_or_default()
    }

    #[test]
    fn a_mark_has_sixteen_letters() {
        // Published test vector of FNV-1a, 64 bits.
        assert_eq!(mark(""), "cbf29ce484222325");
    }

    #[test]
    fn the_oldest_goes_first_and_an_empty_one_is_forgotten() {
        let mut records = Records::default();
        for job in 0..=MOST_JOBS {
            records.change(&job.to_string(), |record| record.tick("cut", figures(1.0), true));
        }
        assert_eq!(records.of("0"), None);
        assert_eq!(steps(&records, "1"), ["cut"]);
        records.change("1", |record| record.tick("cut", None, false));
        assert_eq!(records.of("1"), None);
        records.change("1", |record| record.measure("length", " 400,5 ", Some(400.0)));
        assert_eq!(
            records.of("1").and_then(|one| one.measured("length")).map(|one| &*one.text),
            Some(" 400,5 ")
        );
    }

    #[test]
    fn an_edit_takes_ticks_and_readings_along_and_leaves_those_of_the_job_that_they_were_made_in() {
        let mut records = Records::default();
        records.change("a", |record| {
            record.tick("slide", figures(415.0), true);
            record.tick("of old", None, true);
            record.measure("length", "401.5", Some(401.51));
            record.measure("of old", "82", None);
        });
        records.carry("a", "b", false);
        records.carry("b", "c", false);
        // What only passed through a job leaves nothing there; what has no figures stays with its own.
        assert_eq!((steps(&records, "b"), steps(&records, "c")), (vec![], vec!["slide".to_owned()]));
        assert_eq!(steps(&records, "a"), ["slide", "of old"]);
        let read = |records: &Records, mark: &str| records.of(mark).map_or(0, |record| record.measured.len());
        assert_eq!((read(&records, "a"), read(&records, "c")), (2, 1));
        // Back by undo: what was unticked meanwhile does not come back, what had no figures was never gone.
        records.change("c", |record| record.tick("slide", None, false));
        records.change("c", |record| record.tick("clamp", figures(1.0), true));
        records.carry("c", "a", true);
        assert_eq!(steps(&records, "a"), ["of old", "clamp"]);
    }

    #[test]
    fn a_reading_is_of_a_stay_that_should_measure_so() {
        let read = |nominal| Measured { check: "length".into(), text: "1".into(), nominal };
        assert!(
            read(Some(401.51)).is_of(Some(401.51))
                && read(None).is_of(Some(1.0))
                && read(Some(1.0)).is_of(None)
        );
        assert!(!read(Some(401.51)).is_of(Some(401.52)));
    }
}
