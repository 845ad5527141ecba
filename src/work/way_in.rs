//! Whether the saw gets to where it must, said before the spindle turns.

use super::pass::Pass;
use super::reading::Reading;
use super::step::Step;
use crate::machining::{Near, Stroke, nearest, table_room};
use crate::plan::CutAt;
use crate::quantity::{Length, trimmed};
use crate::trade::shop::HoleSaw;

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
    step.beyond.extend(fails.map(|(words, left)| format!("{words} {} mm", trimmed(-left.mm(), 1))));
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
    let goes = trimmed(near.goes?.mm(), 1);
    Some(format!("the {} meets the {} after {goes} mm of its way in", near.part.name(), near.body.name()))
}
