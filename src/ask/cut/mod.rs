//! One cut on the builder's own machine: which saw, how fast, whether it reaches, what it comes near to, how stiff it stands.

mod fit;
mod round;
mod running;
mod saws;
mod slot;
mod told;
mod way;
mod way_in;

pub use saws::SawLine;
pub(super) use saws::tools;
pub use told::{Sentence, Told};
pub(super) use way_in::sheet as way_in_sheet;

use super::{pad, shop};
use crate::machining::slot_passes;
use crate::model::PairName;
use crate::model::shop::Shop;
use crate::plan::{Cut, CutAt, Plan};
use crate::text::Style;
use crate::units::LengthUnit;
use serde::{Deserialize, Serialize};

/// What is asked of a cut.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct ToCut {
    /// The job, as a link text.
    pub job: String,
    /// The shop, as the page keeps it.
    pub shop: Vec<u8>,
    /// The saws that the builder has picked: cuts by their keys, and the keys of saws.
    pub picked: Vec<(String, String)>,
    /// The cut, by its key.
    pub cut: String,
    /// The flat for a brake mount, as the page keeps it.
    pub pad: Vec<u8>,
    /// The unit of lengths.
    pub unit: LengthUnit,
}

/// What is told of a cut.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct CutTold {
    /// The cut, by its key.
    pub cut: String,
    /// The cuts that are done in the same setting with it, itself among them, by their keys.
    pub together: Vec<String>,
    /// How the saw was picked, in words.
    pub picked: String,
    /// Whether the builder has picked it.
    pub is_own: bool,
    /// The hole saws on hand, best first; none where the end is not round.
    pub saws: Vec<SawLine>,
    /// Whether a saw's way in can be drawn.
    pub is_drawn: bool,
    /// Everything else, under headings.
    pub told: Vec<Told>,
    /// What becomes of the flat for a brake mount; none on a seat stay.
    pub pad: Option<Told>,
}

/// A cut in a shop.
#[derive(Clone, Copy)]
struct Here<'a> {
    plan: &'a Plan,
    shop: &'a Shop,
    at: CutAt,
    unit: LengthUnit,
}

impl Here<'_> {
    /// How its sentences are written.
    fn style(self) -> Style {
        Style { unit: self.unit, ..Style::default() }
    }
}

pub(super) fn told(plan: &Plan, asked: &ToCut) -> Option<CutTold> {
    let at = CutAt::from_key(&asked.cut)?;
    let shop = shop::read(&asked.shop);
    let here = Here { plan, shop: &shop, at, unit: asked.unit };
    let mut answer = CutTold {
        pad: (at.pair == PairName::Chainstays).then(|| fit::pad(here, &pad::read(&asked.pad))),
        cut: at.key(),
        ..CutTold::default()
    };
    let cuts = crate::procedure::together(plan, &shop, at);
    answer.together = cuts.iter().map(|at| at.key()).collect();
    match at.cut(plan) {
        Cut::Cope(cut) | Cut::Boss(cut) => round::tell(here, cut, &cuts, asked, &mut answer),
        Cut::Slot(cut) => answer.told = slot::tell(here, cut, &cuts, shop::entered(&asked.shop)),
        Cut::Square(_) => {}
    }
    let has_slot = |cut| slot_passes(cut, &shop.slitting_saws).is_some();
    answer.is_drawn = match at.cut(plan) {
        Cut::Slot(cut) => has_slot(cut),
        _ => answer.saws.iter().any(|saw| saw.used),
    };
    Some(answer)
}
