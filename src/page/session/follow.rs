//! Everything that follows from the job, each a memo that is only worked out where it is shown.

use super::records::mark;
use leptos::prelude::*;
use staywright::ask::PlanId;
use staywright::model::{Fault, Job, Spec};
use staywright::plan::{Placements, Plan, as_placed, plan_placed};
use std::sync::Arc;

/// One figure of the job: what is known of it, and its number.
pub type Figure = (&'static Spec, f64);

/// A value that is compared by its place, since every new one differs from the last.
#[derive(Debug)]
pub struct Shared<T>(Arc<T>);

impl<T> Clone for Shared<T> {
    fn clone(&self) -> Self {
        Self(self.0.clone())
    }
}

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
    /// What the search for the places of tubes is asked: that job as a link text; `None` where every tube lies as entered.
    pub search: Memo<Option<String>>,
    /// That job as it is laid, as a link text, so that whoever is asked about it need not search; `None` while a search for
    /// it is under way: what is known of it then is no answer for this job. Name and notes do not count.
    pub link: Memo<Option<String>>,
    /// The mark that ticks and measured figures are kept under. Name and notes do not count.
    pub mark: Memo<String>,
}

/// What a search found, and the job that it was made for.
pub type Searched = (Option<PlanId>, Placements);

/// The job's figures alone, as a link text.
fn nameless(job: Job) -> String {
    staywright::link::encode(&Job { name: String::new(), notes: String::new(), ..job })
}

impl Follow {
    pub(super) fn new(job: RwSignal<Job>, placed: RwSignal<Searched>) -> Self {
        let figures = Memo::new(move |_| {
            let figures = job.with(Job::figures).into_iter();
            Shared::new(figures.map(|(path, spec, value)| (path, (spec, value))).collect::<Vec<_>>())
        });
        let answer = Memo::new(move |_| job.with(|job| plan_placed(job, &placed.get().1)).map(Shared::new));
        let faults = Memo::new(move |_| answer.with(|answer| answer.clone().err().unwrap_or_default()));
        let plan = Memo::new(move |last: Option<&Shared<Plan>>| {
            // A link may hold a job with faults; there is no good one before it.
            let earlier = || last.cloned().unwrap_or_else(|| Shared::new(Plan::default()));
            answer.get().unwrap_or_else(|_| earlier())
        });
        let search = Memo::new(move |_| {
            plan.with(|plan| Placements::is_wanted(&plan.job).then(|| nameless(plan.job.clone())))
        });
        let link = Memo::new(move |_| {
            let searched = search.get().is_none_or(|search| placed.get().0 == Some(PlanId::of(&search)));
            searched.then(|| plan.with(|plan| nameless(as_placed(plan))))
        });
        let mark = Memo::new(move |_| plan.with(|plan| mark(&nameless(plan.job.clone()))));
        Self { figures, faults, plan, search, link, mark }
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
    pub fn fault_at(self, path: &str) -> Option<Fault> {
        self.faults.with(|faults| faults.iter().find(|fault| fault.field == path).cloned())
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
