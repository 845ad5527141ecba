//! The hole saws on hand, judged for one end, and those that the builder has picked.

use super::Here;
use crate::ask::shop::{entered, read};
use crate::machining::{Candidate, Verdict, candidates};
use crate::model::capital;
use crate::model::shop::{Shop, Speeds};
use crate::plan::{CutAt, Plan, RoundCut};
use crate::procedure::{Tools, choose};
use crate::text::{self, Style};
use crate::units::{Length, SpindleSpeed, show, trimmed};
use serde::{Deserialize, Serialize};

/// One saw on hand.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct SawLine {
    /// What it is picked by.
    pub key: String,
    /// What it is called.
    pub name: String,
    /// What it is worth here, with the reason.
    pub words: String,
    /// Whether it will do.
    pub fits: bool,
    /// Whether it is the one that everything is reckoned with.
    pub used: bool,
}

/// What a saw is picked by: its own figures and the size of the member, so that a pick is forgotten where either is
/// another.
fn key(shop: &Shop, cut: &RoundCut, candidate: &Candidate) -> String {
    let saw = shop.hole_saws.get(candidate.saw);
    let figures =
        saw.map_or([0.0; 3], |saw| [saw.size.nominal, saw.diameter(), saw.arbor.reach].map(Length::mm));
    let figures = figures.map(|figure| trimmed(figure, 3)).join(" ");
    format!("{figures} on {}", trimmed(cut.member.mm(), 3))
}

/// The saw that everything is reckoned with, and whether the builder has picked it.
pub(super) fn used(
    here: Here<'_>,
    cut: &RoundCut,
    ranked: &[Candidate],
    picked: &[(String, String)],
) -> Option<(Candidate, bool)> {
    let own = pick(here.plan, here.shop, here.at, cut, ranked, picked);
    let best = ranked.first().filter(|first| first.verdict == Verdict::Fits);
    own.map(|own| (own, true)).or_else(|| best.map(|best| (*best, false)))
}

fn pick(
    plan: &Plan,
    shop: &Shop,
    at: CutAt,
    cut: &RoundCut,
    ranked: &[Candidate],
    picked: &[(String, String)],
) -> Option<Candidate> {
    let lead = crate::procedure::together(plan, shop, at).first().copied().unwrap_or(at).key();
    let (_, wanted) = picked.iter().find(|(cut, _)| *cut == lead)?;
    ranked.iter().find(|candidate| key(shop, cut, candidate) == *wanted).copied()
}

/// The cutters for every end: those picked, else the best on hand of a shop that was entered.
pub(in crate::ask) fn tools(plan: &Plan, bytes: &[u8], picked: &[(String, String)]) -> (Shop, Tools) {
    let mut shop = read(bytes);
    let mut tools = if entered(bytes) { choose(plan, &shop) } else { Tools::default() };
    if !entered(bytes) {
        // Of a mill that nobody has entered no speed can be said to be missing.
        shop.mill.speeds = Speeds::Range(SpindleSpeed::from_rpm(1.0), SpindleSpeed::from_rpm(60_000.0));
    }
    for at in CutAt::all().filter(|_| !picked.is_empty()) {
        let Some(cut) = at.cut(plan).round() else { continue };
        if let Some(own) = pick(plan, &shop, at, cut, &candidates(plan, &shop, at), picked) {
            tools.take(at, own);
        }
    }
    (shop, tools)
}

pub(super) fn lines(
    here: Here<'_>,
    cut: &RoundCut,
    ranked: &[Candidate],
    used: Option<&Candidate>,
) -> Vec<SawLine> {
    let line = |candidate: &Candidate| SawLine {
        key: key(here.shop, cut, candidate),
        name: name(here, candidate),
        words: words(here, candidate),
        fits: candidate.verdict == Verdict::Fits,
        used: used.is_some_and(|used| used.saw == candidate.saw),
    };
    ranked.iter().map(line).collect()
}

fn name(here: Here<'_>, candidate: &Candidate) -> String {
    let diameter = show::diameter(candidate.diameter, here.unit);
    if candidate.measured { diameter } else { format!("{diameter}, not measured") }
}

/// `Fit · gap 0.08 mm · stay goes in by 0.10 mm`.
fn words(here: Here<'_>, candidate: &Candidate) -> String {
    let length = |length| show::length(length, here.unit);
    let style = Style { unit: here.unit, ..Style::default() };
    let verdict = match candidate.verdict {
        Verdict::Fits if candidate.tight => "Fit, but tighter than the joint wants".to_owned(),
        verdict => capital(&text::procedure::verdict(verdict, style)),
    };
    let gap = candidate.gap.map(|gap| format!("gap {}", length(gap)));
    let push = candidate.push.map(|push| match push.mm() < 0.0 {
        true => format!("stay stands off by {}", length(-push)),
        false => format!("stay goes in by {}", length(push)),
    });
    [Some(verdict), gap, push].into_iter().flatten().collect::<Vec<_>>().join(" · ")
}
