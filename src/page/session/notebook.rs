//! Ticks and readings of the job that is open: which of them belong to it as it stands now.

use super::Session;
use super::records::Tick;
use leptos::prelude::*;
use staywright::ask::{Checked, MadeFor, StepLine, ToCheck};
use staywright::procedure::SettingKey;

/// The jobs that one job was edited through, by their marks: ticks and readings go along between them, and to no other.
#[derive(Clone, Debug, Default)]
pub struct Lineage {
    marks: Vec<String>,
    /// Numbers of the history at which another job was opened.
    opened_at: Vec<u32>,
}

impl Lineage {
    /// Another job was opened, in the history at number `at`.
    pub fn begin(&mut self, at: u32) {
        self.marks.clear();
        self.opened_at.retain(|opened| *opened < at);
        self.opened_at.push(at);
    }

    /// The history went from one number to another.
    pub fn go(&mut self, from: u32, to: u32) {
        let (low, high) = (from.min(to), from.max(to));
        if self.opened_at.iter().any(|opened| low < *opened && *opened <= high) {
            self.marks.clear();
        }
    }

    /// Goes on to a job: the one before, where ticks come along from it, and whether this one was left before.
    fn go_on(&mut self, mark: &str) -> Option<(String, bool)> {
        let before = self.marks.last().cloned();
        let left = self.marks.iter().any(|known| known == mark);
        self.marks.retain(|known| known != mark);
        self.marks.push(mark.to_owned());
        before.filter(|before| before != mark).map(|before| (before, left))
    }
}

impl Session {
    /// Takes ticks and readings along to the job as it stands now.
    pub fn carry_records(self) {
        let mark = self.follow.mark.get();
        let before = self.lineage.try_update_value(|lineage| lineage.go_on(&mark)).flatten();
        if let Some((before, left)) = before
            && self.records.with_untracked(|records| records.of(&before).is_some())
        {
            self.records.update(|records| records.carry(&before, &mark, left));
        }
    }

    /// Whether a step is done, for the figures that it has now.
    pub fn ticked(self, step: &StepLine) -> bool {
        self.tick_of(&step.id)
            .is_some_and(|tick| tick.made_for.is_none_or(|made_for| made_for.is(&step.made_for)))
    }

    /// What a step was ticked for, where its setting has other figures now.
    pub fn ticked_before(self, step: &StepLine) -> Option<MadeFor> {
        self.tick_of(&step.id)?.made_for.filter(|made_for| !made_for.is(&step.made_for))
    }

    fn tick_of(self, step: &str) -> Option<Tick> {
        let mark = self.follow.mark.get();
        self.records.with(|records| records.of(&mark)?.tick_of(step).cloned())
    }

    /// Ticks a step, or takes its tick away.
    pub fn tick(self, step: &StepLine, done: bool) {
        let mark = self.follow.mark.get_untracked();
        let made_for = Some(step.made_for.clone());
        self.records.update(|records| records.change(&mark, |record| record.tick(&step.id, made_for, done)));
        self.cleared.set(Vec::new());
    }

    /// Ticks every step of a setting, or takes their ticks away where all are ticked.
    pub fn tick_setting(self, setting: SettingKey) {
        let Some(order) = self.order.get_untracked() else { return };
        let steps: Vec<&StepLine> = order.steps.iter().filter(|step| step.setting == Some(setting)).collect();
        let done = untrack(|| steps.iter().all(|step| self.ticked(step)));
        steps.into_iter().for_each(|step| self.tick(step, !done));
    }

    /// Takes all ticks of this job away, to be brought back.
    pub fn clear_ticks(self) {
        let mark = self.follow.mark.get_untracked();
        let ticks =
            self.records.with_untracked(|records| records.of(&mark).map(|record| record.ticks.clone()));
        self.records.update(|records| records.change(&mark, |record| record.ticks.clear()));
        self.cleared.set(ticks.unwrap_or_default());
    }

    /// Brings back the ticks that were cleared last.
    pub fn bring_ticks_back(self) {
        let mark = self.follow.mark.get_untracked();
        let ticks = self.cleared.get_untracked();
        self.cleared.set(Vec::new());
        self.records.update(|records| {
            records.change(&mark, |record| {
                for Tick { step, made_for } in ticks {
                    record.tick(&step, made_for, true);
                }
            });
        });
    }

    /// Gives ticks that an earlier version kept the figures of the job that they were kept for.
    pub(super) fn know_figures(self) {
        let mark = self.follow.mark.get_untracked();
        let bare = |tick: &Tick| tick.made_for.is_none();
        let wanting = self
            .records
            .with_untracked(|records| records.of(&mark).is_some_and(|one| one.ticks.iter().any(bare)));
        let Some(order) = self.order.get_untracked().filter(|_| wanting) else { return };
        self.records.update(|records| {
            records.change(&mark, |record| {
                for tick in record.ticks.iter_mut().filter(|tick| bare(tick)) {
                    let step = order.steps.iter().find(|step| step.id == tick.step);
                    tick.made_for = step.map(|step| step.made_for.clone());
                }
            });
        });
    }

    /// The same for readings, which may also have come with a link.
    pub(super) fn know_nominals(self, asked: &ToCheck, checked: &Checked) {
        let mark = self.follow.mark.get_untracked();
        let is_of_job = self.follow.link.with_untracked(|link| link.as_ref() == Some(&asked.job));
        let wanting = self.records.with_untracked(|records| {
            records.of(&mark).is_some_and(|one| one.measured.iter().any(|one| one.nominal.is_none()))
        });
        if !is_of_job || !wanting {
            return;
        }
        self.records.update(|records| {
            records.change(&mark, |record| {
                for one in record.measured.iter_mut().filter(|one| one.nominal.is_none()) {
                    one.nominal = nominal_of(checked, &one.check);
                }
            });
        });
    }

    /// What was measured for a check, as it was typed; empty where nothing was, or on a stay that should have measured otherwise.
    pub fn measured(self, check: &str) -> String {
        let (mark, nominal) = (self.follow.mark.get(), self.nominal(check));
        self.records.with(|records| {
            let read = records.of(&mark).and_then(|record| record.measured(check));
            read.filter(|read| read.is_of(nominal)).map(|read| read.text.clone()).unwrap_or_default()
        })
    }

    /// All that was measured on the stays of this job as it stands, as it was typed, by the names of the figures.
    pub(super) fn readings_as_typed(self) -> Vec<(String, String)> {
        let mark = self.follow.mark.get();
        self.records.with(|records| {
            let measured = records.of(&mark).map_or(&[][..], |record| &record.measured).iter();
            let own = measured.filter(|one| one.is_of(self.nominal(&one.check)));
            own.map(|one| (one.check.clone(), one.text.clone())).collect()
        })
    }

    /// Whether anything was measured on the stays of this job as it stands.
    pub fn has_readings(self) -> bool {
        !self.readings_as_typed().is_empty()
    }

    /// Writes down what was measured for a check.
    pub fn measure(self, check: &str, text: &str) {
        let mark = self.follow.mark.get_untracked();
        let nominal = untrack(|| self.nominal(check));
        self.records.update(|records| records.change(&mark, |record| record.measure(check, text, nominal)));
    }

    fn nominal(self, check: &str) -> Option<f64> {
        self.checked.with(|checked| nominal_of(checked.as_ref()?, check))
    }
}

fn nominal_of(checked: &Checked, check: &str) -> Option<f64> {
    checked.measures.iter().find(|measure| measure.id == check).map(|measure| measure.nominal)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ticks_go_along_with_edits_and_not_to_another_job() {
        let mut lineage = Lineage::default();
        assert_eq!(lineage.go_on("a"), None);
        assert_eq!(lineage.go_on("b"), Some(("a".to_owned(), false)));
        assert_eq!(lineage.go_on("b"), None);
        assert_eq!(lineage.go_on("a"), Some(("b".to_owned(), true)));
        lineage.begin(4);
        assert_eq!(lineage.go_on("c"), None);
        assert_eq!(lineage.go_on("d"), Some(("c".to_owned(), false)));
        // Within the job that was opened at 4, and then back to the one before.
        lineage.go(5, 4);
        assert_eq!(lineage.go_on("c"), Some(("d".to_owned(), true)));
        lineage.go(4, 3);
        assert_eq!(lineage.go_on("b"), None);
    }
}
