//! Slotting an end for its dropout plate.

use super::super::reading::{Named, Reading};
use super::Step;
use super::cut::{Pass, TURNING, along, touch_edge};
use staywright::plan::SlotCut;
use staywright::quantity::Length;

pub(super) fn steps(pass: Pass<'_>, cut: &SlotCut) -> Vec<Step> {
    vec![saw(pass, cut), stand(pass), touch_edge(pass), height(pass, cut), root(pass, cut), slit(pass, cut)]
}

fn saw(pass: Pass<'_>, cut: &SlotCut) -> Step {
    let on = "saw thickness; a thinner saw takes more passes, evenly about the middle";
    pass.step("saw", "Mount the slitting saw", Some(Reading::Length(cut.plate)), on)
}

fn stand(pass: Pass<'_>) -> Step {
    let on = "centre plane square to the spindle, so that the saw runs in it";
    pass.step("side", "Stand the fixture", Some(Reading::Word("on its side")), on)
}

fn height(pass: Pass<'_>, cut: &SlotCut) -> Step {
    let on = match pass.work.hands {
        [_] => "along the spindle, from the centre plane out to the middle of the saw",
        _ => "along the spindle, from the centre plane out to the middle of the saw; once up, once down",
    };
    pass.step("height", "Set the saw's height", Some(Reading::Length(cut.from_centre)), on)
}

fn root(pass: Pass<'_>, cut: &SlotCut) -> Step {
    let mut made = along(pass, cut.along_spindle, cut.dro_along, "slot's root");
    made.task = "Saw's front edge stops at".to_owned();
    made.set_on =
        "table reading along the fixture; the saw's centre stands half its diameter further to the rear"
            .to_owned();
    made
}

fn slit(pass: Pass<'_>, cut: &SlotCut) -> Step {
    let depth = Length::from_mm((cut.mouth - cut.root).mm().abs());
    let task = if pass.work.hands.len() > 1 { "Slot both rear ends" } else { "Slot the rear end" };
    let mut made =
        pass.step("cut", task, None, "from the open end inwards, table clamped in the other direction");
    made.also.push(Named::new("Slot depth along the stay", Reading::Length(depth)));
    made.caution = Some(TURNING);
    made
}
