//! What was answered beside the page on room, and what is asked of it.

use super::Session;
use super::answered::Answered;
use super::follow::Follow;
use super::place::Place;
use super::settings::Settings;
use leptos::prelude::*;
use staywright::ask::{ContentId, Question, RoomLine, Starting, Ways};
use staywright::drawing::GapLine;
use staywright::model::{Hand, PairName, SolveFor};
use staywright::units::Length;

/// The answers.
#[derive(Clone, Copy)]
pub struct RoomAnswers {
    /// The room from each stay to its neighbours.
    pub cleared: Answered<ContentId, Vec<RoomLine>>,
    /// What these stays have room for, and what would give the room.
    pub ways: Answered<ContentId, Ways>,
    /// The side whose stay is looked at closely: sides that mirror each other still have other neighbours.
    pub side: RwSignal<Hand>,
    /// Whether somebody looks at the ways.
    pub ways_open: RwSignal<bool>,
    /// Starting tubes and the sources of starting figures.
    pub starting: Answered<ContentId, Starting>,
    /// Whether a place for a tube is searched for just now.
    pub searching: RwSignal<bool>,
}

impl RoomAnswers {
    /// Nothing is answered yet.
    pub(super) fn new(follow: Follow, settings: Settings) -> Self {
        let side = RwSignal::new(Hand::Right);
        let starting = move || Some(Question::Starting(settings.unit.get()).id());
        Self {
            cleared: Answered::new(move || Some(rooms_question(follow, settings)?.id())),
            ways: Answered::new(move || Some(ways_question(follow, settings, side.get())?.id())),
            side,
            ways_open: RwSignal::new(false),
            starting: Answered::new(starting),
            searching: RwSignal::new(false),
        }
    }
}

fn rooms_question(follow: Follow, settings: Settings) -> Option<Question> {
    Some(Question::Rooms { job: follow.link.get()?, unit: settings.unit.get() })
}

fn ways_question(follow: Follow, settings: Settings, side: Hand) -> Option<Question> {
    let stay = (settings.pick.get().pair, side);
    Some(Question::Ways { job: follow.link.get()?, stay, unit: settings.unit.get() })
}

impl Session {
    /// What clears what, as long as somebody looks at it.
    pub fn to_clear(self) -> Option<Question> {
        let looked_at = self.settings.place.get() == Place::Design;
        if looked_at { rooms_question(self.follow, self.settings) } else { None }
    }

    /// Both directions, as long as somebody looks at them, for the last settled state.
    pub fn to_ways(self) -> Option<Question> {
        let open = self.room.ways_open.get() && self.settings.place.get() == Place::Design;
        if !open {
            return None;
        }
        self.history.track();
        self.placed.track();
        self.settings.pick.track();
        self.room.side.track();
        self.settings.unit.track();
        untrack(|| ways_question(self.follow, self.settings, self.room.side.get()))
    }

    /// Starting tubes and sources, once.
    pub fn to_start(self) -> Option<Question> {
        let unit = self.settings.unit.get();
        (self.settings.place.get() == Place::Design).then_some(Question::Starting(unit))
    }

    /// The rooms of a pair as lines of a drawing, the tightest first; of both pairs where none is named. None for a job that has
    /// nothing beside its stays, which is drawn as ever.
    pub fn gap_lines(self, pair: Option<PairName>) -> Vec<GapLine> {
        if self.follow.plan.with(|plan| plan.job.surroundings.is_none()) {
            return Vec::new();
        }
        let line = |line: &RoomLine| {
            let [gap, limit] = line.mm.map(Length::from_mm);
            let (from, to) = (line.from.into(), line.there.into());
            GapLine { name: line.to.to_ascii_lowercase(), topic: line.topic.clone(), from, to, gap, limit }
        };
        self.room.cleared.now().with(|cleared| {
            let lines = cleared.iter().flat_map(|lines| lines.iter());
            lines.filter(|line| pair.is_none_or(|pair| pair == line.pair)).map(line).collect()
        })
    }

    /// The side that is entered: the right one where the left mirrors it.
    pub fn hand(self) -> Hand {
        let pick = self.settings.pick.get();
        let own_left = self.job.with(|job| job.pair(pick.pair).left.is_some());
        if own_left { pick.hand } else { Hand::Right }
    }

    /// Takes a tube that was left to the solver over as the user's own, where it was found; whether there was anything to take.
    pub fn take_place(self, path: &str) -> bool {
        let Some((pair, hand)) = self.stay_of(path) else { return false };
        let found = self.follow.plan.with_untracked(|plan| {
            plan.pair(pair).stay(hand).bent.as_ref().map(|bent| (bent.trim, bent.roll))
        });
        let left_to_solver =
            self.job.with_untracked(|job| job.pair(pair).side(hand).tube.bends.find != SolveFor::Nothing);
        let Some((trim, roll)) = found.filter(|_| left_to_solver) else { return false };
        self.edit(path, |job| {
            let tube = &mut job.pair_mut(pair).side_mut(hand).tube;
            (tube.front_trim, tube.bends.roll, tube.bends.find) = (trim, Some(roll), SolveFor::Nothing);
        });
        self.say("Front trim and roll are yours from here on: they are no longer searched for.");
        true
    }

    /// The stay that a path is of.
    fn stay_of(self, path: &str) -> Option<(PairName, Hand)> {
        let pair = PairName::ALL.into_iter().find(|pair| path.starts_with(pair.key()))?;
        let hand = Hand::ALL.into_iter().find(|hand| path.split('.').nth(1) == Some(hand.key()))?;
        Some((pair, hand))
    }
}
