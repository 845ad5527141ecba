//! One end of the stays that are cut in the same setting.

use super::alike::{Fineness, mean};
use super::beside::Quantity;
use super::caution::{self, Caution};
use super::effect::{Axled, Effect, effect};
use super::key::{Phase, StepKind};
use super::machine::Way;
use super::machine_state::{FixtureStand, MachineState};
use super::problem::{Problem, Turned};
use super::reading::Reading;
use super::step::{Scale, Step};
use super::task::{Face, Task, Turn};
use super::{Work, round, slot};
use crate::machining::{Cutter, running};
use crate::model::Hand;
use crate::model::shop::Shop;
use crate::plan::{Cut, CutAt, Plan, Setting, Stay};
use crate::units::{Angle, Length};

/// Two readings closer than this, mm or degrees, are one: it is below what is written.
pub(super) const ALIKE: f64 = 0.005;

/// One end of the stays that are cut in the same setting.
#[derive(Clone, Copy)]
pub(super) struct Pass<'a> {
    pub(super) work: Work<'a>,
    pub(super) at_front: bool,
}

/// A face that is touched across the fixture, and the way from it towards the fixture.
#[derive(Clone, Copy)]
pub(super) struct Touched {
    pub(super) face: Face,
    pub(super) way: Way,
}

impl Touched {
    /// Whether it is the one that the plan counts from: the base face, or the block's left side.
    pub(super) const fn is_plans_own(self) -> bool {
        !matches!(self.face, Face::Block(Hand::Right))
    }
}

impl<'a> Pass<'a> {
    pub(super) const fn cut_of(self, stay: &'a Stay) -> &'a Cut {
        if self.at_front { &stay.front } else { &stay.rear }
    }

    pub(super) fn cuts(self) -> impl Iterator<Item = CutAt> + 'a {
        self.work.cuts(self.at_front)
    }

    pub(super) fn step(self, kind: StepKind, task: Task) -> Step {
        let phase = if self.at_front { Phase::Front } else { Phase::Rear };
        Step::new(self.work.key(phase, kind), task)
    }

    /// Standing the fixture on its side, turned by `swivel`; nothing where it stands so.
    pub(super) fn on_side(self, bench: &mut MachineState, swivel: Angle) -> Vec<Step> {
        let mill = &self.work.shop.mill;
        if !bench.stands(FixtureStand::OnSide { side: mill.side_to_spindle, swivel }) {
            return Vec::new();
        }
        let task = Task::StandOnSide { side: mill.side_to_spindle, mounting: mill.mounting };
        let mut steps = vec![self.step(StepKind::OnSide, task)];
        steps.extend(self.swivel(swivel, true));
        steps
    }

    /// Turning the fixture about its own normal; `None` where it stands straight.
    pub(super) fn swivel(self, swivel: Angle, is_on_side: bool) -> Option<Step> {
        if swivel.degrees().abs() < ALIKE {
            return None;
        }
        let fixture = &self.work.shop.fixture;
        let shown = fixture.swivel.shows(swivel);
        let turn = if swivel.degrees() < 0.0 { Turn::CounterClockwise } else { Turn::Clockwise };
        let size = Angle::from_degrees(swivel.degrees().abs());
        let most = fixture.limits.swivel_max;
        let made = self
            .step(StepKind::Swivel, Task::Swivel { turn, is_on_side })
            .on(Scale::Swivel, Reading::Angle(shown.reading))
            .rounded(Reading::Angle(shown.division), Reading::Angle(shown.remainder), None)
            .with(Problem::of_turn(Turned::Swivel, size, Angle::default(), most));
        Some(made)
    }

    /// Finding the datum edge and the face across; nothing where both readouts still count from there.
    pub(super) fn corner(self, bench: &mut MachineState, on_side: bool) -> Option<Step> {
        let Touched { face, way } = self.touched(on_side);
        let along = self.work.machine().along();
        let job = &self.work.plan.job;
        let task =
            Task::TouchCorner { from: job.fixture.touch_from, along: along.axis, face, across: way.axis };
        bench.finds(face).then(|| {
            self.step(StepKind::TouchEdge, task)
                .on(along.scale(), Reading::Length(Length::default()))
                .beside(Quantity::EdgeFinder, Reading::Diameter(job.touch.edge_finder))
        })
    }

    /// The face that is touched across the fixture, and the way from it towards the fixture.
    pub(super) fn touched(self, on_side: bool) -> Touched {
        let way = self.work.machine().across(on_side);
        match (on_side, self.work.shop.mill.block_side) {
            (true, _) => Touched { face: Face::Base, way },
            (_, Hand::Left) => Touched { face: Face::Block(Hand::Left), way },
            (_, Hand::Right) => Touched { face: Face::Block(Hand::Right), way: way.turned(-1.0) },
        }
    }

    /// Taking the dummy axle out; nothing where nothing would meet it, or where it is out.
    pub(super) fn axle_out(self, bench: &mut MachineState, meets_axle: bool) -> Option<Step> {
        (meets_axle && bench.takes_axle_out()).then(|| self.step(StepKind::AxleOut, Task::TakeAxleOut))
    }

    /// How far the spindle goes from where it touched a face until its axis lies `from_face` from it.
    pub(super) fn after_touch(self, from_face: Length) -> Length {
        from_face + Length::from_mm(self.work.plan.job.touch.edge_finder.mm() / 2.0)
    }

    /// Moving across from a touched face until the axis lies `from_face` from it.
    pub(super) fn across(
        self,
        touched: Touched,
        from_face: Length,
        effect_of: impl Fn(Length) -> Option<Effect>,
    ) -> Step {
        let distance = self.after_touch(from_face);
        let motion = self.work.machine().seen(touched.way, distance);
        let made = self.step(StepKind::Across, Task::MoveAcross { face: touched.face, motion });
        self.go(made, touched.way, distance, effect_of)
            .beside(Quantity::FaceToAxis(touched.face), Reading::Length(from_face))
    }

    /// A readout that is left as it stands, `distance` from where it was set to zero.
    pub(super) fn stays(self, step: Step, way: Way, distance: Length) -> Step {
        let shown = self.work.machine().shows(way, distance);
        step.beside(Quantity::Stays(way.axis), Reading::Length(shown.reading))
    }

    /// Moving the cutter by `distance` from where a readout was set to zero, `way` being the positive one.
    pub(super) fn go(
        self,
        step: Step,
        way: Way,
        distance: Length,
        effect_of: impl Fn(Length) -> Option<Effect>,
    ) -> Step {
        let shown = self.work.machine().shows(way, distance);
        step.on(way.scale(), Reading::Length(shown.reading)).rounded(
            Reading::Length(shown.division),
            Reading::Length(shown.remainder),
            effect_of(shown.remainder),
        )
    }

    /// What the mean of a figure over the cuts of this pass is, mm or degrees.
    pub(super) fn mean(self, of: impl Fn(&Cut) -> f64) -> f64 {
        mean(self.work.stays().map(|stay| of(self.cut_of(stay))))
    }

    /// What it does to this pass, whose cuts each want their axis `by` such a way from the planned one, that a figure is changed.
    pub(super) fn effect(
        self,
        setting: &Setting,
        by: (Length, Length),
        change: impl Fn(Axled) -> Axled,
    ) -> Option<Effect> {
        let plan = self.work.plan;
        let wanted = self.cuts().filter_map(|at| {
            let own = Axled::of(&at.cut(plan).round()?.setting);
            Some((at, Axled { along: own.along + by.0, across: own.across + by.1, ..own }))
        });
        effect(plan, wanted, setting, change)
    }

    /// A step at which the cutter turns.
    pub(super) fn turning(self, step: Step) -> Step {
        let mut step = step.caution(Caution::TurningCutter);
        step.cautions.extend(caution::of_metal(self.work.shop.metal));
        step
    }

    /// Adds speed and feed to the step at which a cutter turns.
    pub(super) fn run(self, mut step: Step, cutter: Cutter) -> Step {
        let run = running(self.work.shop, self.work.shop.metal, cutter);
        if let Some(set) = run.set {
            step = step.beside(Quantity::Spindle, Reading::Speed(set));
        }
        if let Some(feed) = run.feed.filter(|_| cutter.teeth > 0.0) {
            step = step.beside(Quantity::Feed, Reading::Feed(feed));
        }
        step.with(run.too_fast.map(|times| Problem::TooFast { wanted: run.wanted, times }))
    }
}

/// The cuts that are done in the same setting as the one at `at`, that one among them, the right side first.
pub fn together(plan: &Plan, shop: &Shop, at: CutAt) -> Vec<CutAt> {
    let [right, left] = Hand::ALL.map(|hand| CutAt { hand, ..at });
    if plan.pair(at.pair).one_plane && (Fineness { shop }).alike(right.cut(plan), left.cut(plan)) {
        vec![right, left]
    } else {
        vec![at]
    }
}

pub(super) fn steps(work: Work<'_>, at_front: bool, bench: &mut MachineState) -> Vec<Step> {
    let whole = Pass { work, at_front };
    let cuts: Vec<_> = work.stays().map(|stay| whole.cut_of(stay)).collect();
    let fineness = work.fineness();
    if cuts.windows(2).all(|two| matches!(two, [a, b] if fineness.alike(a, b))) {
        return pass_steps(whole, bench);
    }
    let mut steps = Vec::new();
    for hand in work.hands {
        let one = Pass { work: Work { hands: std::slice::from_ref(hand), ..work }, at_front };
        steps.extend(pass_steps(one, bench));
    }
    steps
}

fn pass_steps(pass: Pass<'_>, bench: &mut MachineState) -> Vec<Step> {
    let Some(stay) = pass.work.stays().next() else { return Vec::new() };
    match pass.cut_of(stay) {
        Cut::Cope(cut) | Cut::Boss(cut) => round::steps(pass, cut, bench),
        Cut::Slot(cut) => slot::steps(pass, cut, bench),
        Cut::Square(_) => vec![square(pass)],
    }
}

/// Where the stay ends, from the front reference point along it.
fn square(pass: Pass<'_>) -> Step {
    let end = pass.mean(|cut| match cut {
        Cut::Square(cut) => cut.long_point.mm(),
        _ => 0.0,
    });
    let made = pass.step(StepKind::Cut, Task::SawSquare).figure(Reading::Length(Length::from_mm(end)));
    pass.turning(made)
}
