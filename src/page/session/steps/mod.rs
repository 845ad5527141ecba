//! The order of work at the machine, as a list of single steps.
//!
//! Each pair is laid in the fixture once, or one side at a time where the sides do not share a clamp frame; then its
//! front ends are cut, then its rear ends. Ends that are set alike are cut in one pass.

mod cut;
mod fixture;
mod slot;

use super::reading::{Named, Reading};
use super::words::capital;
use staywright::plan::{Pair, Plan, Stay};
use staywright::trade::{Hand, PairName};

/// One thing to do.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// Stays the same while the job does, so that a tick finds its step again.
    pub id: String,
    /// The part of the work that it belongs to.
    pub part: String,
    /// What to do.
    pub task: String,
    /// The figure to set.
    pub reading: Option<Reading>,
    /// What it is set on, and which way round.
    pub set_on: String,
    /// Figures beside it.
    pub also: Vec<Named>,
    /// What can hurt here.
    pub caution: Option<&'static str>,
}

/// What is worked on together: one pair or one of its sides.
#[derive(Clone, Copy)]
struct Work<'a> {
    plan: &'a Plan,
    name: PairName,
    hands: &'a [Hand],
}

impl<'a> Work<'a> {
    fn pair(self) -> &'a Pair {
        self.plan.pair(self.name)
    }

    fn stays(self) -> impl Iterator<Item = &'a Stay> {
        let pair = self.pair();
        self.hands.iter().map(move |hand| pair.stay(*hand))
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
pub fn steps(plan: &Plan) -> Vec<Step> {
    PairName::ALL.into_iter().flat_map(|name| pair_steps(plan, name)).collect()
}

/// The steps of one pair.
pub fn pair_steps(plan: &Plan, name: PairName) -> Vec<Step> {
    let whole = Work { plan, name, hands: &Hand::ALL };
    let mut steps: Vec<Step> = if whole.pair().one_plane {
        work_steps(whole)
    } else {
        Hand::ALL
            .iter()
            .flat_map(|hand| work_steps(Work { hands: std::slice::from_ref(hand), ..whole }))
            .collect()
    };
    say_once(&mut steps);
    steps
}

/// A caution is read where it comes first; said at every step it would be passed over.
fn say_once(steps: &mut [Step]) {
    let mut said = Vec::new();
    for step in steps {
        match step.caution {
            Some(caution) if said.contains(&caution) => step.caution = None,
            Some(caution) => said.push(caution),
            None => {}
        }
    }
}

fn work_steps(work: Work<'_>) -> Vec<Step> {
    let mut steps = fixture::steps(work);
    for at_front in [true, false] {
        steps.extend(cut::steps(work, at_front));
    }
    steps
}
