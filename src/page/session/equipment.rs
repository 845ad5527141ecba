//! The builder's own equipment, which the page keeps without knowing what it is.

use super::Session;
use super::follow::Shared;
use super::place::Place;
use leptos::prelude::*;
use staywright::ask::{Answer, Change, CutTold, Question, Subject, ToCut};

use super::forms::FormState;
use super::settings::Settings;

/// Everything about the shop.
#[derive(Clone, Copy)]
pub struct Equipment {
    /// The shop as a form.
    pub shop: FormState,
    /// The flat for a brake mount as a form.
    pub pad: FormState,
    /// What is told of the cut looked at, and which cut that is.
    pub cut: RwSignal<Option<Shared<CutTold>>>,
    /// A shop that came with a link, until it is taken or left.
    pub offered: RwSignal<Option<Vec<u8>>>,
}

impl Equipment {
    pub(super) fn new(settings: Settings) -> Self {
        Self {
            shop: FormState::new(Subject::Shop, settings.shop, "shop"),
            pad: FormState::new(Subject::Pad, settings.pad, "pad"),
            cut: RwSignal::new(None),
            offered: RwSignal::new(None),
        }
    }

    /// A shop that came with a link: taken at once where there is none yet, else offered.
    pub fn offer(self, brought: Option<Vec<u8>>) {
        let own = self.shop.bytes.get_untracked();
        match brought {
            Some(bytes) if own.is_empty() => self.shop.act(Change::Replace(bytes)),
            Some(bytes) if bytes != own => self.offered.set(Some(bytes)),
            _ => {}
        }
    }
}

impl Session {
    /// The form of the shop, where it is looked at.
    pub fn to_shop(self) -> Option<Question> {
        let place = self.settings.place.get();
        self.equipment.shop.question(matches!(place, Place::SetUp | Place::Cuts), self.settings.unit.get())
    }

    /// The form of the flat for a brake mount, where it is looked at.
    pub fn to_pad(self) -> Option<Question> {
        self.equipment.pad.question(self.settings.place.get() == Place::Cuts, self.settings.unit.get())
    }

    /// The cut that is looked at, on the builder's own machine.
    pub fn to_cut(self) -> Option<Question> {
        (self.settings.place.get() == Place::Cuts).then(|| Question::Cut(Box::new(self.cut_asked())))
    }

    /// What is asked of that cut.
    pub fn cut_asked(self) -> ToCut {
        let settings = self.settings;
        ToCut {
            job: self.follow.link.get(),
            shop: settings.shop.get(),
            picked: settings.picked.get(),
            cut: settings.pick.get().key(),
            pad: settings.pad.get(),
            unit: settings.unit.get(),
        }
    }

    /// Takes over what was answered about the shop.
    pub fn take_form(self, form: FormState, answer: Option<Answer>) {
        let Some(Answer::Form(formed)) = answer else { return };
        match form.take(*formed) {
            Some(said) if said.bad => self.say_bad(said.words),
            Some(said) => self.say(said.words),
            None => {}
        }
    }

    /// Takes over what was answered about the cut.
    pub fn take_cut(self, answer: Option<Answer>) {
        self.equipment.cut.set(match answer {
            Some(Answer::Cut(told)) => Some(Shared::new(*told)),
            _ => None,
        });
    }

    /// Picks a saw for the cut that is looked at, or leaves it to the page again.
    pub fn pick_saw(self, saw: Option<String>) {
        let together =
            self.equipment.cut.with_untracked(|told| told.as_ref().map(|told| told.together.clone()));
        let Some(together) = together else { return };
        self.settings.picked.update(|picked| {
            picked.retain(|(cut, _)| !together.contains(cut));
            if let Some(saw) = saw {
                picked.extend(together.into_iter().map(|cut| (cut, saw.clone())));
            }
        });
    }
}
