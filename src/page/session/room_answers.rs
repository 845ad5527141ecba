//! What was answered beside the page on room, and what is asked of it.

use super::Session;
use super::follow::Shared;
use super::place::Place;
use leptos::prelude::*;
use staywright::ask::{Question, RoomLine, Starting, Ways};
use staywright::drawing::GapLine;
use staywright::model::{Find, Hand, PairName};
use staywright::units::Length;

/// The answers, as they were last given.
#[derive(Clone, Copy)]
pub struct RoomAnswers {
    /// The room from each stay to its neighbours.
    pub cleared: RwSignal<Option<Shared<Vec<RoomLine>>>>,
    /// What these stays have room for, and what would give the room.
    pub ways: RwSignal<Option<Shared<Ways>>>,
    /// The side whose stay is looked at closely: sides that mirror each other still have other neighbours.
    pub side: RwSignal<Hand>,
    /// Whether somebody looks at the ways.
    pub ways_open: RwSignal<bool>,
    /// Starting tubes and the sources of starting figures.
    pub starting: RwSignal<Option<Shared<Starting>>>,
    /// Whether a place for a tube is searched for just now.
    pub searching: RwSignal<bool>,
}

impl RoomAnswers {
    /// Nothing is answered yet.
    pub(super) fn new() -> Self {
        Self {
            cleared: RwSignal::new(None),
            ways: RwSignal::new(None),
            side: RwSignal::new(Hand::Right),
            ways_open: RwSignal::new(false),
            starting: RwSignal::new(None),
            searching: RwSignal::new(false),
        }
    }
}

impl Session {
    /// What clears what, as long as somebody looks at it.
    pub fn to_clear(self) -> Option<Question> {
        let place = self.settings.place.get();
        matches!(place, Place::Frame | Place::Stays)
            .then(|| Question::Rooms { job: self.follow.link.get(), unit: self.settings.unit.get() })
    }

    /// Takes what clears what, where it is not what is known already.
    pub(super) fn take_rooms(self, rooms: Vec<RoomLine>) {
        if self.room.cleared.with_untracked(|known| known.as_ref().is_none_or(|known| **known != rooms)) {
            self.room.cleared.set(Some(Shared::new(rooms)));
        }
    }

    /// Whether the ways answer an earlier job, another stay or the other unit.
    pub fn ways_behind(self) -> bool {
        let stay = (self.settings.pick.get().pair, self.room.side.get());
        let (job, unit) = (self.follow.link.get(), self.settings.unit.get());
        self.room.ways.with(|ways| ways.as_ref().is_some_and(|ways| ways.asked != (job, stay, unit)))
    }

    /// Both directions, as long as somebody looks at them, for the last settled state.
    pub fn to_ways(self) -> Option<Question> {
        let open = self.room.ways_open.get() && self.settings.place.get() == Place::Stays;
        open.then(|| {
            self.history.track();
            self.placed.track();
            let stay = (self.settings.pick.get().pair, self.room.side.get());
            Question::Ways { job: self.follow.link.get_untracked(), stay, unit: self.settings.unit.get() }
        })
    }

    /// Starting tubes and sources, once.
    pub fn to_start(self) -> Option<Question> {
        let unit = self.settings.unit.get();
        matches!(self.settings.place.get(), Place::Frame | Place::Stays).then_some(Question::Starting(unit))
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
        self.room.cleared.with(|cleared| {
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
            self.job.with_untracked(|job| job.pair(pair).side(hand).tube.bends.find != Find::Nothing);
        let Some((trim, roll)) = found.filter(|_| left_to_solver) else { return false };
        self.edit(path, |job| {
            let tube = &mut job.pair_mut(pair).side_mut(hand).tube;
            (tube.front_trim, tube.bends.roll, tube.bends.find) = (trim, Some(roll), Find::Nothing);
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
