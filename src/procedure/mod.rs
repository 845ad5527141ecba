//! The order of work at the machine, as a list of single steps.
//!
//! Each pair is laid in the fixture once, or one side at a time where the sides do not share a clamp frame; then its
//! front ends are cut, then its rear ends, without unclamping. Front ends come first: they hang from the front datum
//! line, where the tubes are marked. Ends whose settings no scale can tell apart are cut in one pass.
//!
//! Within one clamping nothing is asked twice: a readout that was set to zero stays so until the fixture is moved, and a figure that
//! stands is not set again. The edge finder is used before a saw is mounted.
//!
//! Every figure to be set is given as the shop's own scale shows it, with its sign and to its smallest division. Whoever
//! sets the machine by these readings alone has every cutter's axis where the plan wants it.

mod alike;
mod beside;
mod caution;
mod clamping;
mod effect;
mod key;
mod machine;
mod machine_state;
mod pass;
mod pose;
mod problem;
mod reading;
mod room;
mod round;
mod slot;
mod spindle;
mod step;
mod summary;
mod task;
mod tools;
mod way_in;

pub use beside::{Beside, Quantity};
pub use caution::Caution;
pub use effect::Effect;
pub use key::{Phase, SettingKey, StepKey, StepKind};
pub use pass::together;
pub use pose::poses;
pub use problem::{Nearest, Problem, Ranged, Turned, problems};
pub use reading::{Named, Reading};
pub use step::{Rounding, Scale, SetPoint, Step};
pub use summary::{Posture, Saw, SettingSummary, settings};
pub use task::{AxleSide, CutPart, Face, HeightFrom, Motion, Task, Turn};
pub use tools::{Tools, choose};

use crate::model::shop::Shop;
use crate::model::{Hand, PairName, Stays};
use crate::plan::{CutAt, Pair, Plan, Stay};
use alike::Fineness;
use machine::Machine;
use machine_state::MachineState;

/// What is worked on together: one pair or one of its sides.
#[derive(Clone, Copy)]
struct Work<'a> {
    plan: &'a Plan,
    shop: &'a Shop,
    tools: &'a Tools,
    name: PairName,
    hands: &'a [Hand],
}

impl<'a> Work<'a> {
    fn pair(self) -> &'a Pair {
        self.plan.pair(self.name)
    }

    const fn machine(self) -> Machine<'a> {
        Machine { mill: &self.shop.mill }
    }

    fn stays(self) -> impl Iterator<Item = &'a Stay> {
        let pair = self.pair();
        self.hands.iter().map(move |hand| pair.stay(*hand))
    }

    fn cuts(self, at_front: bool) -> impl Iterator<Item = CutAt> + 'a {
        let pair = self.name;
        self.hands.iter().map(move |hand| CutAt { pair, hand: *hand, at_front })
    }

    const fn fineness(self) -> Fineness<'a> {
        Fineness { shop: self.shop }
    }

    fn key(self, phase: Phase, kind: StepKind) -> StepKey {
        let stays = match self.hands {
            [one] => Stays::One(*one),
            _ => Stays::Both,
        };
        StepKey { setting: SettingKey { pair: self.name, stays, phase }, kind }
    }
}

/// Every step of the job, in order: all tubes are marked, each pair is cut, everything is deburred.
pub fn steps(plan: &Plan, shop: &Shop, tools: &Tools) -> Vec<Step> {
    let mut steps = vec![of_all(PairName::Chainstays, Phase::Before, StepKind::MarkHands, Task::MarkHands)];
    for name in PairName::ALL {
        let mut own = cutting(plan, shop, tools, name);
        own.retain(|step| !stands_already(&steps, step));
        steps.extend(own);
    }
    let mut steps = clamping::axle_at_once(steps);
    steps.push(of_all(PairName::Seatstays, Phase::After, StepKind::Deburr, Task::Deburr));
    let mut steps = spindle::cleared(steps);
    for name in PairName::ALL {
        say_once(steps.iter_mut().filter(|step| step.key.setting.pair == name));
    }
    steps
}

/// The steps of one pair.
pub fn pair_steps(plan: &Plan, shop: &Shop, tools: &Tools, name: PairName) -> Vec<Step> {
    let mut steps = steps(plan, shop, tools);
    steps.retain(|step| step.key.setting.pair == name);
    steps
}

/// What is done to all stays at once.
const fn of_all(pair: PairName, phase: Phase, kind: StepKind, task: Task) -> Step {
    Step::new(StepKey { setting: SettingKey { pair, stays: Stays::Both, phase }, kind }, task)
}

/// The dummy axle's height holds from one clamping to the next.
fn stands_already(before: &[Step], step: &Step) -> bool {
    let last = before.iter().rfind(|known| known.key.kind == StepKind::AxleHeight);
    step.key.kind == StepKind::AxleHeight
        && last.is_some_and(|last| last.task == step.task && alike::same(&last.figures(), &step.figures()))
}

fn cutting(plan: &Plan, shop: &Shop, tools: &Tools, name: PairName) -> Vec<Step> {
    let whole = Work { plan, shop, tools, name, hands: &Hand::ALL };
    if whole.pair().one_plane {
        return work_steps(whole);
    }
    let one = |hand: &'static Hand| work_steps(Work { hands: std::slice::from_ref(hand), ..whole });
    HANDS.iter().flat_map(one).collect()
}

static HANDS: [Hand; 2] = Hand::ALL;

/// A caution is read where it first matters to a pair; said at every step it would be passed over.
fn say_once<'s>(steps: impl Iterator<Item = &'s mut Step>) {
    let mut said: Vec<Caution> = Vec::new();
    for step in steps {
        step.cautions.retain(|caution| !said.contains(caution));
        said.extend(&step.cautions);
    }
}

/// One clamping: the stays are laid in the fixture and both ends cut.
fn work_steps(work: Work<'_>) -> Vec<Step> {
    let mut steps = clamping::steps(work);
    let mut bench = MachineState::default();
    for at_front in [true, false] {
        steps.extend(pass::steps(work, at_front, &mut bench));
    }
    steps
}
