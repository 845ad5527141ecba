//! One end of the stays that are cut in the same setting.

use super::clamping::ALIKE;
use super::effect::{Axled, Effect, effect};
use super::machine::Way;
use super::reading::Reading;
use super::step::Step;
use super::{Work, caution, round, slot};
use crate::model::capital;
use crate::model::{Hand, TouchSide};
use crate::plan::{Cut, CutAt, Plan, Setting, Stay};
use crate::units::Length;

/// One end of the stays that are cut in the same setting.
#[derive(Clone, Copy)]
pub(super) struct Pass<'a> {
    pub(super) work: Work<'a>,
    pub(super) at_front: bool,
}

/// A face that is touched across the fixture.
#[derive(Clone, Copy)]
pub(super) struct Face {
    name: &'static str,
    way: Way,
    /// Whether it is the one that the plan counts from: the base face, or the block's left side.
    pub(super) from_left: bool,
}

impl<'a> Pass<'a> {
    pub(super) const fn cut_of(self, stay: &'a Stay) -> &'a Cut {
        if self.at_front { &stay.front } else { &stay.rear }
    }

    pub(super) fn cuts(self) -> impl Iterator<Item = CutAt> + 'a {
        self.work.cuts(self.at_front)
    }

    pub(super) const fn end(self) -> &'static str {
        if self.at_front { "front" } else { "rear" }
    }

    /// `chainstays, front ends` or `right chainstay, front end`.
    fn title(self) -> String {
        match self.work.hands {
            [_] => format!("{}, {} end", self.work.title(), self.end()),
            _ => format!("{}, {} ends", self.work.title(), self.end()),
        }
    }

    pub(super) fn step(self, key: &str, task: impl Into<String>, set_on: impl Into<String>) -> Step {
        let id = format!("{}.{}.{key}", self.work.key(), self.end());
        Step::new(id, capital(&self.title()), task, set_on)
    }

    /// Standing the fixture on its side.
    pub(super) fn stand(self) -> Step {
        let mill = &self.work.shop.mill;
        let side = mill.side_to_spindle.key();
        let task = format!("Stand the fixture, {side} side to the spindle");
        let on = format!(
            "centre plane square to the spindle, base face towards the touched side, {}",
            mill.mounting.name()
        );
        self.step("side", task, on)
            .figure(Reading::Word("on its side"))
            .checked("run an indicator along the side of the mounting block, both ways")
    }

    pub(super) fn touch_edge(self) -> Step {
        let job = &self.work.plan.job;
        let from = match job.fixture.touch_from {
            TouchSide::Front => "front",
            TouchSide::Rear => "rear",
        };
        let way = self.work.machine().along();
        let on = format!("{} along the fixture; set it to zero there", way.scale().name());
        self.step("touch-edge", format!("Touch the datum edge from the {from}"), on)
            .on(way.scale(), Reading::Length(Length::default()))
            .beside("Edge finder", Reading::Diameter(job.touch.edge_finder))
    }

    /// The face that is touched across the fixture, and the way from it towards the fixture.
    pub(super) fn face(self, on_side: bool) -> Face {
        let way = self.work.machine().across(on_side);
        match (on_side, self.work.shop.mill.block_side) {
            (true, _) => Face { name: "the base face", way, from_left: true },
            (_, Hand::Left) => Face { name: "the left side of the mounting block", way, from_left: true },
            (_, Hand::Right) => {
                Face { name: "the right side of the mounting block", way: way.turned(-1.0), from_left: false }
            }
        }
    }

    pub(super) fn touch_side(self, on_side: bool) -> Step {
        let face = self.face(on_side);
        let on = format!("{} across the fixture; set it to zero there", face.way.scale().name());
        self.step("touch-side", format!("Touch {}", face.name), on)
            .on(face.way.scale(), Reading::Length(Length::default()))
            .beside("Edge finder", Reading::Diameter(self.work.plan.job.touch.edge_finder))
    }

    /// Moving across from a touched face until the axis lies `from_face` from it; the plan has it at `planned`.
    pub(super) fn across(
        self,
        face: Face,
        from_face: Length,
        planned: Length,
        effect_of: impl Fn(Length) -> Option<Effect>,
    ) -> Step {
        let finder = Length::from_mm(self.work.plan.job.touch.edge_finder.mm() / 2.0);
        let distance = from_face + finder;
        let on = format!(
            "{} across the fixture, over {} towards the fixture: the cutter goes {}",
            face.way.scale().name(),
            face.name,
            self.seen(face.way, distance)
        );
        let made = self.go(self.step("across", "Move across", on), face.way, distance, effect_of);
        let made =
            made.beside(format!("{} to cutter's axis", capital(face.name)), Reading::Length(from_face));
        self.planned(made, face.way, planned + finder, distance)
    }

    /// Beside a reading that is another one because of the chosen saw, the one that the plan has, and why.
    pub(super) fn planned(self, step: Step, way: Way, planned: Length, distance: Length) -> Step {
        if (distance - planned).mm().abs() < ALIKE {
            return step;
        }
        let shown = self.work.machine().shows(way, planned);
        step.beside(
            "Planned; moved because the stay goes in further with this saw",
            Reading::Length(shown.reading),
        )
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

    /// How the cutter is seen to go `distance`.
    pub(super) fn seen(self, way: Way, distance: Length) -> &'static str {
        self.work.machine().words(way.turned(if distance.mm() < 0.0 { -1.0 } else { 1.0 }))
    }

    /// What it does to this pass that the axis is set otherwise than wanted.
    pub(super) fn effect(self, setting: &Setting, wanted: Axled, set: Axled) -> Option<Effect> {
        effect(self.work.plan, self.cuts(), setting, wanted, set)
    }

    /// A step at which the cutter turns.
    pub(super) fn turning(self, step: Step) -> Step {
        let mut step = step.caution(caution::TURNING);
        step.cautions.extend(caution::of_metal(self.work.shop.metal));
        step
    }
}

/// The cuts that are done in the same setting as the one at `at`, that one among them, the right side first.
pub fn together(plan: &Plan, at: CutAt) -> Vec<CutAt> {
    let [right, left] = Hand::ALL.map(|hand| CutAt { hand, ..at });
    if plan.pair(at.pair).one_plane && alike(right.cut(plan), left.cut(plan)) {
        vec![right, left]
    } else {
        vec![at]
    }
}

pub(super) fn steps(work: Work<'_>, at_front: bool) -> Vec<Step> {
    let whole = Pass { work, at_front };
    let cuts: Vec<_> = work.stays().map(|stay| whole.cut_of(stay)).collect();
    let together = cuts.windows(2).all(|two| matches!(two, [a, b] if alike(a, b)));
    if together {
        return pass_steps(whole);
    }
    let one = |hand: &'_ Hand| {
        pass_steps(Pass { work: Work { hands: std::slice::from_ref(hand), ..work }, at_front })
    };
    work.hands.iter().flat_map(one).collect()
}

fn pass_steps(pass: Pass<'_>) -> Vec<Step> {
    let Some(stay) = pass.work.stays().next() else { return Vec::new() };
    match pass.cut_of(stay) {
        Cut::Cope(cut) | Cut::Boss(cut) => round::steps(pass, cut),
        Cut::Slot(cut) => slot::steps(pass, cut),
        Cut::Square(cut) => {
            let from = "from the front reference point along the stay, square to it";
            let made = pass.step("cut", "Saw square", from).figure(Reading::Length(cut.long_point));
            vec![pass.turning(made)]
        }
    }
}

/// Whether the two ends are cut without setting anything anew.
fn alike(a: &Cut, b: &Cut) -> bool {
    let near = |x: f64, y: f64| (x - y).abs() < ALIKE;
    match (a, b) {
        (Cut::Cope(a), Cut::Cope(b)) | (Cut::Boss(a), Cut::Boss(b)) => {
            near(a.cutter.mm(), b.cutter.mm())
                && a.setting.on_side == b.setting.on_side
                && near(a.setting.tilt.degrees(), b.setting.tilt.degrees())
                && near(a.setting.swivel.degrees(), b.setting.swivel.degrees())
                && near(a.setting.dro_along.mm(), b.setting.dro_along.mm())
                && near(a.setting.dro_across.mm(), b.setting.dro_across.mm())
        }
        (Cut::Slot(a), Cut::Slot(b)) => {
            near(a.plate.mm(), b.plate.mm())
                && near(a.width.mm(), b.width.mm())
                && near(a.swivel.degrees(), b.swivel.degrees())
                && near(a.from_centre.mm(), b.from_centre.mm())
                && near(a.dro_along.mm(), b.dro_along.mm())
        }
        (Cut::Square(a), Cut::Square(b)) => near(a.long_point.mm(), b.long_point.mm()),
        _ => false,
    }
}
