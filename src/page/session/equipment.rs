//! The builder's own equipment, which the page keeps without knowing what it is.

use super::Session;
use super::answered::Answered;
use super::follow::Follow;
use super::place::Place;
use leptos::prelude::*;
use staywright::ask::{Answer, Change, ContentId, CutTold, Question, Response, Subject, ToCut};

use super::forms::FormState;
use super::settings::Settings;

/// Everything about the shop.
#[derive(Clone, Copy)]
pub struct Equipment {
    /// The shop as a form.
    pub shop: FormState,
    /// The flat for a brake mount as a form.
    pub pad: FormState,
    /// What is told of the cut looked at.
    pub cut: Answered<ContentId, CutTold>,
    /// A shop that came with a link, until it is taken or left.
    pub offered: RwSignal<Option<Vec<u8>>>,
}

impl Equipment {
    pub(super) fn new(follow: Follow, settings: Settings) -> Self {
        Self {
            shop: FormState::new(Subject::Shop, settings.shop, "shop"),
            pad: FormState::new(Subject::Pad, settings.pad, "pad"),
            cut: Answered::new(move || Some(cut_question(follow, settings)?.id())),
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

/// What is asked of the cut that is looked at.
fn cut_asked(follow: Follow, settings: Settings) -> Option<ToCut> {
    Some(ToCut {
        job: follow.link.get()?,
        shop: settings.shop.get(),
        picked: settings.picked.get(),
        cut: settings.pick.get().key(),
        pad: settings.pad.get(),
        unit: settings.unit.get(),
    })
}

fn cut_question(follow: Follow, settings: Settings) -> Option<Question> {
    Some(Question::Cut(Box::new(cut_asked(follow, settings)?)))
}

impl Session {
    /// Whether a shop is entered.
    pub fn has_shop(self) -> bool {
        !self.settings.shop.with(Vec::is_empty)
    }

    /// What to say of a link that has been opened: whose saws and scales are shown.
    pub fn opened_words(self, brings_shop: bool) -> &'static str {
        match (brings_shop, self.settings.shop.with_untracked(Vec::is_empty)) {
            (true, _) => "The link is opened. It brings a shop.",
            (false, true) => "The link is opened. It brings no shop: no saws and scales are known.",
            (false, false) => {
                "The link is opened. It brings no shop: saws and scale readings are your own shop's."
            }
        }
    }

    /// The form of the shop, where it is looked at.
    pub fn to_shop(self) -> Option<Question> {
        let place = self.settings.place.get();
        self.equipment.shop.question(matches!(place, Place::Cut | Place::Shop), self.settings.unit.get())
    }

    /// The form of the flat for a brake mount, where it is looked at.
    pub fn to_pad(self) -> Option<Question> {
        self.equipment.pad.question(self.settings.place.get() == Place::Cut, self.settings.unit.get())
    }

    /// The cut that is looked at, on the builder's own machine.
    pub fn to_cut(self) -> Option<Question> {
        if self.settings.place.get() == Place::Cut { cut_question(self.follow, self.settings) } else { None }
    }

    /// What is asked of that cut; `None` while a place for a tube is searched for.
    pub fn cut_asked(self) -> Option<ToCut> {
        cut_asked(self.follow, self.settings)
    }

    /// Takes over what was answered about a form.
    pub fn take_form(self, form: FormState, answer: Answer) {
        let Answer::Form(formed) = answer else { return };
        match form.take(*formed) {
            Some(said) if said.bad => self.say_bad(said.words),
            Some(said) => self.say(said.words),
            None => {}
        }
    }

    /// Takes over what was answered about the cut.
    pub fn take_cut(self, response: Response) {
        if let Answer::Cut(told) = response.answer {
            self.equipment.cut.take(response.request, *told);
        }
    }

    /// Picks a saw for the cut that is looked at, or leaves it to the page again.
    pub fn pick_saw(self, saw: Option<String>) {
        let together =
            self.equipment.cut.now().with_untracked(|told| told.as_ref().map(|told| told.together.clone()));
        let Some(together) = together else { return };
        self.settings.picked.update(|picked| {
            picked.retain(|(cut, _)| !together.contains(cut));
            if let Some(saw) = saw {
                picked.extend(together.into_iter().map(|cut| (cut, saw.clone())));
            }
        });
    }
}
