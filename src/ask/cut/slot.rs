//! A slot with the slitting saw that is used for it.

use super::Here;
use super::round::length;
use super::running;
use super::told::Told;
use crate::machining::{Cutter, SlotPasses, Tool, slot_passes, slot_ways};
use crate::model::shop::ToothMaterial;
use crate::plan::{CutAt, SlotCut};
use crate::text::machining::{standing_name, turning_name};
use crate::units::{Length, show};

pub(super) fn tell(here: Here<'_>, cut: &SlotCut, cuts: &[CutAt], is_entered: bool) -> Vec<Told> {
    let mut told = Told::new("Passes");
    told.fact("Plate", length(here, cut.plate));
    told.fact("Slot", length(here, cut.width));
    let Some(passes) = slot_passes(cut, &here.shop.slitting_saws) else {
        told.say_bad("No slitting saw on hand is as thin as the slot, or only far thinner ones are.");
        return vec![told, running::planned(here, Tool::SlittingSaw, Length::from_mm(80.0))];
    };
    let saw = here.shop.slitting_saws.get(passes.saw).copied().unwrap_or_default();
    told.fact(
        "Saw",
        format!("{} wide, {}", length(here, saw.width), show::diameter(saw.diameter, here.unit)),
    );
    offsets(here, &passes, &mut told);
    told.fact("Depth along the stay", length(here, Length::from_mm((cut.mouth - cut.root).mm().abs())));
    told.fact("Collar clear of the stay's end by", length(here, passes.room));
    if passes.room.mm() < 0.0 {
        told.say_bad("The saw's collar meets the stay's end before the slot is deep enough.");
    }
    if is_entered {
        ways(here, &passes, &mut told);
    }
    let side = here.shop.mill.side_to_spindle.key();
    told.say(format!("Touch the {side} side of the mounting block with the saw's face, spindle still; heights count from there."));
    if cuts.len() > 1 {
        told.say("Both stays are slotted in the same clamping.");
    }
    told.say("Picked by itself: the saw on hand that needs the fewest passes.");
    let cutter = Cutter {
        tool: Tool::SlittingSaw,
        diameter: saw.diameter,
        teeth: saw.teeth.number(),
        tooth: ToothMaterial::HighSpeedSteel,
    };
    vec![told, running::run(here, cutter, None)]
}

fn offsets(here: Here<'_>, passes: &SlotPasses, told: &mut Told) {
    let several = passes.offsets.len() > 1;
    told.fact("Passes", passes.offsets.len().to_string());
    for (i, offset) in passes.offsets.iter().enumerate().filter(|_| several) {
        let name = format!("Pass {}, from the slot's middle", i + 1);
        told.fact(name, show::signed_length(offset.mm(), here.unit));
    }
}

/// What the saw comes near to, and from which side its spindle had better come.
fn ways(here: Here<'_>, passes: &SlotPasses, told: &mut Told) {
    let found = slot_ways(here.plan, here.shop, here.at, passes);
    let set_up = here.shop.mill.side_to_spindle;
    for way in &found {
        let Some(near) = way.tightest() else { continue };
        let (side, part, body) = (way.side.key(), turning_name(near.part), standing_name(near.body));
        match near.goes {
            Some(goes) => {
                told.say_bad(format!(
                    "Spindle on the {side}: the {part} meets the {body} after {}.",
                    length(here, goes)
                ));
            }
            None => {
                told.fact(format!("Spindle on the {side}: {part} to {body}"), length(here, near.gap));
            }
        }
    }
    if found.first().is_some_and(|best| best.side != set_up) {
        told.say(format!(
            "There is more room with the {} side to the spindle.",
            found.first().map_or("", |best| best.side.key())
        ));
    }
}
