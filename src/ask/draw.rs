//! Drawings that no frame has to wait for.

use crate::drawing::{Differs, Place, Room, Sheet, along_spindle, as_found, profile};
use crate::plan::{CutAt, Plan};
use crate::trade::PairName;
use nanoserde::{DeBin, SerBin};

/// What is drawn.
#[derive(Clone, Copy, Debug, PartialEq, SerBin, DeBin)]
pub enum Drawing {
    /// A cut as seen along the spindle.
    AlongSpindle(CutAt),
    /// The end of a tube unrolled.
    Profile(CutAt),
    /// The finished stays of a pair, right then left, beside the plan.
    AsFound(PairName, [Differs; 2]),
}

pub(super) fn sheet(plan: &Plan, drawing: Drawing, room: Room) -> Sheet {
    let place = |CutAt { pair, hand, at_front }| Place { pair, hand, at_front };
    match drawing {
        Drawing::AlongSpindle(at) => along_spindle(plan, place(at), room),
        Drawing::Profile(at) => profile(plan, place(at), room),
        Drawing::AsFound(pair, differs) => as_found(plan, pair, differs, room),
    }
}
