//! What to read besides, where the readings leave a result open.

use super::figure::Figure;
use super::finished::Finished;
use super::found::{Found, Judged, Reading, Verdict};
use super::outcome::What;

impl Finished {
    /// Readings told by the name of their figure, each with the uncertainty that the figure starts with.
    pub fn readings(&self, told: &[(String, f64)]) -> Vec<Reading> {
        let reading = |(id, value): &(String, f64)| {
            let figure = self.figures.iter().find(|figure| figure.id == *id);
            Reading { id: id.clone(), value: *value, standard: figure.map_or(1.0, |figure| figure.standard) }
        };
        told.iter().map(reading).collect()
    }

    /// Figures which, read besides, settle the result at `place`: none of them can be left out. Empty where it is settled, where
    /// it is no result of the wheel, and where all figures together leave it open. Those that a shop reads with least trouble are kept.
    pub fn asks(&self, found: &Found, readings: &[Reading], place: usize) -> Vec<String> {
        let of_wheel =
            self.rear.outcomes.get(place).is_some_and(|one| !matches!(one.what, What::Gap | What::Tyre));
        if !of_wheel || !found.results.get(place).is_some_and(is_open) {
            return Vec::new();
        }
        let unread = |figure: &&Figure| readings.iter().all(|reading| reading.id != figure.id);
        let as_planned = |figure: &Figure| Reading {
            id: figure.id.clone(),
            value: figure.nominal,
            standard: figure.standard,
        };
        let mut more: Vec<Reading> = self.figures.iter().filter(unread).map(as_planned).collect();
        if !self.settles(readings, &more, place) {
            return Vec::new();
        }
        for figure in &self.figures {
            let without: Vec<Reading> = more.iter().filter(|one| one.id != figure.id).cloned().collect();
            if without.len() < more.len() && self.settles(readings, &without, place) {
                more = without;
            }
        }
        more.into_iter().map(|reading| reading.id).collect()
    }

    /// Whether the result at `place` is settled once `more` is read too.
    fn settles(&self, readings: &[Reading], more: &[Reading], place: usize) -> bool {
        let all: Vec<Reading> = readings.iter().chain(more).cloned().collect();
        let found = self.found(&all);
        found.is_some_and(|found| found.results.get(place).is_some_and(|judged| !is_open(judged)))
    }
}

fn is_open(judged: &Judged) -> bool {
    judged.verdict == Verdict::Open
}
