//! What to read besides, where the readings leave a result open.

use super::estimate::{Estimate, Judged, Reading, Verdict};
use super::finished::Finished;
use super::measurand::Measurand;
use super::measurement::Measurement;

impl Finished {
    /// Readings, each with the uncertainty that its measurand starts with.
    pub fn readings(&self, read: &[(Measurand, f64)]) -> Vec<Reading> {
        let reading = |(measurand, value): &(Measurand, f64)| {
            let known = self.measurements.iter().find(|one| one.measurand == *measurand);
            Reading { measurand: *measurand, value: *value, standard: known.map_or(1.0, |one| one.standard) }
        };
        read.iter().map(reading).collect()
    }

    /// Figures which, read besides, settle the result at `place`: none of them can be left out. Empty where it is settled, where
    /// it is no result of the wheel, and where all figures together leave it open. Those that a shop reads with least trouble are kept.
    pub fn further_readings(
        &self,
        estimate: &Estimate,
        readings: &[Reading],
        place: usize,
    ) -> Vec<Measurand> {
        let of_frame = self.rear.outcomes.get(place).is_some_and(|one| one.what.is_of_frame());
        if !of_frame || !estimate.results.get(place).is_some_and(is_open) {
            return Vec::new();
        }
        let unread = |one: &&Measurement| readings.iter().all(|reading| reading.measurand != one.measurand);
        let as_planned = |one: &Measurement| Reading {
            measurand: one.measurand,
            value: one.nominal,
            standard: one.standard,
        };
        let mut more: Vec<Reading> = self.measurements.iter().filter(unread).map(as_planned).collect();
        if !self.settles(readings, &more, place) {
            return Vec::new();
        }
        for left_out in &self.measurements {
            let kept = more.iter().filter(|one| one.measurand != left_out.measurand);
            let without: Vec<Reading> = kept.copied().collect();
            if without.len() < more.len() && self.settles(readings, &without, place) {
                more = without;
            }
        }
        more.into_iter().map(|reading| reading.measurand).collect()
    }

    /// Whether the result at `place` is settled once `more` is read too.
    fn settles(&self, readings: &[Reading], more: &[Reading], place: usize) -> bool {
        let all: Vec<Reading> = readings.iter().chain(more).copied().collect();
        let estimate = self.estimate(&all);
        estimate.is_some_and(|estimate| estimate.results.get(place).is_some_and(|judged| !is_open(judged)))
    }
}

fn is_open(judged: &Judged) -> bool {
    judged.verdict == Verdict::Open
}
