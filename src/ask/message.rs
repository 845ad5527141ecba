//! One request, one response: a question with its answer, and what the answer was made for.
//!
//! An answer is shown only beside what it was made for. So a response names the plan of its question and the whole content of
//! the request, both by a digest that the answering side makes of what it received: nothing that was asked before can pass
//! for an answer to what is asked now.

use super::{Answer, Question, answered};
use crate::link;
use crate::placement::plan;
use crate::plan::Plan;
use serde::{Deserialize, Serialize};
use std::rc::Rc;

/// A digest of all that a question asks, job, shop, picks and unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct ContentId(u64);

/// A digest of a job as it is laid: of its link text. Equal jobs have equal plans.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PlanId(u64);

impl PlanId {
    /// Of the job in a link text.
    pub fn of(job: &str) -> Self {
        Self(link::digest(job.as_bytes()))
    }
}

/// An answer and what it was made for.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Response {
    /// The request that it answers.
    pub request: ContentId,
    /// The plan that it is about; `None` for a question that is about no job.
    pub plan: Option<PlanId>,
    /// The answer.
    pub answer: Answer,
}

impl Question {
    /// As bytes; empty for one that cannot be written.
    pub fn to_bytes(&self) -> Vec<u8> {
        postcard::to_allocvec(self).unwrap_or_default()
    }

    /// What names it in its response.
    pub fn id(&self) -> ContentId {
        ContentId(link::digest(&self.to_bytes()))
    }

    /// The job that it is about, as a link text.
    pub fn job(&self) -> Option<&str> {
        match self {
            Self::Check(asked) => Some(&asked.job),
            Self::Steps(asked) | Self::Findings(asked) => Some(&asked.job),
            Self::Cut(asked) | Self::WayIn(asked, _) => Some(&asked.job),
            Self::InShop { job, .. }
            | Self::Draw { job, .. }
            | Self::Explain { job, .. }
            | Self::Rooms { job, .. }
            | Self::Ways { job, .. }
            | Self::Place(job)
            | Self::Save(job) => Some(job),
            Self::Worked | Self::Form(_) | Self::SaveShop(_) | Self::Starting(_) | Self::Open(_) => None,
        }
    }
}

impl Response {
    /// The response in `bytes`; `None` for other bytes.
    pub fn from_bytes(bytes: &[u8]) -> Option<Self> {
        postcard::from_bytes(bytes).ok()
    }
}

/// As many plans as are kept: the one in view, and those that undo and a look at another job go back to.
const KEPT: usize = 4;

/// Answers requests, and keeps the plans of the last jobs, so that each is planned once however much is asked about it.
#[derive(Default)]
pub struct Responder {
    /// Jobs as link texts with their plans, the one asked about last at the end.
    plans: Vec<(String, Rc<Plan>)>,
    planned: u32,
}

impl Responder {
    /// The bytes of a question in, those of its [`Response`] out.
    pub fn respond(&mut self, question: &[u8]) -> Vec<u8> {
        let read: Option<Question> = postcard::from_bytes(question).ok();
        let job = read.as_ref().and_then(Question::job);
        let response = Response {
            request: ContentId(link::digest(question)),
            plan: job.map(PlanId::of),
            answer: read.as_ref().map_or(Answer::None, |question| answered(question, self)),
        };
        postcard::to_allocvec(&response).unwrap_or_default()
    }

    /// How many plans were worked out so far.
    pub const fn planned(&self) -> u32 {
        self.planned
    }

    /// The plan of a link text's job, where it is without faults.
    pub(super) fn plan(&mut self, job: &str) -> Option<Rc<Plan>> {
        let known = self.plans.iter().position(|(known, _)| known == job);
        let (job, plan) = match known {
            Some(at) => self.plans.remove(at),
            None => {
                self.planned += 1;
                (job.to_owned(), Rc::new(plan(&link::decode(job).ok()?).ok()?))
            }
        };
        self.plans.push((job, plan.clone()));
        let surplus = self.plans.len().saturating_sub(KEPT);
        self.plans.drain(..surplus);
        Some(plan)
    }
}
