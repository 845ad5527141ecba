//! Ways to more clearance: changes of one figure of a job that can be built, with all else that they change.

use super::clearances::{StayClearances, clearances_of};
use super::figure_for_room::figure_for_room;
use super::obstacle::Obstacle;
use crate::model::{End, Hand, Job, Level, PairName};
use crate::plan::{CutAt, Placements, Plan, Stay, as_placed, held_face, hub_face, plan_placed};
use crate::units::{Angle, Length};

/// How far from what is entered a spacing is looked for, mm, and a bend, degrees.
const REACH: (f64, f64) = (40.0, 20.0);

/// A length that changes by less is not told, mm; an angle, degrees.
const TOLD: (f64, f64) = (0.01, 0.01);

/// A clearance that shrinks by less has not shrunk, mm.
const SAME: f64 = 1e-6;

/// Further than this the dropouts' inner faces do not stand from the hub's, mm: a frame springs that far, no further.
const SPRUNG: f64 = 1.0;

/// A change of one figure.
#[derive(Clone, Debug, PartialEq)]
pub struct Way {
    /// The figure's path in the job.
    pub path: String,
    /// Its value, in the unit of its path, and what to set it to.
    pub from: f64,
    /// See `from`.
    pub to: f64,
    /// What else it changes, of both sides of a mirrored pair told once.
    pub effects: Vec<(Hand, Effect)>,
}

/// A figure of the plan before and after a change.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Effect {
    /// Length of the stay between its reference points.
    Length(Length, Length),
    /// Splay of the stay.
    Splay(Angle, Angle),
    /// Angle of a round cut from square, at the front or the rear end.
    Miter {
        /// Whether at the front end.
        at_front: bool,
        /// Before.
        from: Angle,
        /// After.
        to: Angle,
    },
    /// The slide of the fixture.
    Slide(Length, Length),
    /// The height of the dummy axle over the stay plane.
    AxleHeight(Length, Length),
    /// A clearance.
    Clearance(Obstacle, Length, Length),
}

/// The figures of a stay that give it just the clearance to `to` that is wanted, one at a time: its spacings and its bends. Only those
/// are told whose plan has no problem that the plan has not, leaves every other clearance of the pair its limit, and keeps the stay
/// on its shell and its dropout on its hub.
pub fn ways(plan: &Plan, (pair, hand): (PairName, Hand), to: Obstacle) -> Vec<Way> {
    let job = as_placed(plan);
    let entered = if job.pair(pair).left.is_some() { hand } else { Hand::Right };
    let before = Before { plan, job: &job, clearances: clearances_of(plan, pair), stay: (pair, hand), to };
    let way = |(path, reach): (String, f64)| {
        let from = job.figure(&path)?;
        let value = figure_for_room(plan, (pair, hand), to, &path, reach)?;
        let more = (value > from) == before.is_short();
        let value = hundredths(value, more);
        // Where a clearance is not known to a hundredth, a little more may be needed.
        let further = [0.0, 0.01, 0.03].map(|by| if more { value + by } else { value - by });
        let changed =
            further.into_iter().find_map(|value| before.changed(&path, hundredths(value + 1e-9, false)))?;
        before.way(path, from, changed)
    };
    figures(&job, pair, entered).into_iter().filter_map(way).collect()
}

/// A plan that is to be changed.
struct Before<'a> {
    plan: &'a Plan,
    /// Its job, every tube as it is placed.
    job: &'a Job,
    clearances: [StayClearances; 2],
    stay: (PairName, Hand),
    to: Obstacle,
}

impl Before<'_> {
    fn is_short(&self) -> bool {
        margin(&self.clearances, self.stay.1, self.to).is_some_and(|margin| margin < 0.0)
    }

    /// The plan with a figure changed that keeps the dropouts on the hub and gives what is wanted.
    fn changed(&self, path: &str, to: f64) -> Option<Changed> {
        let (pair, hand) = self.stay;
        let next = self.job.with_figure(path, to);
        let on_hub = Hand::ALL.iter().all(|hand| keeps_hub(self.job, &next, pair, *hand));
        if !on_hub || !to.is_finite() {
            return None;
        }
        let plan = plan_placed(&next, &Placements::default()).ok()?;
        let clearances = clearances_of(&plan, pair);
        let is_enough = margin(&clearances, hand, self.to)? >= -SAME;
        is_enough.then_some(Changed { to, plan, clearances })
    }

    /// That change, if it can be built.
    fn way(&self, path: String, from: f64, changed: Changed) -> Option<Way> {
        let Changed { to, plan, clearances } = changed;
        let can_be_built = !gains_problem(self.plan, &plan)
            && keeps_shell(self.plan, &plan, self.stay.0)
            && keeps_clearances(&self.clearances, &clearances);
        let effects = effects((self.plan, &self.clearances), (&plan, &clearances), self.stay.0);
        (can_be_built && to != from).then_some(Way { path, from, to, effects })
    }
}

/// A plan with a figure changed.
struct Changed {
    to: f64,
    plan: Plan,
    clearances: [StayClearances; 2],
}

/// The paths that are looked at, each with its reach.
fn figures(job: &Job, pair: PairName, hand: Hand) -> Vec<(String, f64)> {
    let side = format!("{}.{}", pair.key(), hand.key());
    let bends = job.pair(pair).side(hand).tube.bends.list.len();
    let spacings = ["front", "rear"].map(|end| (format!("{side}.{end}.half_spacing_mm"), REACH.0));
    let angles = (0..bends).map(|i| (format!("{side}.tube.bends[{i}].angle_deg"), REACH.1));
    spacings.into_iter().chain(angles).collect()
}

/// Rounded to hundredths, upwards or downwards.
fn hundredths(value: f64, up: bool) -> f64 {
    let count = value * 100.0;
    (if up { count.ceil() } else { count.floor() }) / 100.0
}

fn margin(rooms: &[StayClearances], hand: Hand, to: Obstacle) -> Option<f64> {
    let mut gaps = rooms.iter().filter(|room| room.hand == hand).flat_map(|room| &room.clearances);
    gaps.find(|gap| gap.to == to).map(|gap| gap.margin().mm())
}

/// Whether a plan has a stop or a check at a place where another has none of its kind, or none so grave.
fn gains_problem(before: &Plan, after: &Plan) -> bool {
    let mut graver = after.warnings.iter().filter(|new| new.level() > Level::Note);
    graver.any(|new| {
        let mut known = before.warnings.iter();
        !known
            .any(|old| old.code() == new.code() && old.location == new.location && old.level() >= new.level())
    })
}

/// Whether no clearance falls below its limit, nor further below it.
fn keeps_clearances(before: &[StayClearances], after: &[StayClearances]) -> bool {
    let mut all = after.iter().flat_map(|room| room.clearances.iter().map(move |gap| (room.hand, gap)));
    all.all(|(hand, gap)| {
        let (now, then) = (gap.margin().mm(), margin(before, hand, gap.to));
        now.is_finite() && now >= then.map_or(0.0, |then| then.min(0.0)) - SAME
    })
}

/// Whether a dropout comes to lie no further from the hub.
fn keeps_hub(before: &Job, after: &Job, pair: PairName, hand: Hand) -> bool {
    let [old, new] = [before, after].map(|job| off_hub(job, pair, hand));
    new <= old.max(SPRUNG) + SAME
}

/// Whether no stay of the pair comes to lie further beyond an end of what it is mitered to.
fn keeps_shell(before: &Plan, after: &Plan, pair: PairName) -> bool {
    let past = |plan: &Plan, hand| plan.pair(pair).stay(hand).front.round().and_then(|cut| cut.past_end);
    Hand::ALL.into_iter().all(|hand| {
        let old = past(before, hand).map_or(0.0, |past| past.mm().max(0.0));
        past(after, hand).is_none_or(|past| past.mm() <= old + SAME)
    })
}

/// How far a dropout's inner face lies from the hub's, mm. Where the dropout is no plate, by how much more than a tube's width
/// the stay's axis does: a round dropout is hardly longer than its stay is wide (common practice, no source).
fn off_hub(job: &Job, pair: PairName, hand: Hand) -> f64 {
    let (side, face) = (job.pair(pair).side(hand), hub_face(&job.frame, hand));
    if let Some(held) = held_face(job, pair, hand) {
        return (held - face).mm().abs();
    }
    let off = (side.rear.half_spacing - face).mm();
    match &side.rear_end {
        End::Slot(slot) => (off - 0.5 * slot.plate.mm()).abs(),
        _ => off.abs() - side.tube.od_rear.mm(),
    }
}

fn effects(
    (before, rooms_before): (&Plan, &[StayClearances]),
    (after, rooms_after): (&Plan, &[StayClearances]),
    pair: PairName,
) -> Vec<(Hand, Effect)> {
    let hands = if after.job.pair(pair).left.is_some() { &Hand::ALL[..] } else { &[Hand::Right] };
    let of = |hand: &Hand| {
        let [old, new] = [before, after].map(|plan| plan.pair(pair).stay(*hand));
        let clearances = clearances(rooms_before, rooms_after, *hand);
        of_stay(old, new)
            .into_iter()
            .chain(of_cuts((before, after), pair, *hand))
            .chain(clearances)
            .map(|effect| (*hand, effect))
            .collect::<Vec<_>>()
    };
    hands.iter().flat_map(of).filter(|(_, effect)| effect.is_told()).collect()
}

fn of_stay(old: &Stay, new: &Stay) -> [Effect; 4] {
    [
        Effect::Length(old.length, new.length),
        Effect::Splay(old.splay, new.splay),
        Effect::Slide(old.slide, new.slide),
        Effect::AxleHeight(old.axle_height, new.axle_height),
    ]
}

fn of_cuts((before, after): (&Plan, &Plan), pair: PairName, hand: Hand) -> Vec<Effect> {
    let miter = |at_front: bool| {
        let at = CutAt { pair, hand, at_front };
        let (from, to) = (at.cut(before).round()?.miter, at.cut(after).round()?.miter);
        Some(Effect::Miter { at_front, from, to })
    };
    [true, false].into_iter().filter_map(miter).collect()
}

fn clearances(before: &[StayClearances], after: &[StayClearances], hand: Hand) -> Vec<Effect> {
    let gaps = |rooms: &[StayClearances]| {
        let own = rooms.iter().filter(|room| room.hand == hand);
        own.flat_map(|room| room.clearances.iter().map(|gap| (gap.to, gap.distance))).collect::<Vec<_>>()
    };
    let old = gaps(before);
    let pairs = gaps(after).into_iter().filter_map(|(to, new)| {
        let (_, was) = old.iter().find(|(known, _)| *known == to)?;
        Some(Effect::Clearance(to, *was, new))
    });
    pairs.collect()
}

impl Effect {
    /// Whether the change is large enough to be told.
    fn is_told(&self) -> bool {
        match self {
            Self::Length(from, to)
            | Self::Slide(from, to)
            | Self::AxleHeight(from, to)
            | Self::Clearance(_, from, to) => (to.mm() - from.mm()).abs() >= TOLD.0,
            Self::Splay(from, to) | Self::Miter { from, to, .. } => {
                (to.degrees() - from.degrees()).abs() >= TOLD.1
            }
        }
    }
}
