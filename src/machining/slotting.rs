//! A slitting saw's way into a slot: what comes how near to what, and from which side the spindle had better come.

use super::bodies::{Standing, Turning, TurningBody, standing};
use super::collide::{Near, near};
use super::placed::Placed;
use super::slot::SlotPasses;
use crate::geometry::{Line, Part};
use crate::model::Hand;
use crate::model::shop::{Shop, SlittingSaw};
use crate::plan::{Cut, CutAt, Plan, SlotCut};
use crate::units::Length;
use nalgebra::{Point3, Vector3};

/// The way of a slitting saw into one stay, its spindle on one side of the fixture.
#[derive(Clone, Debug)]
pub struct SlotWay {
    /// The side that the spindle comes from.
    pub side: Hand,
    /// Every gap between what turns and what stands, the smallest first, over all passes. The saw may cut its own stay.
    pub near: Vec<Near>,
}

impl SlotWay {
    /// The smallest gap to anything but the dummy axle, which can be taken out once the stays are clamped.
    pub fn tightest(&self) -> Option<&Near> {
        self.near.iter().find(|near| near.body != Standing::Axle)
    }

    /// What the saw can do without meeting anything, and how much room it has then.
    fn room(&self) -> (f64, f64) {
        self.tightest().map_or((f64::INFINITY, f64::INFINITY), |near| {
            (near.gap.mm(), near.goes.map_or(f64::INFINITY, Length::mm))
        })
    }
}

/// A slitting saw where a slot is done, in fixture components.
#[derive(Clone, Debug)]
pub struct SlotEnd {
    /// The spindle's axis, pointing to the spindle; station 0 is the middle of the saw.
    pub axis: Line,
    /// From there back to where the saw is clear of the stay, square to the axis.
    pub back: Vector3<f64>,
    /// What turns, by station from the saw's middle.
    pub turning: Vec<TurningBody>,
}

/// The saw at the end of its first pass into the slot at `at`, its spindle on `side`; `None` where the end is not slotted.
pub fn slot_end(plan: &Plan, shop: &Shop, at: CutAt, passes: &SlotPasses, side: Hand) -> Option<SlotEnd> {
    let Cut::Slot(cut) = at.cut(plan) else { return None };
    let (saw, offset) = (shop.slitting_saws.get(passes.saw)?, passes.offsets.first()?);
    let Run { axis, back } = run(plan, shop, at, (cut, saw), *offset, side);
    Some(SlotEnd { axis, back, turning: turning_saw(shop, saw) })
}

/// One pass of a saw, in fixture components.
struct Run {
    /// The spindle's axis where the slot is done, pointing to the spindle; station 0 is the middle of the saw.
    axis: Line,
    /// From there back to where the saw is clear of the stay.
    back: Vector3<f64>,
}

impl Run {
    /// The gap between a body and what turns, all the way in.
    fn near(&self, part: &TurningBody, body: Standing, parts: &[Part]) -> Near {
        let whole = self.back.norm();
        near((part.part, body), parts, whole, |gone| {
            let share = if whole > 0.0 { gone / whole } else { 1.0 };
            let there = Line { point: self.axis.point + self.back * (1.0 - share), ..self.axis };
            part.run(&there, self.back * share)
        })
    }
}

/// The ways into the slot at `at`, the side with more room first; of two alike, the side that the mill is set up for. Empty where
/// the end is not slotted.
pub fn slot_ways(plan: &Plan, shop: &Shop, at: CutAt, passes: &SlotPasses) -> Vec<SlotWay> {
    let (Cut::Slot(cut), Some(saw)) = (at.cut(plan), shop.slitting_saws.get(passes.saw)) else {
        return Vec::new();
    };
    let first = shop.mill.side_to_spindle;
    let other = if first == Hand::Right { Hand::Left } else { Hand::Right };
    let mut ways = [first, other].map(|side| slot_way(plan, shop, at, (cut, passes, saw), side));
    let [one, two] = &ways;
    if two.room() > one.room() {
        ways.reverse();
    }
    ways.into()
}

fn slot_way(
    plan: &Plan,
    shop: &Shop,
    at: CutAt,
    (cut, passes, saw): (&SlotCut, &SlotPasses, &SlittingSaw),
    side: Hand,
) -> SlotWay {
    let still = standing(plan, shop, at);
    let outermost = [passes.offsets.first(), passes.offsets.last()];
    let runs: Vec<Run> = outermost
        .into_iter()
        .flatten()
        .map(|offset| run(plan, shop, at, (cut, saw), *offset, side))
        .collect();
    let mut found = Vec::new();
    for part in turning_saw(shop, saw) {
        for (body, parts) in &still {
            if part.part == Turning::Saw && *body == Standing::Stay(at.hand) {
                continue;
            }
            let each = runs.iter().map(|run| run.near(&part, *body, parts));
            found.extend(each.min_by(Near::order));
        }
    }
    found.sort_by(Near::order);
    // A collar is on either side of the saw.
    let mut told = Vec::new();
    found.retain(|near| {
        let new = !told.contains(&(near.part, near.body));
        told.push((near.part, near.body));
        new
    });
    SlotWay { side, near: found }
}

/// The saw stops with its front edge at the slot's root, its middle in the stay plane, and comes in from behind.
fn run(
    plan: &Plan,
    shop: &Shop,
    at: CutAt,
    (cut, saw): (&SlotCut, &SlittingSaw),
    offset: Length,
    side: Hand,
) -> Run {
    let stay = Placed::new(plan, at);
    let sign = at.hand.sign();
    let (sin, cos) = (cut.swivel.radians() * sign).sin_cos();
    let (back, out) = (Vector3::new(cos, sin * sign, 0.0), Vector3::new(-sin, cos * sign, 0.0));
    let to_spindle = if side == at.hand { 1.0 } else { -1.0 };
    let root = stay.axis.at(cut.root.mm());
    let bench = &plan.job.fixture.bench;
    // Passes lie evenly about the middle, so either way round they are the same.
    let from_datum = cut.from_datum.mm() + offset.mm();
    let datum = Point3::new(bench.touch_u.mm(), 0.0, 0.0);
    let behind = (root - datum).dot(&back) + saw.diameter.mm() / 2.0;
    let lean = cut.angle.radians();
    let radius = stay.outline.radius(cut.mouth.mm());
    let deep = (cut.mouth.mm() - cut.root.mm()).abs() * lean.cos() + radius * lean.sin();
    Run {
        axis: Line { point: datum + back * behind + out * from_datum, direction: out * to_spindle },
        back: back * (deep + shop.mill.body.run_in.mm()),
    }
}

/// What turns, from the nut below the saw to the spindle nose, by station from the saw's middle.
fn turning_saw(shop: &Shop, saw: &SlittingSaw) -> Vec<TurningBody> {
    let (half, flange, mill) = (saw.width.mm() / 2.0, saw.flange.mm(), &shop.mill.body);
    let holder = half + saw.reach.mm().max(flange);
    let nose = holder + mill.holder_length.mm();
    let parts = [
        (Turning::Collar, -half - flange, -half, saw.collar),
        (Turning::Saw, -half, half, saw.diameter),
        (Turning::Collar, half, half + flange, saw.collar),
        (Turning::Shank, half + flange, holder, saw.arbor),
        (Turning::Holder, holder, nose, mill.holder),
        (Turning::Nose, nose, nose + mill.nose_length.mm(), mill.nose),
    ];
    let long = parts.into_iter().filter(|(_, from, to, _)| from < to);
    long.map(|(part, from, to, diameter)| TurningBody { part, from, to, radius: diameter.mm() / 2.0 })
        .collect()
}
