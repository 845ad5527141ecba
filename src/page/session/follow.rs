//! Everything that follows from the job, each a memo that is only worked out where it is shown.

use super::records::mark;
use super::steps::{Step, steps};
use leptos::prelude::*;
use staywright::plan::Plan;
use staywright::trade::{Fault, Group, Job, Spec};
use std::sync::Arc;

/// One figure of the job: what is known of it, and its number.
pub type Figure = (&'static Spec, f64);

/// A value that is compared by its place, since every new one differs from the last.
#[derive(Clone, Debug)]
pub struct Shared<T>(Arc<T>);

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
    /// The last job without a fault.
    pub good: Memo<Shared<Job>>,
    /// Its plan.
    pub plan: Memo<Shared<Plan>>,
    /// The steps of the set-up.
    pub steps: Memo<Vec<Step>>,
    /// The mark that ticks and measured figures are kept under. Name and notes do not count.
    pub mark: Memo<String>,
}

impl Follow {
    pub(super) fn new(job: RwSignal<Job>) -> Self {
        let figures = Memo::new(move |_| Shared(Arc::new(job.with(all_figures))));
        let faults = Memo::new(move |_| job.with(staywright::plan::faults));
        let good = Memo::new(move |last: Option<&Shared<Job>>| match last {
            _ if faults.with(Vec::is_empty) => Shared(Arc::new(job.get())),
            Some(last) => last.clone(),
            // A link may hold a job with faults; there is no good one before it.
            None => Shared(Arc::new(Job::default())),
        });
        let plan = Memo::new(move |_| Shared(Arc::new(staywright::plan::solve(&*good.get()))));
        let steps = Memo::new(move |_| plan.with(|plan| steps(plan)));
        let mark = Memo::new(move |_| {
            let nameless = Job { name: String::new(), notes: String::new(), ..(*good.get()).clone() };
            mark(&staywright::link::encode(&nameless))
        });
        Self { figures, faults, good, plan, steps, mark }
    }

    /// The figure at `path`.
    pub fn figure(self, path: &str) -> Option<Figure> {
        self.figures.with(|figures| figures.iter().find(|(at, _)| at == path).map(|(_, figure)| *figure))
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

fn all_figures(job: &Job) -> Vec<(String, Figure)> {
    let mut figures = Vec::new();
    job.each("", &mut |path, spec, value| figures.push((path.to_owned(), (spec, value))));
    figures
}
