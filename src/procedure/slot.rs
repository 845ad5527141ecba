//! Slotting an end for its dropout plate.

use super::caution::{CHANGE, SLITTING};
use super::clamping::ALIKE;
use super::effect::Effect;
use super::machine::Machine;
use super::pass::Pass;
use super::reading::Reading;
use super::round::{run, swivel};
use super::step::{Scale, Step};
use super::way_in::slot_checked;
use crate::machining::{Cutter, Placed, SlotPasses, Tool, slot_passes};
use crate::model::Hand;
use crate::model::shop::{Axis, SlittingSaw, ToothMaterial};
use crate::plan::SlotCut;
use crate::units::{Length, said};

/// A slot and the saw that cuts it.
#[derive(Clone, Copy)]
struct Slotting<'a> {
    pass: Pass<'a>,
    cut: &'a SlotCut,
    passes: &'a SlotPasses,
    saw: &'a SlittingSaw,
}

pub(super) fn steps(pass: Pass<'_>, cut: &SlotCut) -> Vec<Step> {
    let saws = &pass.work.shop.slitting_saws;
    let found = slot_passes(cut, saws);
    let Some((passes, saw)) = found.as_ref().and_then(|passes| Some((passes, saws.get(passes.saw)?))) else {
        return without_saw(pass, cut);
    };
    let slotting = Slotting { pass, cut, passes, saw };
    let mut steps = vec![slotting.mount()];
    steps.extend(stand(pass, cut));
    steps.extend([slotting.root(), pass.touch_side(true), centre(pass)]);
    steps.extend((!splays(cut)).then(|| slotting.touch_top()));
    for (i, hand) in pass.work.hands.iter().enumerate() {
        for (k, offset) in passes.offsets.iter().enumerate() {
            steps.push(slotting.height(i, *hand, k, *offset));
        }
    }
    steps.push(slotting.slit());
    steps
}

/// Whether the fixture is swivelled for a plate that splays.
fn splays(cut: &SlotCut) -> bool {
    cut.swivel.degrees().abs() >= ALIKE
}

/// Standing the fixture to the spindle and finding its datum.
fn stand(pass: Pass<'_>, cut: &SlotCut) -> Vec<Step> {
    let mut steps = vec![pass.stand()];
    let turned = swivel(pass, cut.swivel, "as it stands on its side");
    steps.extend(turned);
    steps.push(if splays(cut) { point(pass) } else { pass.touch_edge() });
    steps
}

/// An edge that runs aslant to the spindle cannot be touched: a tip is brought over one point of it.
fn point(pass: Pass<'_>) -> Step {
    let way = pass.work.machine().along();
    let on = format!(
        "{} along the fixture, a pointed tip in the spindle; set it to zero there",
        way.scale().name()
    );
    pass.step("touch-edge", "Point at the datum edge where the centre line crosses it", on)
        .on(way.scale(), Reading::Length(Length::default()))
}

/// How far along the table the slot's root lies from where the readout was set to zero.
fn from_zero(cut: &SlotCut) -> Length {
    if splays(cut) { cut.dro_along } else { cut.along_spindle }
}

impl Slotting<'_> {
    fn mount(self) -> Step {
        let on = match self.passes.offsets.len() {
            1 => "width of its cut, measured in scrap; one pass".to_owned(),
            count => format!("width of its cut, measured in scrap; {count} passes, evenly about the middle"),
        };
        let made = self.pass.step("saw", "Mount the slitting saw", on);
        let mut made = made
            .figure(Reading::Length(self.saw.width))
            .beside("Plate", Reading::Length(self.cut.plate))
            .beside("Slot", Reading::Length(self.cut.width))
            .beside("Saw", Reading::Diameter(self.saw.diameter))
            .beside("Slot shallower at the tube's edges by", Reading::Length(self.roundness()))
            .caution(CHANGE);
        if self.passes.room.mm() < 0.0 {
            let short = said(-self.passes.room.mm(), 2);
            made.beyond.push(format!(
                "the saw's collar meets the stay's end {short} mm before the slot is deep enough"
            ));
        }
        made
    }

    /// How much less deep the slot is at the tube's top and bottom than in its middle, since the saw is round.
    fn roundness(self) -> Length {
        let tubes = self
            .pass
            .cuts()
            .map(|at| Placed::new(self.pass.work.plan, at).outline.radius(self.cut.root.mm()));
        let (saw, tube) = (self.saw.diameter.mm() / 2.0, tubes.fold(0.0, f64::max));
        let tube = tube.min(saw);
        Length::from_mm(saw - ((saw - tube) * (saw + tube)).sqrt())
    }

    /// The spindle stands half the saw's diameter behind the root.
    fn root(self) -> Step {
        let way = self.pass.work.machine().along();
        let distance = from_zero(self.cut) + Length::from_mm(self.saw.diameter.mm() / 2.0);
        let on = format!(
            "{} along the fixture, the saw behind the root and fed forwards to here: from the touch the cutter goes {}",
            way.scale().name(),
            self.pass.seen(way, distance)
        );
        let made = self.pass.step("along", "Saw's front edge stops at the root", on);
        self.pass
            .go(made, way, distance, |left| Some(self.root_off(left)))
            .beside("Edge to slot's root", Reading::Length(self.cut.dro_along))
    }

    /// What a saw that stops `left` too far to the front does along the stay.
    fn root_off(self, left: Length) -> Effect {
        let along = self.cut.angle.radians().cos();
        Effect { along: Length::from_mm(-left.mm() / along), ..Effect::default() }
    }

    fn touch_top(self) -> Step {
        let side = self.pass.work.shop.mill.side_to_spindle.key();
        let task = format!("Touch the {side} side of the mounting block with the saw");
        let on = "Z readout, the saw's face just rubbing, spindle still; set it to zero there";
        self.pass.step("touch-top", task, on).on(Scale::Dro(Axis::Z), Reading::Length(Length::default()))
    }

    /// From the block's touched face to the middle of the saw at the pass.
    fn height(self, index: usize, hand: Hand, pass: usize, offset: Length) -> Step {
        let shop = self.pass.work.shop;
        let side = shop.mill.side_to_spindle.sign();
        let block = self.pass.work.plan.job.fixture.bench.block_width.mm() / 2.0;
        let middle = side * hand.sign() * self.cut.from_centre.mm() + offset.mm();
        let distance = Length::from_mm(middle - block - self.saw.width.mm() / 2.0);
        let way = Machine::out();
        let on = format!("Z readout, from the touch {}", self.pass.seen(way, distance));
        let count = self.passes.offsets.len();
        let task = match count {
            1 => format!("Set the saw for the {} stay", hand.key()),
            _ => format!("Set the saw for the {} stay, pass {} of {count}", hand.key(), pass + 1),
        };
        let key = match (index, pass) {
            (0, 0) => "height".to_owned(),
            (0, _) => format!("height-{}", pass + 1),
            (_, 0) => format!("height-{}", hand.key()),
            _ => format!("height-{}-{}", hand.key(), pass + 1),
        };
        if splays(self.cut) {
            return height_over_datum(self.pass, &key, task, self.cut, offset);
        }
        let off = |left: Length| Effect { offset: Length::from_mm(left.mm().abs()), ..Effect::default() };
        let made = self.pass.go(self.pass.step(&key, task, on), way, distance, |left| Some(off(left)));
        made.beside("Centre plane to slot's middle", Reading::Length(self.cut.from_centre))
    }

    fn slit(self) -> Step {
        let cutter = Cutter {
            tool: Tool::SlittingSaw,
            diameter: self.saw.diameter,
            teeth: self.saw.teeth.number(),
            tooth: ToothMaterial::HighSpeedSteel,
        };
        let made = run(self.pass, slit(self.pass, self.cut), cutter);
        slot_checked(self.pass, made, self.passes)
    }
}

/// The saw's centre goes into the stay plane: there its rim reaches furthest, and leaves the root in the stay's middle.
fn centre(pass: Pass<'_>) -> Step {
    let height = pass.work.plan.job.fixture.bench.clamp_height;
    pass.across(pass.face(true), height, height, |_| None)
}

fn slit(pass: Pass<'_>, cut: &SlotCut) -> Step {
    let depth = Length::from_mm((cut.mouth - cut.root).mm().abs());
    let task = if pass.work.hands.len() > 1 { "Slot both rear ends" } else { "Slot the rear end" };
    let made = pass
        .step("cut", task, "at each height, from the open end inwards, table clamped in the other direction")
        .beside("Slot depth along the stay", Reading::Length(depth))
        .checked("the plate slides in by hand and stands square")
        .caution(SLITTING);
    pass.turning(made)
}

/// The steps where no saw on hand will do: the planned figures, to be set from the centre plane.
fn without_saw(pass: Pass<'_>, cut: &SlotCut) -> Vec<Step> {
    let way = pass.work.machine().along();
    let mut mount = pass
        .step(
            "saw",
            "Mount the slitting saw",
            "saw width; a thinner saw takes more passes, evenly about the middle",
        )
        .figure(Reading::Length(cut.width))
        .caution(CHANGE);
    mount
        .beyond
        .push("no slitting saw on hand is as thin as the slot, or only far thinner ones are".to_owned());
    let height = if splays(cut) {
        height_over_datum(pass, "height", "Set the saw's height".to_owned(), cut, Length::default())
    } else {
        let on = "along the spindle, from the centre plane out to the middle of the saw";
        pass.step("height", "Set the saw's height", on).figure(Reading::Length(cut.from_centre))
    };
    let on = format!(
        "{} along the fixture; the saw's centre stands half its diameter further to the rear",
        way.scale().name()
    );
    let root = pass.step("along", "Saw's front edge stops at the root", on);
    let root = pass.go(root, way, from_zero(cut), |_| None);
    let root = root.beside("Edge to slot's root", Reading::Length(cut.dro_along));
    let mut steps = vec![mount];
    steps.extend(stand(pass, cut));
    steps.extend([height, root, pass.touch_side(true), centre(pass), slit(pass, cut)]);
    steps
}

/// On a swivelled fixture no face lies square to the spindle: the saw's height is measured from the datum's point.
fn height_over_datum(pass: Pass<'_>, key: &str, task: String, cut: &SlotCut, offset: Length) -> Step {
    let on = "along the spindle, from that point of the datum edge outboard to the middle of the saw; measured, as no scale shows it";
    pass.step(key, task, on)
        .figure(Reading::Length(cut.from_datum + offset))
        .beside("Centre plane to slot's middle at the rear reference point", Reading::Length(cut.from_centre))
}
