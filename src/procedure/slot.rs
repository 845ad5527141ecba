//! Slotting an end for its dropout plate.

use super::beside::Quantity;
use super::caution::Caution;
use super::effect::Effect;
use super::key::StepKind;
use super::machine::Machine;
use super::machine_state::{MachineState, Mounted};
use super::pass::{ALIKE, Pass};
use super::problem::Problem;
use super::reading::Reading;
use super::step::{Scale, Step};
use super::task::{HeightFrom, Task};
use super::way_in::{self, WayIn};
use crate::machining::{Cutter, Placed, SlotPasses, Tool, slot_passes};
use crate::model::Hand;
use crate::model::shop::{Axis, SlittingSaw, ToothMaterial};
use crate::plan::{Cut, SlotCut};
use crate::units::{Angle, Length};

/// A slot and the saw that cuts it.
#[derive(Clone, Copy)]
struct Slotting<'a> {
    pass: Pass<'a>,
    /// The first stay's slot; what is set for both is the mean of them.
    cut: &'a SlotCut,
    /// The saw and its passes; `None` where no saw on hand will do.
    saw: Option<(&'a SlotPasses, &'a SlittingSaw)>,
}

pub(super) fn steps(pass: Pass<'_>, cut: &SlotCut, bench: &mut MachineState) -> Vec<Step> {
    let saws = &pass.work.shop.slitting_saws;
    let found = slot_passes(cut, saws);
    let saw = found.as_ref().and_then(|passes| Some((passes, saws.get(passes.saw)?)));
    let slotting = Slotting { pass, cut, saw };
    let way = saw.map_or_else(WayIn::unknown, |(passes, _)| way_in::of_slitting_saw(pass, passes));
    let swivel = Angle::from_degrees(slotting.mean(|cut| cut.swivel.degrees()));
    let mut steps = pass.on_side(bench, swivel);
    steps.extend(slotting.datum(bench));
    steps.extend(pass.axle_out(bench, way.meets_axle));
    let cutter = Mounted::SlittingSaw(saw.map(|(passes, _)| passes.saw));
    let mount = bench.mounts(cutter).then(|| slotting.mount());
    steps.extend(mounted(mount, slotting.top(bench)));
    steps.push(slotting.places(bench));
    steps.extend(slotting.passes(&way));
    steps
}

/// Mounting the saw and touching the block with it, as one step where both are to be done.
fn mounted(mount: Option<Step>, top: Option<Step>) -> Option<Step> {
    let (mount, top) = match (mount, top) {
        (Some(mount), Some(top)) => (mount, top),
        (one, other) => return one.or(other),
    };
    let task = match (mount.task, top.task) {
        (Task::MountSlittingSaw { passes, .. }, Task::TouchTop(side)) => {
            Task::MountSlittingSaw { passes, touches: Some(side) }
        }
        (other, _) => other,
    };
    Some(Step { task, ..mount.then(top) })
}

/// A figure of a slot; 0 of another cut.
fn of_slot(of: impl Fn(&SlotCut) -> f64) -> impl Fn(&Cut) -> f64 {
    move |cut| match cut {
        Cut::Slot(cut) => of(cut),
        _ => 0.0,
    }
}

/// Whether the fixture is swivelled for a plate that splays.
fn splays(cut: &SlotCut) -> bool {
    cut.swivel.degrees().abs() >= ALIKE
}

/// How far along the table the slot's root lies from where the readout was set to zero.
fn from_zero(cut: &SlotCut) -> Length {
    if splays(cut) { cut.dro_along } else { cut.along_spindle }
}

impl<'a> Slotting<'a> {
    fn mean(self, of: impl Fn(&SlotCut) -> f64) -> f64 {
        self.pass.mean(of_slot(of))
    }

    /// An edge that runs aslant to the spindle cannot be touched: a tip is brought over one point of it.
    fn datum(self, bench: &mut MachineState) -> Vec<Step> {
        if !splays(self.cut) {
            return self.pass.corner(bench, true).into_iter().collect();
        }
        let touched = self.pass.touched(true);
        if !bench.finds(touched.face) {
            return Vec::new();
        }
        let zero =
            |kind, task, scale| self.pass.step(kind, task).on(scale, Reading::Length(Length::default()));
        let finder = self.pass.work.plan.job.touch.edge_finder;
        let along = self.pass.work.machine().along();
        vec![
            zero(StepKind::TouchEdge, Task::PointAtEdge, along.scale()),
            zero(StepKind::TouchFace, Task::TouchFace(touched.face), touched.way.scale())
                .beside(Quantity::EdgeFinder, Reading::Diameter(finder)),
        ]
    }

    fn mount(self) -> Step {
        let step =
            |passes| self.pass.step(StepKind::SlittingSaw, Task::MountSlittingSaw { passes, touches: None });
        let Some((passes, saw)) = self.saw else {
            return step(None)
                .figure(Reading::Length(self.cut.width))
                .caution(Caution::CutterChange)
                .with([Problem::NoSlittingSaw { width: self.cut.width }]);
        };
        let is_known = self.pass.work.tools.is_known();
        step(Some(count(passes.offsets.len())))
            .figure(Reading::Length(saw.width))
            .beside(Quantity::Plate, Reading::Length(self.cut.plate))
            .beside(Quantity::SlotWidth, Reading::Length(self.cut.width))
            .beside(Quantity::SawDiameter, Reading::Diameter(saw.diameter))
            .beside(Quantity::ShallowerAtEdges, Reading::Length(self.roundness(saw)))
            .caution(Caution::CutterChange)
            .with((!is_known).then_some(Problem::SawsUnknown))
            .with((passes.room.mm() < 0.0).then(|| Problem::CollarShort(-passes.room)))
    }

    /// How much less deep the slot is at the tube's top and bottom than in its middle, since the saw is round.
    fn roundness(self, saw: &SlittingSaw) -> Length {
        let plan = self.pass.work.plan;
        let tubes = self.pass.cuts().map(|at| Placed::new(plan, at).outline.radius(self.cut.root.mm()));
        let (saw, tube) = (saw.diameter.mm() / 2.0, tubes.fold(0.0, f64::max));
        let tube = tube.min(saw);
        Length::from_mm(saw - ((saw - tube) * (saw + tube)).sqrt())
    }

    /// Finding the block with the saw's face, by which heights count; not on a swivelled fixture, no face of which lies square to the
    /// spindle. For this the saw is brought over the block, so that the table stands elsewhere then.
    fn top(self, bench: &mut MachineState) -> Option<Step> {
        let has_height = self.saw.is_some() && !splays(self.cut);
        if !has_height || !bench.finds_top() {
            return None;
        }
        let side = self.pass.work.shop.mill.side_to_spindle;
        let zero = Reading::Length(Length::default());
        Some(self.pass.step(StepKind::TouchTop, Task::TouchTop(side)).on(Scale::Dro(Axis::Z), zero))
    }

    /// Where the table goes: the stop at the root along, the saw's centre into the stay plane across.
    fn places(self, bench: &mut MachineState) -> Step {
        let pass = self.pass;
        let touched = pass.touched(true);
        // In the stay plane the saw's rim reaches furthest, and leaves the root in the stay's middle.
        let height = pass.work.plan.job.fixture.bench.clamp_height;
        let across = pass.after_touch(height);
        let root = self.root();
        bench.is_fed_along();
        if !bench.goes_across(across, pass.work.fineness().across()) {
            return pass.stays(root, touched.way, across);
        }
        let across = pass.across(touched, height, |_| None);
        let task = match (root.task, across.task) {
            (Task::StopAtRoot { motion, .. }, Task::MoveAcross { face, motion: across }) => {
                Task::StopAtRoot { motion, across: Some((face, across)) }
            }
            (other, _) => other,
        };
        Step { task, ..root.then(across) }
    }

    /// The spindle stands half the saw's diameter behind the root.
    fn root(self) -> Step {
        let machine = self.pass.work.machine();
        let way = machine.along();
        let radius = self.saw.map(|(_, saw)| saw.diameter.mm() / 2.0);
        let distance = Length::from_mm(self.mean(|cut| from_zero(cut).mm()) + radius.unwrap_or(0.0));
        let motion = radius.map(|_| machine.seen(way, distance));
        let made = self.pass.step(StepKind::Along, Task::StopAtRoot { motion, across: None });
        let depth = (self.cut.mouth - self.cut.root).mm().abs();
        let edge = self.mean(|cut| cut.dro_along.mm());
        self.pass
            .go(made, way, distance, |left| self.root_off(left))
            .beside(Quantity::EdgeToRoot, Reading::Length(Length::from_mm(edge)))
            .beside(Quantity::SlotDepth, Reading::Length(Length::from_mm(depth)))
    }

    /// What a saw that stops `left` too far to the front does along the stay, to the one that it does most to.
    fn root_off(self, left: Length) -> Option<Effect> {
        let set = self.mean(|cut| from_zero(cut).mm()) - left.mm();
        let slots = self.pass.work.stays().filter_map(|stay| match self.pass.cut_of(stay) {
            Cut::Slot(cut) => Some((set - from_zero(cut).mm()) / cut.angle.radians().cos()),
            _ => None,
        });
        let along = slots.max_by(|a, b| a.abs().total_cmp(&b.abs()))?;
        Some(Effect { along: Length::from_mm(along), ..Effect::default() })
    }

    /// The passes into each stay.
    fn passes(self, way: &WayIn) -> Vec<Step> {
        let middle = [Length::default()];
        let offsets = self.saw.map_or(&middle[..], |(passes, _)| &passes.offsets);
        let mut steps = Vec::new();
        for (stay, hand) in self.pass.work.stays().zip(self.pass.work.hands) {
            let Cut::Slot(cut) = self.pass.cut_of(stay) else { continue };
            let each = offsets.iter().map(|offset| self.height(cut, (*hand, count(offsets.len())), *offset));
            let Some(made) = each.reduce(next_pass) else { continue };
            steps.push(if steps.is_empty() { self.first(made, way) } else { made });
        }
        steps
    }

    fn first(self, step: Step, way: &WayIn) -> Step {
        let made = match self.saw {
            Some((_, saw)) => self.pass.run(step, cutter(saw)),
            None => step,
        };
        way.tell(self.pass.turning(made.caution(Caution::BreakingSaw)))
    }

    /// From the block's touched face to the middle of the saw at the pass; where that cannot be read, from the datum or the centre.
    fn height(self, cut: &SlotCut, (hand, passes): (Hand, u8), offset: Length) -> Step {
        let step = |from| self.pass.step(StepKind::Slot(hand), Task::Slot { hand, passes, from });
        if splays(cut) {
            // On a swivelled fixture no face lies square to the spindle: the height is measured from the datum's point.
            return step(HeightFrom::Datum)
                .figure(Reading::Length(cut.from_datum + offset))
                .beside(Quantity::CentreToSlotAtRear, Reading::Length(cut.from_centre));
        }
        let Some((_, saw)) = self.saw else {
            return step(HeightFrom::CentrePlane).figure(Reading::Length(cut.from_centre));
        };
        let shop = self.pass.work.shop;
        let block = self.pass.work.plan.job.fixture.bench.block_width.mm() / 2.0;
        let middle = shop.mill.side_to_spindle.sign() * hand.sign() * cut.from_centre.mm() + offset.mm();
        let distance = Length::from_mm(middle - block - saw.width.mm() / 2.0);
        let way = Machine::out();
        let motion = self.pass.work.machine().seen(way, distance);
        let off = |left: Length| Effect { offset: Length::from_mm(left.mm().abs()), ..Effect::default() };
        self.pass
            .go(step(HeightFrom::Touch(motion)), way, distance, |left| Some(off(left)))
            .beside(Quantity::CentreToSlot, Reading::Length(cut.from_centre))
    }
}

/// A further pass into the same stay: another height, and nothing else that is new.
fn next_pass(first: Step, mut next: Step) -> Step {
    next.also.clear();
    first.then(next)
}

fn count(passes: usize) -> u8 {
    u8::try_from(passes).unwrap_or(u8::MAX)
}

const fn cutter(saw: &SlittingSaw) -> Cutter {
    Cutter {
        tool: Tool::SlittingSaw,
        diameter: saw.diameter,
        teeth: saw.teeth.number(),
        tooth: ToothMaterial::HighSpeedSteel,
    }
}
