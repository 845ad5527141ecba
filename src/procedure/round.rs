//! Setting the machine for a round cut and cutting it.

use super::beside::Quantity;
use super::caution::Caution;
use super::effect::Axled;
use super::key::{StepKey, StepKind};
use super::machine::Way;
use super::machine_state::{FixtureStand, MachineState, Mounted};
use super::pass::{ALIKE, Pass, Touched};
use super::problem::{Problem, Turned};
use super::reading::Reading;
use super::step::{Scale, Step};
use super::task::{CutPart, Task};
use super::way_in::{self, WayIn};
use crate::machining::{Candidate, Cutter, Tool};
use crate::model::shop::{HoleSaw, ToothMaterial};
use crate::plan::{Cut, RoundCut, Setting};
use crate::units::{Angle, Length};

/// A round cut of a pass, and the saw that was chosen for it.
#[derive(Clone, Copy)]
struct Round<'a> {
    pass: Pass<'a>,
    /// The first stay's cut; what is set is the mean of all of them.
    cut: &'a RoundCut,
    saw: Option<(&'a Candidate, &'a HoleSaw)>,
}

pub(super) fn steps(pass: Pass<'_>, cut: &RoundCut, bench: &mut MachineState) -> Vec<Step> {
    let round = Round { pass, cut, saw: chosen(pass) };
    let way = round
        .saw
        .map_or_else(WayIn::default, |(candidate, saw)| way_in::of_hole_saw(pass, candidate.diameter, saw));
    let mut steps = round.stand(bench);
    steps.extend(pass.corner(bench, cut.setting.on_side));
    steps.extend(pass.axle_out(bench, way.meets_axle));
    steps.extend(bench.mounts(Mounted::HoleSaw(round.diameter())).then(|| round.mount()));
    let (moves, left) = round.moves(bench);
    steps.extend(moves);
    steps.extend(round.cuts(&way, &left));
    steps
}

/// The saw that was chosen for a pass, and its figures.
fn chosen(pass: Pass<'_>) -> Option<(&Candidate, &HoleSaw)> {
    let at = pass.cuts().next()?;
    let candidate = pass.work.tools.saw(at)?;
    Some((candidate, pass.work.shop.hole_saws.get(candidate.saw)?))
}

/// A figure of a round cut's setting; 0 of another cut.
fn of_setting(of: impl Fn(&Setting) -> f64) -> impl Fn(&Cut) -> f64 {
    move |cut| cut.round().map_or(0.0, |cut| of(&cut.setting))
}

impl<'a> Round<'a> {
    fn diameter(self) -> Length {
        self.saw.map_or(self.cut.cutter, |(candidate, _)| candidate.diameter)
    }

    fn mount(self) -> Step {
        let pass = self.pass;
        let task = Task::MountHoleSaw { is_measured: self.saw.is_none_or(|(saw, _)| saw.measured) };
        let made = pass
            .step(StepKind::HoleSaw, task)
            .figure(Reading::Diameter(self.diameter()))
            .caution(Caution::CutterChange);
        let made = match self.depth() {
            Some(depth) => made.beside(Quantity::CutThrough, Reading::Length(depth)),
            None => made,
        };
        match self.saw {
            Some((candidate, _)) => fit(made, candidate),
            None => made.with(self.no_saw()),
        }
    }

    /// How deep the saw must cut: through both stays where both are cut in one go.
    fn depth(self) -> Option<Length> {
        let pair = self.pass.work.pair();
        let shared = if self.pass.at_front { pair.front_saw_depth } else { pair.rear_saw_depth };
        shared.filter(|_| self.pass.work.hands.len() > 1).or(self.cut.saw_depth)
    }

    fn no_saw(self) -> Option<Problem> {
        let tools = self.pass.work.tools;
        if !tools.is_known() {
            return Some(Problem::SawsUnknown);
        }
        let nearest = tools.nearest(self.pass.cuts().next()?);
        Some(Problem::NoHoleSaw { planned: self.cut.cutter, nearest })
    }

    /// Standing the fixture to the spindle; nothing where it stands so.
    fn stand(self, bench: &mut MachineState) -> Vec<Step> {
        let (pass, setting) = (self.pass, &self.cut.setting);
        if setting.on_side {
            return pass.on_side(bench, Angle::default());
        }
        let swivel = Angle::from_degrees(pass.mean(of_setting(|setting| setting.swivel.degrees())));
        let tilt = self.planned().tilt.complement();
        if !bench.stands(FixtureStand::Tilted { end_up: setting.end_up, tilt, swivel }) {
            return Vec::new();
        }
        let mut steps = vec![self.gauge(tilt)];
        steps.extend(pass.swivel(swivel, false));
        steps
    }

    /// Tilting the fixture by a gauge, which shows what the angle between stay plane and spindle leaves to 90°.
    fn gauge(self, tilt: Angle) -> Step {
        let (pass, setting, shop) = (self.pass, &self.cut.setting, self.pass.work.shop);
        let shown = shop.fixture.tilt.shows(tilt);
        let limits = &shop.fixture.limits;
        let set = shown.as_set.complement();
        let effect = pass.effect(setting, self.moved(), |own| Axled { tilt: set, ..own });
        let task = Task::Tilt { end_up: setting.end_up, spindle: shop.mill.spindle };
        pass.step(StepKind::Tilt, task)
            .on(Scale::Tilt, Reading::Angle(shown.reading))
            .rounded(Reading::Angle(shown.division), Reading::Angle(shown.remainder), effect)
            .beside(Quantity::PlaneToSpindle, Reading::Angle(tilt.complement()))
            .with(Problem::of_turn(Turned::Tilt, tilt, limits.tilt_min, limits.tilt_max))
    }

    /// Where the cutter's axis belongs as planned, in the middle between what the cuts of the pass want.
    fn planned(self) -> Axled {
        let mean = |of: fn(&Setting) -> f64| self.pass.mean(of_setting(of));
        Axled {
            tilt: Angle::from_degrees(mean(|setting| setting.tilt.degrees())),
            along: Length::from_mm(mean(|setting| setting.dro_along.mm())),
            across: Length::from_mm(mean(|setting| setting.dro_across.mm())),
        }
    }

    /// How far the cutter's axis is set from where the plan has it, along and across, so that with the chosen saw the stay comes
    /// out as long as planned. Where both stays are cut in one pass it can only go along.
    fn moved(self) -> (Length, Length) {
        let by = self.saw.and_then(|(saw, _)| saw.shift?.in_pass(self.pass.work.hands.len() > 1));
        by.filter(|(along, across)| along.mm().abs().max(across.mm().abs()) >= ALIKE).unwrap_or_default()
    }

    /// The two moves of the table, and the axes that stay as they are, each with how far it stands from its zero.
    fn moves(self, bench: &mut MachineState) -> (Vec<Step>, Vec<(Way, Length)>) {
        let (way, along) = self.along_way();
        let touched = self.pass.touched(self.cut.setting.on_side);
        let across = self.pass.after_touch(self.off_face(touched, self.wanted().across));
        match (bench.goes_along(along), bench.goes_across(across, 0.0)) {
            (true, true) => (vec![both(self.along(way, along), self.across(touched))], Vec::new()),
            (true, false) => (vec![self.along(way, along)], vec![(touched.way, across)]),
            (false, true) => (vec![self.across(touched)], vec![(way, along)]),
            (false, false) => (Vec::new(), vec![(way, along), (touched.way, across)]),
        }
    }

    /// Where the cutter's axis is wanted with the chosen saw.
    fn wanted(self) -> Axled {
        let (planned, (along, across)) = (self.planned(), self.moved());
        Axled { along: planned.along + along, across: planned.across + across, ..planned }
    }

    /// How far the spindle goes along from the touch.
    fn along_way(self) -> (Way, Length) {
        let setting = &self.cut.setting;
        let tip = setting.along_spindle - setting.dro_along;
        (self.pass.work.machine().along(), self.wanted().along + tip)
    }

    fn along(self, way: Way, distance: Length) -> Step {
        let (pass, wanted) = (self.pass, self.wanted());
        let effect = |left: Length| {
            let along = wanted.along - left;
            pass.effect(&self.cut.setting, self.moved(), |own| Axled { along, ..own })
        };
        let motion = pass.work.machine().seen(way, distance);
        let task = Task::MoveAlong { is_rearwards: distance.mm() >= 0.0, motion };
        let made = pass
            .go(pass.step(StepKind::Along, task), way, distance, effect)
            .beside(Quantity::EdgeToAxis, Reading::Length(wanted.along));
        self.if_planned(made, way, distance - self.moved().0, distance)
    }

    /// The plan counts from the block's left side; from its right side it is the rest of the block's width.
    fn off_face(self, touched: Touched, across: Length) -> Length {
        let width = self.pass.work.plan.job.fixture.bench.block_width;
        if touched.is_plans_own() { across } else { width - across }
    }

    fn across(self, touched: Touched) -> Step {
        let (pass, wanted) = (self.pass, self.wanted());
        let sign = if touched.is_plans_own() { 1.0 } else { -1.0 };
        let effect = |left: Length| {
            let across = wanted.across - Length::from_mm(sign * left.mm());
            pass.effect(&self.cut.setting, self.moved(), |own| Axled { across, ..own })
        };
        let from_face = self.off_face(touched, wanted.across);
        let planned = self.off_face(touched, self.planned().across);
        let made = pass.across(touched, from_face, effect);
        self.if_planned(made, touched.way, pass.after_touch(planned), pass.after_touch(from_face))
    }

    /// Beside a reading that is another one because of the chosen saw, the one that the plan has, and why.
    fn if_planned(self, step: Step, way: Way, planned: Length, distance: Length) -> Step {
        let push = self.saw.and_then(|(saw, _)| saw.push);
        let Some(goes_in) = push.filter(|_| (distance - planned).mm().abs() >= ALIKE) else { return step };
        let shown = self.pass.work.machine().shows(way, planned);
        step.beside(Quantity::Planned { axis: way.axis, goes_in }, Reading::Length(shown.reading))
    }

    /// The cut and its slug; in two goes where the saw does not hold the slugs of both stays.
    fn cuts(self, way: &WayIn, left: &[(Way, Length)]) -> Vec<Step> {
        let is_alone = self.pass.work.hands.len() == 1;
        let (first, second) = (CutPart::First, CutPart::Second);
        let parts: &[(StepKind, CutPart, StepKind)] = match (is_alone, way.is_shallow_for_both) {
            (true, _) => &[(StepKind::Cut, CutPart::One, StepKind::Slug)],
            (false, false) => &[(StepKind::Cut, CutPart::Both, StepKind::Slug)],
            (false, true) => {
                &[(StepKind::FirstCut, first, StepKind::FirstSlug), (StepKind::Cut, second, StepKind::Slug)]
            }
        };
        let mut steps = Vec::new();
        for (i, (kind, part, slug)) in parts.iter().enumerate() {
            let cut = self.pass.step(*kind, Task::Cut { part: *part });
            steps.push(if i == 0 { self.first(cut, way, left) } else { self.running(cut) });
            steps.push(
                self.pass
                    .step(*slug, Task::ClearSlug { takes_saw_out: false })
                    .caution(Caution::CutterChange),
            );
        }
        steps
    }

    fn first(self, cut: Step, way: &WayIn, left: &[(Way, Length)]) -> Step {
        let cut = way.tell(self.running(cut));
        left.iter().fold(cut, |cut, (way, distance)| self.pass.stays(cut, *way, *distance))
    }

    /// Of a saw that is not chosen yet only the planned diameter is known, which is enough for its speed.
    fn running(self, step: Step) -> Step {
        let tooth = ToothMaterial::HighSpeedSteel;
        let (teeth, tooth) = self.saw.map_or((0.0, tooth), |(_, saw)| (saw.size.teeth.number(), saw.tooth));
        let cutter = Cutter { tool: Tool::HoleSaw, diameter: self.diameter(), teeth, tooth };
        self.pass.turning(self.pass.run(step, cutter))
    }
}

/// Both moves of the table as one: the cutter goes to a point.
fn both(along: Step, across: Step) -> Step {
    let task = match (along.task, across.task) {
        (Task::MoveAlong { is_rearwards, motion: along }, Task::MoveAcross { face, motion: across }) => {
            Task::Move { is_rearwards, along, face, across }
        }
        (other, _) => other,
    };
    let key = StepKey { kind: StepKind::Move, ..along.key };
    Step { key, task, ..along.then(across) }
}

/// What gap a saw leaves, and where the stay comes to lie with it.
fn fit(made: Step, candidate: &Candidate) -> Step {
    let made = match candidate.gap {
        Some(gap) => made.beside(Quantity::SawGap, Reading::Length(gap)),
        None => made,
    };
    match candidate.push {
        Some(push) if push.mm() < 0.0 => {
            made.beside(Quantity::StandsOff, Reading::Length(Length::from_mm(-push.mm())))
        }
        Some(push) => made.beside(Quantity::GoesIn, Reading::Length(push)),
        None => made,
    }
}
