//! What is asked beside the page, as it stands.

use super::Session;
use super::checks::reading;
use super::follow::Shared;
use super::place::Place;
use leptos::prelude::*;
use staywright::ask::{Answer, Question, ToCheck, ToStep};
use staywright::link;
use staywright::plan::Placements;
use staywright::units::LengthUnit;

impl Session {
    /// How errors carry and what the readings say, as long as somebody looks at it.
    pub fn to_check(self) -> Option<Question> {
        (self.settings.place.get() == Place::Check).then(|| {
            let touched = self.lit.get().filter(|path| self.follow.figure(path).is_some());
            Question::Check(Box::new(ToCheck {
                job: self.follow.link.get(),
                unit: self.settings.unit.get(),
                bench: self.settings.bench.get(),
                readings: self.readings(),
                result: self.result.get(),
                touched,
            }))
        })
    }

    /// The order of work. Where nobody looks at it, that of the last settled state is enough: it may be printed at any time.
    pub fn to_set_up(self) -> Option<Question> {
        let looked_at = self.settings.place.get() == Place::SetUp;
        if !looked_at {
            self.history.track();
        }
        let link = self.follow.link;
        let job = if looked_at { link.get() } else { link.get_untracked() };
        Some(Question::Steps(ToStep {
            job,
            shop: self.settings.shop.get(),
            picked: self.settings.picked.get(),
            unit: self.settings.unit.get(),
        }))
    }

    /// Where tubes lie that leave it to the solver.
    pub fn to_place(self) -> Option<Question> {
        self.job().with(|job| Placements::is_wanted(job).then(|| Question::Place(link::encode(job))))
    }

    /// Takes over what was answered. Where nobody answered, what was known is shown no longer.
    pub fn take_answer(self, answer: Option<Answer>) {
        match answer {
            Some(Answer::Placed(placed)) => self.placed.set(placed),
            Some(Answer::Check(checked)) => self.checked.set(Some(Shared::new(*checked))),
            Some(Answer::Rooms(rooms)) => self.take_rooms(rooms),
            Some(Answer::Ways(ways)) => self.room.ways.set(Some(Shared::new(*ways))),
            Some(Answer::Starting(starting)) => self.room.starting.set(Some(Shared::new(starting))),
            Some(Answer::Steps(mut order)) => {
                self.steps.set(std::mem::take(&mut order.steps));
                self.order.set(*order);
            }
            _ => self.checked.set(None),
        }
    }

    /// What was measured, as numbers; a text that is none is left out, and said so at its field.
    fn readings(self) -> Vec<(String, f64)> {
        let (mark, unit) = (self.follow.mark.get(), self.settings.unit.get());
        self.records.with(|records| {
            let measured = records.of(&mark).map_or(&[][..], |record| &record.measured).iter();
            measured.filter_map(|(id, text)| Some((id.clone(), number(id, text, unit)?))).collect()
        })
    }
}

/// Angles are those whose name says so.
fn number(id: &str, text: &str, unit: LengthUnit) -> Option<f64> {
    reading(text, id.ends_with("angle"), unit).ok()
}
