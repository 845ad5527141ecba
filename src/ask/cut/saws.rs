//! The hole saws on hand, judged for one end, and those that the builder has picked.

use super::Here;
use crate::ask::shop::{entered, read};
use crate::machining::{Candidate, Verdict, candidates};
use crate::model::shop::{Shop, Speeds};
use crate::plan::{CutAt, Plan, RoundCut};
use crate::procedure::{Tools, choose};
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
    let lead = crate::procedure::together(plan, at).first().copied().unwrap_or(at).key();
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

/// `Fits: gap 0.08 mm, goes in by 0.10 mm`.
fn words(here: Here<'_>, candidate: &Candidate) -> String {
    let length = |length| show::length(length, here.unit);
    let verdict = match candidate.verdict {
        Verdict::Fits if candidate.tight => "Fits, but tighter than the joint wants".to_owned(),
        Verdict::Fits => "Fits".to_owned(),
        Verdict::TooLarge(by) => format!("Too large: the gap is {} too wide", length(by)),
        Verdict::TooSmall(by) => format!("Too small: the gap is {} too wide", length(by)),
        Verdict::TooShort(by) => format!("Too short: {} deeper is needed for the stub", length(by)),
        Verdict::NotAllRound => "Does not cut all round".to_owned(),
    };
    let figures = [("gap", candidate.gap), ("stay goes in by", candidate.push)];
    let figures =
        figures.into_iter().filter_map(|(name, figure)| Some(format!("{name} {}", length(figure?))));
    [verdict].into_iter().chain(figures).collect::<Vec<_>>().join(" · ")
}
