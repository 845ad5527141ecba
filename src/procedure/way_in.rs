//! Whether the saw gets to where it must, said before the spindle turns.

use super::pass::Pass;
use super::reading::Reading;
use super::step::Step;
use crate::machining::{Near, SlotPasses, SlotWay, Standing, Stroke, nearest, slot_ways, table_room};
use crate::model::Hand;
use crate::model::shop::HoleSaw;
use crate::plan::CutAt;
use crate::units::{Length, said};

/// The step at which the saw goes in, with all that stands in its way and the smallest gap that is left.
pub(super) fn checked(pass: Pass<'_>, mut step: Step, diameter: Length, saw: &HoleSaw) -> Step {
    let (plan, shop) = (pass.work.plan, pass.work.shop);
    let cuts: Vec<CutAt> = pass.cuts().collect();
    let Some(stroke) = Stroke::new(plan, shop, &cuts, diameter) else { return step };
    let (reach, room) = (stroke.reach(shop, saw), table_room(plan, shop, &cuts));
    let fails = [
        (
            "the holder meets the first stay before the saw is through: the arbor is too short by",
            reach.through,
        ),
        ("the stub that is cut off does not go into the saw: it is too shallow by", reach.bottom),
        ("the way in is longer than the travel along the spindle by", reach.travel),
        ("the table's travel along the fixture is short by", room.along_left),
        ("the table's travel across the fixture is short by", room.across_left),
    ];
    let fails = fails.into_iter().filter(|(_, left)| left.mm() < 0.0);
    step.beyond.extend(fails.map(|(words, left)| format!("{words} {} mm", said(-left.mm(), 1))));
    if reach.all_stubs.mm() < 0.0 && reach.bottom.mm() >= 0.0 && cuts.len() > 1 {
        step.check =
            Some("stop between the stays and shake the first stub out: the saw is not deep enough for both");
    }
    let near = nearest(plan, shop, &stroke, saw);
    step.beyond.extend(near.iter().filter_map(meets));
    match near.first().filter(|near| near.goes.is_none()) {
        Some(near) => {
            let name = format!("Smallest gap, {} to {}", near.part.name(), near.body.name());
            step.beside(name, Reading::Length(near.gap))
        }
        None => step,
    }
}

fn meets(near: &Near) -> Option<String> {
    let goes = said(near.goes?.mm(), 1);
    Some(format!("the {} meets the {} after {goes} mm of its way in", near.part.name(), near.body.name()))
}

/// The step at which a slitting saw goes in, with what stands in its way from the side that the spindle comes from.
pub(super) fn slot_checked(pass: Pass<'_>, mut step: Step, passes: &SlotPasses) -> Step {
    let (plan, shop) = (pass.work.plan, pass.work.shop);
    let ways: Vec<Vec<SlotWay>> = pass.cuts().map(|at| slot_ways(plan, shop, at, passes)).collect();
    let chosen =
        || ways.iter().filter_map(|ways| ways.iter().find(|way| way.side == shop.mill.side_to_spindle));
    let (mut told, mut axle): (Vec<String>, &str) = (Vec::new(), "");
    for near in chosen().flat_map(|way| &way.near) {
        match meets(near) {
            Some(_) if near.body == Standing::Axle => axle = AXLE_OUT,
            Some(words) if !told.contains(&words) => told.push(words),
            _ => {}
        }
    }
    step.set_on.push_str(axle);
    if told.is_empty() {
        let tightest =
            chosen().filter_map(SlotWay::tightest).min_by(|a, b| a.gap.mm().total_cmp(&b.gap.mm()));
        return match tightest {
            Some(near) => {
                let name = format!("Smallest gap, {} to {}", near.part.name(), near.body.name());
                step.beside(name, Reading::Length(near.gap))
            }
            None => step,
        };
    }
    step.beyond.extend(told);
    let clear = |side: Hand| {
        let of_side = ways.iter().filter_map(|ways| ways.iter().find(|way| way.side == side));
        of_side.filter_map(SlotWay::tightest).all(|near| near.goes.is_none())
    };
    match Hand::ALL.into_iter().find(|side| clear(*side)) {
        Some(side) => step.beside("Nothing is in the way with the spindle on the", Reading::Word(side.key())),
        None => step,
    }
}

/// What is said where only the dummy axle is in the way.
const AXLE_OUT: &str = "; take the dummy axle out first, the saw would meet it";
