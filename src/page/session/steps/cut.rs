//! Setting the machine for one end and cutting it.

use super::super::reading::{Named, Reading};
use super::{Step, Work, capital, slot};
use staywright::plan::{Cut, EndUp, RoundCut, Stay};
use staywright::quantity::Length;
use staywright::trade::{Hand, TouchSide};

/// Two settings closer than this, in mm or degrees, are one: it is below what the scales show.
pub(super) const ALIKE: f64 = 0.005;

pub(super) const TURNING: &str = "Eye protection on, guards in place. No gloves, loose sleeves, rags or long hair near a \
     turning cutter. The machine's manual and your local rules come first; run it only if you are trained for it.";

/// One end of the stays that are cut in the same setting.
#[derive(Clone, Copy)]
pub(super) struct Pass<'a> {
    pub work: Work<'a>,
    pub at_front: bool,
}

impl<'a> Pass<'a> {
    pub fn cut_of(self, stay: &'a Stay) -> &'a Cut {
        if self.at_front { &stay.front } else { &stay.rear }
    }

    const fn end(self) -> &'static str {
        if self.at_front { "front" } else { "rear" }
    }

    /// `front ends of the chainstays` or `right chainstay, front end`.
    fn title(self) -> String {
        match self.work.hands {
            [_] => format!("{}, {} end", self.work.title(), self.end()),
            _ => format!("{}, {} ends", self.work.title(), self.end()),
        }
    }

    pub fn step(
        self,
        key: &str,
        task: impl Into<String>,
        reading: Option<Reading>,
        set_on: impl Into<String>,
    ) -> Step {
        Step {
            id: format!("{}.{}.{key}", self.work.key(), self.end()),
            part: capital(&self.title()),
            task: task.into(),
            reading,
            set_on: set_on.into(),
            also: Vec::new(),
            caution: None,
        }
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
        Cut::Cope(cut) | Cut::Boss(cut) => round(pass, cut),
        Cut::Slot(cut) => slot::steps(pass, cut),
        Cut::Square(cut) => {
            let from = "from the front reference point along the stay, square to it";
            let mut made = pass.step("cut", "Saw square", Some(Reading::Length(cut.long_point)), from);
            made.caution = Some(TURNING);
            vec![made]
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
                && near(a.from_centre.mm(), b.from_centre.mm())
                && near(a.dro_along.mm(), b.dro_along.mm())
        }
        (Cut::Square(a), Cut::Square(b)) => near(a.long_point.mm(), b.long_point.mm()),
        _ => false,
    }
}

fn round(pass: Pass<'_>, cut: &RoundCut) -> Vec<Step> {
    let mut steps = vec![cutter(pass, cut)];
    steps.extend(tilt(pass, cut));
    steps.push(touch_edge(pass));
    steps.push(along(pass, cut.setting.along_spindle, cut.setting.dro_along, "cutter's axis"));
    steps.push(touch_side(pass, cut.setting.on_side));
    steps.push(across(pass, cut));
    steps.push(saw(pass));
    steps
}

fn cutter(pass: Pass<'_>, cut: &RoundCut) -> Step {
    let on = "measured over the teeth; spindle off and locked while the cutter is changed";
    let mut made = pass.step("cutter", "Mount the hole saw", Some(Reading::Diameter(cut.cutter)), on);
    let pair = pass.work.pair();
    let shared = if pass.at_front { pair.front_saw_depth } else { pair.rear_saw_depth };
    let depth = shared.filter(|_| pass.work.hands.len() > 1).or(cut.saw_depth);
    made.also.extend(depth.map(|depth| Named::new("Must cut through", Reading::Length(depth))));
    made
}

fn tilt(pass: Pass<'_>, cut: &RoundCut) -> Vec<Step> {
    let setting = &cut.setting;
    if setting.on_side {
        let on = "centre plane square to the spindle, base face towards the touched side";
        return vec![pass.step("side", "Stand the fixture", Some(Reading::Word("on its side")), on)];
    }
    let task = match setting.end_up {
        EndUp::Front => "Tilt the fixture, front end up",
        EndUp::Rear => "Tilt the fixture, rear end up",
        EndUp::Level => "Lay the fixture level",
        EndUp::Either => "Stand the fixture upright",
    };
    let on = "gauge zeroed on the table of a vertical mill, then laid along the fixture";
    let mut made = pass.step("tilt", task, Some(Reading::Angle(setting.tilt.complement())), on);
    made.also.push(Named::new("Stay plane to spindle", Reading::Angle(setting.tilt)));
    let mut steps = vec![made];
    if setting.swivel.degrees().abs() >= ALIKE {
        let on = "about the fixture's own normal, after the tilt";
        steps.push(pass.step("swivel", "Swivel the fixture", Some(Reading::Angle(setting.swivel)), on));
    }
    steps
}

pub(super) fn touch_edge(pass: Pass<'_>) -> Step {
    let job = &pass.work.plan.job;
    let from = match job.fixture.touch_from {
        TouchSide::Front => "front",
        TouchSide::Rear => "rear",
    };
    let task = format!("Touch the datum edge from the {from}");
    let on = "table reading along the fixture; set it to zero there";
    let mut made = pass.step("touch-edge", task, Some(Reading::Length(Length::default())), on);
    made.also.push(Named::new("Edge finder", Reading::Diameter(job.touch.edge_finder)));
    made
}

pub(super) fn along(pass: Pass<'_>, spindle: Length, dro: Length, what: &str) -> Step {
    let way = if spindle.mm() < 0.0 { "forwards" } else { "rearwards" };
    let on = format!("table reading along the fixture, {way} from the touch");
    let mut made = pass.step("along", "Move along", Some(Reading::Length(spindle)), on);
    made.also.push(Named::new(format!("Edge to {what}"), Reading::Length(dro)));
    made
}

fn touch_side(pass: Pass<'_>, on_side: bool) -> Step {
    let task = if on_side { "Touch the base face" } else { "Touch the side of the mounting block" };
    let on = "table reading across; set it to zero there";
    let mut made = pass.step("touch-side", task, Some(Reading::Length(Length::default())), on);
    made.also.push(Named::new("Edge finder", Reading::Diameter(pass.work.plan.job.touch.edge_finder)));
    made
}

fn across(pass: Pass<'_>, cut: &RoundCut) -> Step {
    let from = if cut.setting.on_side { "the base face" } else { "the touched side" };
    let on = format!("table reading across, over {from} towards the fixture");
    let mut made = pass.step("across", "Move across", Some(Reading::Length(cut.setting.across_spindle)), on);
    let name = format!("{} to cutter's axis", capital(from));
    made.also.push(Named::new(name, Reading::Length(cut.setting.dro_across)));
    made
}

fn saw(pass: Pass<'_>) -> Step {
    let (ends, on) = match pass.work.hands {
        [_] => ("end", "table clamped; feed slowly, let the saw cut"),
        _ => ("ends", "table clamped; one pass through both stays, feed slowly"),
    };
    let mut made = pass.step("cut", format!("Cut the {} {ends}", pass.end()), None, on);
    made.caution = Some(TURNING);
    made
}
