//! A finding: what is wrong or to be looked at, where, and how grave that is.

use super::clearance::ClearanceFound;
use crate::clearance::Obstacle;
use crate::machining::{Advice, Verdict};
use crate::model::{Fault, Level, Location};
use crate::units::Length;
use crate::{plan, procedure};
use serde::{Deserialize, Serialize};

/// What was found, with its figures.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum What {
    /// The plan found it.
    Plan(plan::Problem),
    /// A clearance below its limit, or hardly above it.
    Clearance(ClearanceFound),
    /// The order of work found it.
    Procedure(procedure::Problem),
    /// The saw that the builder picked will not do.
    SawUnfit {
        /// Its diameter.
        saw: Length,
        /// Why.
        verdict: Verdict,
    },
    /// What to mind with the saw and the metal.
    Advice(Advice),
    /// Limits that clearances are held against rest on a shop habit alone.
    LimitsUnsourced(Vec<Obstacle>),
    /// The job has a fault: the plan does not follow it. It is known where the job is entered and goes nowhere else. Last, since a
    /// variant that is not written has no number of its own in postcard.
    #[serde(skip)]
    Fault(Fault),
}

/// Something that is wrong or to be looked at.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Finding {
    /// How grave it is.
    pub level: Level,
    /// What it is about.
    pub location: Location,
    /// The steps of the order of work at which it matters; none where it is not a matter of one.
    pub steps: Vec<procedure::StepKey>,
    /// What was found.
    pub what: What,
}

impl What {
    /// How grave it is.
    pub fn level(&self) -> Level {
        match self {
            Self::Fault(_) => Level::Stop,
            Self::Plan(problem) => problem.level(),
            Self::Clearance(found) => found.level(),
            Self::Procedure(problem) => problem.level(),
            Self::SawUnfit { verdict, .. } => unfit(*verdict),
            Self::Advice(_) | Self::LimitsUnsourced(_) => Level::Note,
        }
    }

    /// Whether it is the same finding of another place: the same figures, but for rounding.
    pub(super) fn is_same(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Clearance(one), Self::Clearance(other)) => one.is_same(other),
            _ => self == other,
        }
    }
}

/// How grave it is that a saw is used in spite of what it is worth.
const fn unfit(verdict: Verdict) -> Level {
    match verdict {
        Verdict::Fits => Level::Note,
        Verdict::TooLarge(_) | Verdict::NotAllRound => Level::Check,
        Verdict::CannotSeat(_) | Verdict::TooShort(_) => Level::Stop,
    }
}

impl Finding {
    /// A finding that is no matter of one step.
    pub fn new(location: Location, what: What) -> Self {
        Self { level: what.level(), location, steps: Vec::new(), what }
    }

    /// Whether the work may not go on unseen: a stop or a check.
    pub fn is_warning(&self) -> bool {
        self.level > Level::Note
    }

    /// Whether it matters at a step: it was found there, or it is a warning of what the step works on and belongs to no step.
    pub fn matters_at(&self, step: procedure::StepKey) -> bool {
        if self.steps.is_empty() {
            return self.is_warning() && self.location.meets(step.setting.location());
        }
        self.steps.contains(&step)
    }
}
