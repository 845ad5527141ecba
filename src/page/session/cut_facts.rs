//! The figures of one cut as the page lists them.

use staywright::plan::{Cut, RoundCut, SlotCut, Stay};
use staywright::procedure::{Named, Reading};
use staywright::units::Length;

/// All figures of the cut.
pub fn all(stay: &Stay, cut: &Cut) -> Vec<Named> {
    let mut facts = vec![Named::new("Splay", Reading::Angle(stay.splay))];
    match cut {
        Cut::Cope(cut) | Cut::Boss(cut) => round(cut, &mut facts),
        Cut::Slot(cut) => slot(cut, &mut facts),
        Cut::Square(cut) => facts.push(Named::new("Cut at", Reading::Length(cut.long_point))),
    }
    facts
}

fn round(cut: &RoundCut, facts: &mut Vec<Named>) {
    let mut add = |name: &str, reading| facts.push(Named::new(name, reading));
    add("Cut angle", Reading::Angle(cut.angle));
    add("Off square", Reading::Angle(cut.miter));
    add("Offset of the axes", Reading::Length(cut.offset));
    let lengths = [
        ("Axes nearest at", cut.axis_station),
        ("Long point at", cut.long_point),
        ("Short point at", cut.short_point),
        ("Saw must cut through", cut.saw_depth),
    ];
    for (name, length) in lengths {
        add(name, length.map_or(Reading::Word("—"), Reading::Length));
    }
    add("Cutter", Reading::Diameter(cut.cutter));
    add("Round member", Reading::Diameter(cut.member));
}

fn slot(cut: &SlotCut, facts: &mut Vec<Named>) {
    facts.push(Named::new("Slot angle", Reading::Angle(cut.angle)));
    let lengths = [
        ("Plate", cut.plate),
        ("Slot", cut.width),
        ("Mouth at", cut.mouth),
        ("Root at", cut.root),
        ("Depth along the stay", Length::from_mm((cut.mouth - cut.root).mm().abs())),
        ("Saw from the centre plane", cut.from_centre),
    ];
    facts.extend(lengths.map(|(name, length)| Named::new(name, Reading::Length(length))));
}

/// One row of the profile's table.
#[derive(Clone, Debug, PartialEq)]
pub struct ProfileRow {
    /// Direction round the stay, whole degrees.
    pub phi: u32,
    /// Outer edge and bore, where they are cut.
    pub outer: Option<Length>,
    /// See `outer`.
    pub bore: Option<Length>,
}

/// The profile at every `step` degrees.
pub fn profile(cut: &RoundCut, step: u32) -> Vec<ProfileRow> {
    let at = |points: &[staywright::plan::ProfilePoint], phi: u32| {
        points.iter().find(|point| (point.phi.degrees() - f64::from(phi)).abs() < 1e-6).map(|point| point.s)
    };
    let row = |phi| ProfileRow { phi, outer: at(&cut.outer, phi), bore: at(&cut.bore, phi) };
    (0..360).step_by(step.max(1) as usize).map(row).collect()
}
