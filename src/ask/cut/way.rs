//! Whether a saw gets there, what it comes near to on its way, and how stiff it stands.

use super::Here;
use super::round::length;
use super::told::Told;
use crate::machining::{
    Reach, Stroke, TableRoom, cutting_force, deflection, force, nearest, stiffer_by, table_room,
};
use crate::model::shop::HoleSaw;
use crate::plan::CutAt;
use crate::text::machining::{standing_name, turning_name};
use crate::units::{Length, fixed, show};

/// Gaps that are told, smallest first.
const GAPS: usize = 3;

/// Arbor taken back to see what it brings.
const CHOKED: Length = Length::from_mm(20.0);

pub(super) fn way(here: Here<'_>, cuts: &[CutAt], diameter: Length, saw: &HoleSaw) -> Told {
    let mut told = Told::new("Way in");
    let Some(stroke) = Stroke::new(here.plan, here.shop, cuts, diameter) else {
        told.say("The saw's way into these stays is not looked at.");
        return told;
    };
    let reach = stroke.reach(here.shop, saw);
    told.fact("Stroke", length(here, stroke.length()));
    lefts(here, &reach, &table_room(here.plan, here.shop, cuts), &mut told);
    if reach.all_stubs.mm() < 0.0 && reach.bottom.mm() >= 0.0 && cuts.len() > 1 {
        told.say("The saw does not hold both stubs: stop between the stays and shake the first one out.");
    }
    gaps(here, &stroke, saw, &mut told);
    told
}

/// What is left of each reach and travel, and what it means where nothing is.
fn lefts(here: Here<'_>, reach: &Reach, room: &TableRoom, told: &mut Told) {
    let lines = [
        (
            "Reach left when through",
            reach.through,
            "The holder meets the first stay before the saw is through. Arbor missing",
        ),
        (
            "Saw depth left over the stub",
            reach.bottom,
            "The stub meets the saw's bottom first. Depth missing",
        ),
        (
            "Travel left along the spindle",
            reach.travel,
            "The way in is longer than the travel along the spindle. Missing",
        ),
        (
            "Table travel left along",
            room.along_left,
            "The table does not go far enough along the fixture. Missing",
        ),
        (
            "Table travel left across",
            room.across_left,
            "The table does not go far enough across the fixture. Missing",
        ),
    ];
    for (name, left, fails) in lines {
        told.fact(name, length(here, left));
        if left.mm() < 0.0 {
            told.say_bad(format!("{fails}: {}.", length(here, Length::from_mm(-left.mm()))));
        }
    }
}

fn gaps(here: Here<'_>, stroke: &Stroke, saw: &HoleSaw, told: &mut Told) {
    for near in nearest(here.plan, here.shop, stroke, saw).iter().take(GAPS) {
        let (part, body) = (turning_name(near.part), standing_name(near.body));
        match near.goes {
            Some(goes) => told
                .say_bad(format!("The {part} meets the {body} after {} of its way in.", length(here, goes))),
            None => told.fact(format!("Gap, {part} to {body}"), length(here, near.gap)),
        }
    }
}

pub(super) fn stiffness(here: Here<'_>, diameter: Length, saw: &HoleSaw) -> Told {
    let mut told = Told::new("Stiffness");
    let saw = &HoleSaw { cutting: Some(diameter), ..*saw };
    let tube = &here.plan.job.pair(here.at.pair).side(here.at.hand).tube;
    let gives = deflection(here.shop.metal, saw, tube);
    let pushes = force(here.shop.metal, saw, tube);
    let newtons = |low: f64, high: f64| format!("{} to {} N", fixed(low, 0), fixed(high, 0));
    let fine = |length: Length| show::fine(length.mm(), false, here.unit);
    told.fact("Teeth give way", format!("{} to {}", fine(gives.low), fine(gives.high)));
    told.fact("Under a force of", newtons(pushes.low.newtons(), pushes.high.newtons()));
    if let Some(times) = stiffer_by(saw, CHOKED) {
        told.fact(format!("Choked up by {}", fine(CHOKED)), format!("{} times as stiff", fixed(times, 2)));
    }
    told.say_from(
        "A band and no more: the force is known only roughly, and blunt teeth can double it. Compare set-ups by the ratio.",
        &cutting_force(here.shop.metal).origin,
    );
    told
}
