//! What is asked off the main thread, as it stands, and what becomes of the answers.

use super::Session;
use super::answered::Answered;
use super::checks::reading;
use super::follow::Follow;
use super::kept::Kept;
use super::place::Place;
use super::settings::Settings;
use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use staywright::ask::{Answer, Checked, ContentId, Order, Question, Response, ToCheck, ToStep};
use staywright::plan::Placements;
use staywright::tolerance::Measurand;
use staywright::units::{Kind, LengthUnit};

/// What an answer on errors and finished stays is made for: the job as it is laid, and the unit of its words.
type CheckKey = (String, LengthUnit);

/// The answers to the questions that belong to no one place.
#[derive(Clone, Copy)]
pub struct Answers {
    /// How errors carry and what the readings say.
    pub checked: Answered<CheckKey, Checked>,
    /// The order of work.
    pub order: Answered<ContentId, Order>,
}

impl Answers {
    pub(super) fn new(follow: Follow, settings: Settings) -> Self {
        Self {
            checked: Answered::new(move || Some((follow.link.get()?, settings.unit.get()))),
            order: Answered::new(move || Some(order_question(follow, settings)?.id())),
        }
    }
}

/// The order of work as it was last answered, and what it was made for and by. It is no work of anybody's: one that cannot be
/// read, or that another build made, is worked out anew.
#[derive(Serialize, Deserialize)]
pub struct LastOrder {
    /// The build of the page.
    pub build: String,
    /// What it answers.
    pub request: ContentId,
    /// The order of work.
    pub order: Order,
}

impl Kept for LastOrder {
    fn earlier(_: u8, _: &[u8]) -> Option<Self> {
        None
    }
}

/// The plan in view and the shop that it is cut in; `None` while a place for a tube is searched for.
pub(super) fn order_asked(follow: Follow, settings: Settings) -> Option<ToStep> {
    Some(ToStep {
        job: follow.link.get()?,
        shop: settings.shop.get(),
        picked: settings.picked.get(),
        unit: settings.unit.get(),
    })
}

fn order_question(follow: Follow, settings: Settings) -> Option<Question> {
    Some(Question::Steps(order_asked(follow, settings)?))
}

impl Session {
    /// How errors carry and what the readings say, as long as somebody looks at it.
    pub fn to_check(self) -> Option<Question> {
        if self.settings.place.get() != Place::Check {
            return None;
        }
        Some(Question::Check(Box::new(ToCheck {
            job: self.follow.link.get()?,
            unit: self.settings.unit.get(),
            bench: self.settings.bench.get(),
            readings: self.readings(),
            read_for: self.read_for(),
            result: self.result.get(),
            touched: self.lit.get().filter(|path| self.follow.figure(path).is_some()),
        })))
    }

    /// The order of work. Where nobody looks at it, it is asked for when the job has settled.
    pub fn to_set_up(self) -> Option<Question> {
        let looked_at = self.settings.place.get() == Place::Cut
            || self.settings.mill.with(Option::is_some)
            || self.card.get() != Card::Away;
        if looked_at {
            return order_question(self.follow, self.settings);
        }
        self.history.track();
        self.placed.track();
        let Settings { shop, picked, unit, .. } = self.settings;
        shop.track();
        picked.track();
        unit.track();
        untrack(|| order_question(self.follow, self.settings))
    }

    /// Where tubes lie that leave it to the solver.
    pub fn to_place(self) -> Option<Question> {
        self.follow.search.get().map(Question::Place)
    }

    /// Takes over what was answered to `question`.
    pub fn take_answer(self, question: &Question, response: Response) {
        match response.answer {
            Answer::Placed(placed) => self.placed.set((response.plan, placed)),
            _ if matches!(question, Question::Place(_)) => {
                self.placed.set((response.plan, Placements::default()))
            }
            Answer::Check(checked) => {
                if let Question::Check(asked) = question {
                    self.know_nominals(asked, &checked);
                    self.answers.checked.take((asked.job.clone(), asked.unit), *checked);
                }
            }
            Answer::Rooms(rooms) => self.room.cleared.take(response.request, rooms),
            Answer::Findings(found) => self.findings.answered.take(response.request, found),
            Answer::Ways(ways) => self.room.ways.take(response.request, *ways),
            Answer::Starting(starting) => self.room.starting.take(response.request, starting),
            Answer::Steps(order) => {
                self.answers.order.take(response.request, *order);
                self.know_figures();
            }
            _ => {}
        }
    }

    /// What was measured, as numbers; a text that is none is left out, and said so at its field.
    fn readings(self) -> Vec<(String, f64)> {
        let (mark, unit) = (self.follow.mark.get(), self.settings.unit.get());
        self.records.with(|records| {
            let measured = records.of(&mark).map_or(&[][..], |record| &record.measured).iter();
            measured
                .filter_map(|one| Some((one.check.clone(), number(&one.check, &one.text, unit)?)))
                .collect()
        })
    }

    /// What these figures should have been when they were measured, where that is known.
    fn read_for(self) -> Vec<(String, f64)> {
        let mark = self.follow.mark.get();
        self.records.with(|records| {
            let measured = records.of(&mark).map_or(&[][..], |record| &record.measured).iter();
            measured.filter_map(|one| Some((one.check.clone(), one.nominal?))).collect()
        })
    }
}

/// What was measured, mm or degrees; `None` for what no job can have and for a text that is no reading.
fn number(id: &str, text: &str, unit: LengthUnit) -> Option<f64> {
    let is_angle = Measurand::from_id(id)?.quantity() == Kind::Angle;
    reading(text, is_angle, unit).ok()
}

/// The set-up card, which is printed only once all that it shows belongs to the plan in view.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Card {
    /// Nobody prints.
    Away,
    /// It is wanted, and printed as soon as it is whole.
    Wanted,
    /// It is laid out.
    LaidOut,
}

impl Session {
    /// Whether all that the card shows belongs to the plan in view, or never will.
    pub fn card_is_whole(self) -> bool {
        !self.answers.order.is_behind() && !self.findings.answered.is_behind()
    }

    /// Wants the card printed.
    pub fn want_card(self) {
        self.card.set(Card::Wanted);
        if !untrack(|| self.card_is_whole()) {
            self.say("The card is printed as soon as its steps are worked out.");
        }
    }

    /// Notes that a question got no answer, or that it got one after all.
    pub fn note_silence(self, about: &'static str, silent: bool) {
        if self.silent.with_untracked(|known| known.contains(&about)) == silent {
            return;
        }
        self.silent.update(|known| {
            known.retain(|one| *one != about);
            known.extend(silent.then_some(about));
        });
        if silent && self.card.get_untracked() == Card::Wanted {
            self.card.set(Card::Away);
        }
    }

    /// Asks again whatever got no answer.
    pub fn ask_again(self) {
        self.silent.set(Vec::new());
        self.asked_again.update(|times| *times += 1);
    }
}
