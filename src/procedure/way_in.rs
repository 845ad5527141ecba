//! Whether the saw gets to where it must, known before the spindle turns.

use super::beside::Quantity;
use super::pass::Pass;
use super::problem::Problem;
use super::reading::Reading;
use super::step::Step;
use crate::machining::{Near, SlotPasses, SlotWay, Standing, Stroke, nearest, slot_ways, table_room};
use crate::model::Hand;
use crate::model::shop::HoleSaw;
use crate::plan::CutAt;
use crate::units::Length;

/// What stands in a saw's way.
#[derive(Default)]
pub(super) struct WayIn {
    problems: Vec<Problem>,
    /// What comes nearest where nothing is met.
    tightest: Option<Near>,
    /// Whether the dummy axle would be met: it can be taken out once the stays are clamped.
    pub(super) meets_axle: bool,
    /// Whether the first slug must be taken out before the saw goes on to the second stay.
    pub(super) is_shallow_for_both: bool,
}

impl WayIn {
    /// Of a slitting saw that is not known yet: it comes from behind, where the dummy axle lies.
    pub(super) fn unknown() -> Self {
        Self { meets_axle: true, ..Self::default() }
    }

    /// The step at which the saw goes in, with what stands in its way or the smallest gap that is left.
    pub(super) fn tell(&self, step: Step) -> Step {
        let step = step.with(self.problems.iter().copied());
        match &self.tightest {
            Some(near) => step.beside(Quantity::SmallestGap(near.part, near.body), Reading::Length(near.gap)),
            None => step,
        }
    }
}

/// A hole saw's way in.
pub(super) fn of_hole_saw(pass: Pass<'_>, diameter: Length, saw: &HoleSaw) -> WayIn {
    let (plan, shop) = (pass.work.plan, pass.work.shop);
    let cuts: Vec<CutAt> = pass.cuts().collect();
    let Some(stroke) = Stroke::new(plan, shop, &cuts, diameter) else { return WayIn::default() };
    let (reach, room) = (stroke.reach(shop, saw), table_room(plan, shop, &cuts));
    let table = |axis| move |by| Problem::TableTravelShort { axis, by };
    let mut problems: Vec<Problem> = [
        missing(reach.through, Problem::ArborShort),
        missing(reach.bottom, Problem::SawShallow),
        missing(reach.travel, Problem::SpindleTravelShort),
        missing(room.along_left, table(shop.mill.lies_along)),
        missing(room.across_left, table(shop.mill.lies_across())),
    ]
    .into_iter()
    .flatten()
    .collect();
    let near = nearest(plan, shop, &stroke, saw);
    let meets_axle = near.iter().any(is_met_axle);
    let others = || near.iter().filter(|near| !is_met_axle(near));
    problems.extend(others().filter_map(met));
    WayIn {
        problems,
        tightest: others().next().filter(|near| near.goes.is_none()).copied(),
        meets_axle,
        is_shallow_for_both: cuts.len() > 1 && reach.all_stubs.mm() < 0.0 && reach.bottom.mm() >= 0.0,
    }
}

fn missing(left: Length, problem: impl Fn(Length) -> Problem) -> Option<Problem> {
    (left.mm() < 0.0).then(|| problem(Length::from_mm(-left.mm())))
}

fn met(near: &Near) -> Option<Problem> {
    Some(Problem::Meets { part: near.part, body: near.body, after: near.goes? })
}

fn is_met_axle(near: &Near) -> bool {
    near.body == Standing::Axle && near.goes.is_some()
}

/// A slitting saw's way in, from the side that the spindle comes from.
pub(super) fn of_slitting_saw(pass: Pass<'_>, passes: &SlotPasses) -> WayIn {
    let (plan, shop) = (pass.work.plan, pass.work.shop);
    let ways: Vec<Vec<SlotWay>> = pass.cuts().map(|at| slot_ways(plan, shop, at, passes)).collect();
    let of_side = |side: Hand| ways.iter().filter_map(move |ways| ways.iter().find(|way| way.side == side));
    let chosen = || of_side(shop.mill.side_to_spindle);
    let meets_axle = chosen().flat_map(|way| &way.near).any(is_met_axle);
    let mut problems: Vec<Problem> = Vec::new();
    for near in chosen().flat_map(|way| &way.near).filter(|near| !is_met_axle(near)) {
        problems.extend(met(near).filter(|problem| !problems.contains(problem)));
    }
    let tightest = chosen().filter_map(SlotWay::tightest).min_by(|a, b| a.gap.mm().total_cmp(&b.gap.mm()));
    if problems.is_empty() {
        return WayIn { tightest: tightest.copied(), meets_axle, ..WayIn::default() };
    }
    let is_clear = |side: &Hand| of_side(*side).filter_map(SlotWay::tightest).all(|near| near.goes.is_none());
    problems.extend(Hand::ALL.into_iter().find(is_clear).map(Problem::ClearFrom));
    WayIn { problems, meets_axle, ..WayIn::default() }
}
