//! The order of work at the machine, as a list of single steps.
//!
//! Each pair is laid in the fixture once, or one side at a time where the sides do not share a clamp frame; then its
//! front ends are cut, then its rear ends, without unclamping. Front ends come first: they hang from the front datum
//! line, where the tubes are marked. Ends that are set alike are cut in one pass.
//!
//! Every figure to be set is given as the shop's own scale shows it, with its sign and to its smallest division. Whoever
//! sets the machine by these readings alone has every cutter's axis where the plan wants it.

mod caution;
mod clamping;
mod effect;
mod machine;
mod pass;
mod reading;
mod round;
mod slot;
mod step;
mod tools;
mod way_in;

pub use caution::Caution;
pub use effect::Effect;
pub use pass::together;
pub use reading::{Named, Reading};
pub use step::{Rounding, Scale, Step};
pub use tools::{Tools, choose};

use crate::model::shop::Shop;
use crate::model::{Hand, PairName};
use crate::plan::{CutAt, Pair, Plan, Stay};
use machine::Machine;

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

    /// `chainstays` or `right chainstay`.
    fn title(self) -> String {
        match self.hands {
            [one] => format!("{} {}", one.key(), self.name.one()),
            _ => self.name.name().to_owned(),
        }
    }

    fn key(self) -> String {
        let hands = match self.hands {
            [one] => one.key(),
            _ => "both",
        };
        format!("{}.{hands}", self.name.key())
    }
}

/// Every step of the job, in order.
pub fn steps(plan: &Plan, shop: &Shop, tools: &Tools) -> Vec<Step> {
    PairName::ALL.into_iter().flat_map(|name| pair_steps(plan, shop, tools, name)).collect()
}

/// The steps of one pair.
pub fn pair_steps(plan: &Plan, shop: &Shop, tools: &Tools, name: PairName) -> Vec<Step> {
    let whole = Work { plan, shop, tools, name, hands: &Hand::ALL };
    let mut steps: Vec<Step> = if whole.pair().one_plane {
        work_steps(whole)
    } else {
        let one = |hand: &'static Hand| work_steps(Work { hands: std::slice::from_ref(hand), ..whole });
        HANDS.iter().flat_map(one).collect()
    };
    say_once(&mut steps);
    steps
}

static HANDS: [Hand; 2] = Hand::ALL;

/// A caution is read where it comes first; said at every step it would be passed over.
fn say_once(steps: &mut [Step]) {
    let mut said: Vec<Caution> = Vec::new();
    for step in steps {
        step.cautions.retain(|caution| !said.contains(caution));
        said.extend(&step.cautions);
    }
}

fn work_steps(work: Work<'_>) -> Vec<Step> {
    let mut steps = clamping::steps(work);
    for at_front in [true, false] {
        steps.extend(pass::steps(work, at_front));
    }
    steps
}
