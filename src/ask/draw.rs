//! Drawings that no frame has to wait for.

use super::rooms::{name, topic};
use crate::clearance::{Clearance, clearances, clearances_along};
use crate::drawing::{Differs, Sheet, Strip, Viewport, along_spindle, as_found, profile, room_strip};
use crate::model::{Hand, PairName};
use crate::plan::{CutAt, Plan};
use serde::{Deserialize, Serialize};

/// What is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Drawing {
    /// A cut as seen along the spindle.
    AlongSpindle(CutAt),
    /// The end of a tube unrolled.
    Profile(CutAt),
    /// The finished stays of a pair, right then left, beside the plan.
    AsFound(PairName, [Differs; 2]),
    /// The room along a stay.
    Strip(PairName, Hand),
}

pub(super) fn sheet(plan: &Plan, drawing: Drawing, viewport: Viewport) -> Sheet {
    match drawing {
        Drawing::AlongSpindle(at) => along_spindle(plan, at, viewport),
        Drawing::Profile(at) => profile(plan, at, viewport),
        Drawing::Strip(pair, hand) => room_strip(plan, pair, hand, &strips(plan, pair, hand), viewport),
        Drawing::AsFound(pair, differs) => as_found(plan, pair, differs, viewport),
    }
}

/// Stations at which the room along a stay is worked out.
const STATIONS: u16 = 81;

fn strips(plan: &Plan, pair: PairName, hand: Hand) -> Vec<Strip> {
    let here = clearances(plan).into_iter().find(|viewport| (viewport.pair, viewport.hand) == (pair, hand));
    let one = |gap: &Clearance| Strip {
        name: name(plan, gap.to),
        topic: topic(pair, gap.to),
        limit: gap.limit,
        points: clearances_along(plan, pair, hand, gap.to, STATIONS),
        least: Some((gap.station, gap.distance)),
    };
    here.iter().flat_map(|viewport| &viewport.clearances).map(one).collect()
}
