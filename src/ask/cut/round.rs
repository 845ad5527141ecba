//! A round cut with the saw that is used for it.

use super::running::{self, saw_cutter};
use super::{CutTold, Here, ToCut, fit, saws, way};
use crate::ask::shop::entered;
use crate::machining::{Tool, candidates};
use crate::model::capital;
use crate::plan::{CutAt, RoundCut};
use crate::units::show;

pub(super) fn tell(here: Here<'_>, cut: &RoundCut, cuts: &[CutAt], asked: &ToCut, answer: &mut CutTold) {
    let ranked = candidates(here.plan, here.shop, here.at);
    let used = saws::used(here, cut, &ranked, &asked.picked);
    let own = used.is_some_and(|(_, own)| own);
    let used = used.map(|(candidate, _)| candidate);
    answer.is_own = own;
    answer.picked = how(asked, used.is_some(), own);
    answer.saws = saws::lines(here, cut, &ranked, used.as_ref());
    answer.told.extend(fit::compound(here, cut));
    answer.told.push(fit::fit(here, cut, used.as_ref(), cuts.len() > 1));
    let saw = used.and_then(|used| Some((used, here.shop.hole_saws.get(used.saw)?)));
    match saw {
        Some((used, saw)) => {
            answer.told.push(running::run(here, saw_cutter(used.diameter, saw), Some(saw)));
            answer.told.push(way::way(here, cuts, used.diameter, saw));
            answer.told.push(way::stiffness(here, used.diameter, saw));
        }
        None => answer.told.push(running::planned(here, Tool::HoleSaw, cut.cutter)),
    }
    if cuts.len() > 1
        && let Some(other) = cuts.iter().find(|at| **at != here.at)
    {
        let words = format!("{} {} is cut in the same setting.", capital(other.hand.key()), other.pair.one());
        answer.told.iter_mut().take(1).for_each(|told| told.say(words.clone()));
    }
}

/// How the saw was picked.
fn how(asked: &ToCut, any: bool, own: bool) -> String {
    let words = match (own, any, entered(&asked.shop)) {
        (true, ..) => "Picked by you.",
        (_, true, true) => "Picked by itself: the best on hand for this joint.",
        (_, false, true) => "No saw on hand fits this joint: the planned diameter stands.",
        (_, true, false) => {
            "The best of the starting list. The steps name the planned diameter until your shop is entered or you pick a saw."
        }
        _ => "None of the starting list fits this joint: the planned diameter stands.",
    };
    words.to_owned()
}

/// A length, as the page writes it.
pub(super) fn length(here: Here<'_>, length: crate::units::Length) -> String {
    show::length(length, here.unit)
}
