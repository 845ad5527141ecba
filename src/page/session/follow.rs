//! Everything that follows from the job, each a memo that is only worked out where it is shown.

use super::records::mark;
use leptos::prelude::*;
use staywright::model::{Fault, Job, Spec};
use staywright::plan::{Placements, Plan, as_placed, plan_placed};
use std::sync::Arc;

/// One figure of the job: what is known of it, and its number.
pub type Figure = (&'static Spec, f64);

/// A value that is compared by its place, since every new one differs from the last.
#[derive(Clone, Debug)]
pub struct Shared<T>(Arc<T>);

impl<T> Shared<T> {
    /// Shares `value`.
    pub fn new(value: T) -> Self {
        Self(Arc::new(value))
    }
}

impl<T> PartialEq for Shared<T> {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.0, &other.0)
    }
}

impl<T> std::ops::Deref for Shared<T> {
    type Target = T;
    fn deref(&self) -> &T {
        &self.0
    }
}

/// The memos.
#[derive(Clone, Copy)]
pub struct Follow {
    /// Every figure with its path, in the order of the job file.
    pub figures: Memo<Shared<Vec<(String, Figure)>>>,
    /// What is wrong with the job.
    pub faults: Memo<Vec<Fault>>,
    /// The plan of the last job without a fault; it holds that job too.
    pub plan: Memo<Shared<Plan>>,
    /// That job as it is laid, as a link text: whoever is asked about it need not search.
    pub link: Memo<String>,
    /// The mark that ticks and measured figures are kept under. Name and notes do not count.
    pub mark: Memo<String>,
}

impl Follow {
    pub(super) fn new(job: RwSignal<Job>, placed: RwSignal<Placements>) -> Self {
        let figures = Memo::new(move |_| {
            let figures = job.with(Job::figures).into_iter();
            Shared::new(figures.map(|(path, spec, value)| (path, (spec, value))).collect::<Vec<_>>())
        });
        let answer = Memo::new(move |_| job.with(|job| plan_placed(job, &placed.get())).map(Shared::new));
        let faults = Memo::new(move |_| answer.with(|answer| answer.clone().err().unwrap_or_default()));
        let plan = Memo::new(move |last: Option<&Shared<Plan>>| {
            // A link may hold a job with faults; there is no good one before it.
            let earlier = || last.cloned().unwrap_or_else(|| Shared::new(Plan::default()));
            answer.get().unwrap_or_else(|_| earlier())
        });
        let link = Memo::new(move |_| plan.with(|plan| staywright::link::encode(&as_placed(plan))));
        let mark = Memo::new(move |_| {
            let good = plan.with(|plan| plan.job.clone());
            mark(&staywright::link::encode(&Job { name: String::new(), notes: String::new(), ..good }))
        });
        Self { figures, faults, plan, link, mark }
    }

    /// The last job without a fault.
    pub fn good_job(self) -> Job {
        self.plan.with_untracked(|plan| plan.job.clone())
    }

    /// The figure at `path`.
    pub fn figure(self, path: &str) -> Option<Figure> {
        self.figures.with(|figures| figures.iter().find(|(at, _)| at == path).map(|(_, figure)| *figure))
    }

    /// What is wrong with the figure or text at `path`.
    pub fn fault_at(self, path: &str) -> Option<String> {
        self.faults
            .with(|faults| faults.iter().find(|fault| fault.field == path).map(|fault| fault.message.clone()))
    }

    /// The paths of the figures that stand directly under `group`, in order: `frame` has `frame.bb_drop_mm`.
    pub fn paths(self, group: &str) -> Vec<String> {
        let below = |path: &str| {
            path.strip_prefix(group)
                .and_then(|rest| rest.strip_prefix('.'))
                .is_some_and(|key| !key.contains('.'))
        };
        self.figures.with(|figures| {
            figures.iter().filter(|(path, _)| below(path)).map(|(path, _)| path.clone()).collect()
        })
    }
}
