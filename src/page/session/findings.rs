//! Everything that is wrong with the job in view, or to be looked at: one list for every surface of the page.

use super::Session;
use super::answered::Answered;
use super::follow::{Follow, Shared};
use super::place::Place;
use super::question::order_asked;
use super::selection::DesignPart;
use super::settings::Settings;
use leptos::prelude::*;
use staywright::ask::{ContentId, Question};
use staywright::findings::{Finding, Level, Location, What, gather, of_faults, of_plan};
use staywright::plan::CutAt;
use staywright::text;

/// The list of the job in view.
#[derive(Clone, Copy)]
pub struct Findings {
    /// What the worker found, clearances, steps and saws included.
    pub answered: Answered<ContentId, Vec<Finding>>,
    /// That list, or what the plan alone found while it is worked out.
    pub list: Memo<Vec<Finding>>,
}

impl Findings {
    pub(super) fn new(follow: Follow, settings: Settings) -> Self {
        let answered = Answered::new(move || Some(question(follow, settings)?.id()));
        let list = Memo::new(move |_| {
            let faults = follow.faults.get();
            let known = answered.now().get().map(|list: Shared<Vec<Finding>>| (*list).clone());
            let rest = known.unwrap_or_else(|| follow.plan.with(|plan| gather(of_plan(plan))));
            of_faults(&faults).chain(rest).collect()
        });
        Self { answered, list }
    }
}

fn question(follow: Follow, settings: Settings) -> Option<Question> {
    Some(Question::Findings(order_asked(follow, settings)?))
}

impl Session {
    /// The list of findings.
    pub fn to_findings(self) -> Option<Question> {
        question(self.follow, self.settings)
    }

    /// The findings of that level, in words.
    pub fn finding_words(self, levels: &[Level]) -> Vec<String> {
        let style = self.settings.style();
        let is_wanted = |finding: &&Finding| levels.contains(&finding.level);
        self.findings
            .list
            .with(|list| list.iter().filter(is_wanted).map(|one| text::finding(one, style)).collect())
    }

    /// What is to be known of a cut, its stay or its pair, in words.
    pub fn findings_of_cut(self, pick: CutAt) -> Vec<String> {
        let style = self.settings.style();
        let covers = |one: &&Finding| {
            one.location != Location::Whole && one.location.covers(pick.pair, pick.hand, pick.at_front)
        };
        self.findings
            .list
            .with(|list| list.iter().filter(covers).map(|one| text::finding(one, style)).collect())
    }

    /// Goes to where a finding belongs: the field of a fault, the stay, or the place of the page.
    pub fn show_finding(self, finding: &Finding) {
        if let What::Fault(fault) = &finding.what {
            return self.open_figure(&fault.field);
        }
        let place = match finding.what {
            What::Plan(_) | What::Clearance(_) | What::Fault(_) | What::LimitsUnsourced(_) => Place::Design,
            What::Procedure(_) | What::SawUnfit { .. } | What::Advice(_) => Place::Cut,
        };
        if let Some(pair) = finding.location.pair() {
            self.select(DesignPart::of_pair(pair));
        }
        self.settings.place.set(place);
    }
}
