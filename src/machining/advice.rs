//! What to mind with a metal and a set-up.

use crate::model::Tube;
use crate::model::shop::{HoleSaw, Metal};
use crate::units::Length;
use serde::{Deserialize, Serialize};

/// A piece of advice on a cut with a hole saw. The room `text` says it, why, and where that comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Advice {
    /// The pilot drill comes out.
    PilotOut,
    /// What the metal asks of feed and coolant.
    OfMetal(Metal),
    /// The arbor is long for its diameter.
    LongArbor,
    /// The wall is so thin that fewer than two teeth stand in it.
    ThinWall,
}

/// How far a pilot drill stands out before the teeth.
pub const PILOT: Length = Length::from_mm(1.6);

/// An arbor longer than this many of its own diameters counts as long. A shop habit, unsourced.
const LONG: f64 = 4.0;

/// A wall thinner than this many of a saw's tooth pitches snags. A shop habit, unsourced: at least two teeth in the cut.
const TEETH_IN_CUT: f64 = 2.0;

/// What to mind with a saw in a tube of a metal.
pub fn advice(metal: Metal, saw: &HoleSaw, tube: &Tube) -> Vec<Advice> {
    let mut all = vec![Advice::PilotOut, Advice::OfMetal(metal)];
    all.extend((saw.arbor.reach.mm() > LONG * saw.arbor.shank.mm()).then_some(Advice::LongArbor));
    all.extend(snags(saw, tube).then_some(Advice::ThinWall));
    all
}

/// Whether the wall is so thin that fewer than two teeth stand in it.
fn snags(saw: &HoleSaw, tube: &Tube) -> bool {
    let pitch = std::f64::consts::PI * saw.diameter().mm() / saw.size.teeth.number().max(1.0);
    tube.wall < Length::from_mm(TEETH_IN_CUT * pitch)
}
