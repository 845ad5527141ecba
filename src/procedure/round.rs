//! Setting the machine for a round cut and cutting it.

use super::caution::CHANGE;
use super::clamping::ALIKE;
use super::effect::Axled;
use super::pass::Pass;
use super::reading::Reading;
use super::step::{Scale, Step};
use super::way_in;
use crate::machining::{Candidate, Cutter, Tool, running};
use crate::model::shop::{HoleSaw, SpindleWay, ToothMaterial};
use crate::plan::{EndUp, RoundCut, Setting};
use crate::units::{Angle, Length, said};

/// Why the front ends are cut before the rear ends.
const FRONT_FIRST: &str = "the front ends hang from the front datum line, where the tubes are marked; the rear ends follow \
                           in the same clamping";

pub(super) fn steps(pass: Pass<'_>, cut: &RoundCut) -> Vec<Step> {
    let mut steps = vec![cutter(pass, cut)];
    steps.extend(tilt(pass, cut));
    steps.push(pass.touch_edge());
    steps.push(along(pass, cut));
    steps.push(pass.touch_side(cut.setting.on_side));
    steps.push(across(pass, cut));
    steps.push(saw(pass));
    steps
}

/// The saw that was chosen for this pass, and its figures.
fn chosen(pass: Pass<'_>) -> Option<(&Candidate, &HoleSaw)> {
    let at = pass.cuts().next()?;
    let candidate = pass.work.tools.saw(at)?;
    Some((candidate, pass.work.shop.hole_saws.get(candidate.saw)?))
}

fn cutter(pass: Pass<'_>, cut: &RoundCut) -> Step {
    let on = "measured over the teeth; spindle off and locked while the cutter is changed";
    let chosen = chosen(pass);
    let diameter = chosen.map_or(cut.cutter, |(candidate, _)| candidate.diameter);
    let mut made =
        pass.step("cutter", "Mount the hole saw", on).figure(Reading::Diameter(diameter)).caution(CHANGE);
    if pass.at_front {
        made.why = Some(FRONT_FIRST);
    }
    let pair = pass.work.pair();
    let shared = if pass.at_front { pair.front_saw_depth } else { pair.rear_saw_depth };
    let depth = shared.filter(|_| pass.work.hands.len() > 1).or(cut.saw_depth);
    if let Some(depth) = depth {
        made = made.beside("Must cut through", Reading::Length(depth));
    }
    if let Some((candidate, _)) = chosen {
        let figures = [("Gap with this saw", candidate.gap), ("Stay goes in by", candidate.push)];
        for (name, figure) in figures {
            if let Some(figure) = figure {
                made = made.beside(name, Reading::Length(figure));
            }
        }
        if !candidate.measured {
            made.check = Some("this saw has not been measured: cut a scrap of tube and measure the cope");
        }
    }
    made
}

fn tilt(pass: Pass<'_>, cut: &RoundCut) -> Vec<Step> {
    let setting = &cut.setting;
    if setting.on_side {
        return vec![pass.stand()];
    }
    let task = match setting.end_up {
        EndUp::Front => "Tilt the fixture, front end up",
        EndUp::Rear => "Tilt the fixture, rear end up",
        EndUp::Level => "Lay the fixture level",
        EndUp::Either => "Stand the fixture upright, front end up",
    };
    let mut steps = vec![gauge(pass, cut, task)];
    steps.extend(swivel(pass, setting.swivel, "after the tilt"));
    steps
}

/// Turning the fixture about its own normal; `None` where it stands straight.
pub(super) fn swivel(pass: Pass<'_>, swivel: Angle, after: &str) -> Option<Step> {
    if swivel.degrees().abs() < ALIKE {
        return None;
    }
    let shown = pass.work.shop.fixture.swivel.shows(swivel);
    let way = if swivel.degrees() < 0.0 { "counter-clockwise" } else { "clockwise" };
    let on = format!("about the fixture's own normal, {after}: {way} as seen from above the stays");
    let made = pass.step("swivel", "Swivel the fixture", on);
    let made = made.on(Scale::Swivel, Reading::Angle(shown.reading));
    let mut made = made.rounded(Reading::Angle(shown.division), Reading::Angle(shown.remainder), None);
    let most = pass.work.shop.fixture.limits.swivel_max;
    let size = Angle::from_degrees(swivel.degrees().abs());
    made.beyond.extend(turns_beyond("swivel", size, Angle::default(), most));
    Some(made)
}

fn gauge(pass: Pass<'_>, cut: &RoundCut, task: &str) -> Step {
    let setting = &cut.setting;
    let shop = pass.work.shop;
    let tilt = setting.tilt.complement();
    let shown = shop.fixture.tilt.shows(tilt);
    let on = match shop.mill.spindle {
        SpindleWay::Vertical => "gauge zeroed on the table of a vertical mill, then laid along the fixture",
        SpindleWay::Horizontal => {
            "gauge zeroed square to the spindle, then laid along the fixture; up is towards the spindle"
        }
    };
    let axis = wanted(pass, setting);
    let set = Axled { tilt: shown.as_set.complement(), ..axis };
    let mut made = pass
        .step("tilt", task, on)
        .on(Scale::Tilt, Reading::Angle(shown.reading))
        .rounded(
            Reading::Angle(shown.division),
            Reading::Angle(shown.remainder),
            pass.effect(setting, axis, set),
        )
        .beside("Stay plane to spindle", Reading::Angle(setting.tilt))
        .checked("the gauge, again, when everything is tightened");
    made.beyond.extend(turns_beyond(
        "tilt",
        tilt,
        shop.fixture.limits.tilt_min,
        shop.fixture.limits.tilt_max,
    ));
    made
}

fn turns_beyond(way: &str, wanted: Angle, least: Angle, most: Angle) -> Option<String> {
    let (wanted, least, most) = (wanted.degrees(), least.degrees(), most.degrees());
    let over = if wanted < least { least - wanted } else { wanted - most };
    (over > 0.0).then(|| {
        format!(
            "the fixture would {way} by {}°; it can {way} from {} to {}: {}° are missing",
            said(wanted, 2),
            said(least, 2),
            said(most, 2),
            said(over, 2)
        )
    })
}

/// How far the cutter's axis is set from where the plan has it, along and across, so that with the chosen saw the stay comes out
/// as long as planned. Where both stays are cut in one pass it can only go along. `None` where it is set as planned.
fn moved(pass: Pass<'_>) -> Option<(Length, Length)> {
    let (along, across) = chosen(pass)?.0.shift?.in_pass(pass.work.hands.len() > 1)?;
    (along.mm().abs().max(across.mm().abs()) >= ALIKE).then_some((along, across))
}

/// Where the cutter's axis is wanted with the chosen saw.
fn wanted(pass: Pass<'_>, setting: &Setting) -> Axled {
    let planned = Axled::of(setting);
    let (along, across) = moved(pass).unwrap_or_default();
    Axled { along: planned.along + along, across: planned.across + across, ..planned }
}

fn along(pass: Pass<'_>, cut: &RoundCut) -> Step {
    let setting = &cut.setting;
    let way = pass.work.machine().along();
    let wanted = wanted(pass, setting);
    let planned = setting.along_spindle;
    let distance = planned + (wanted.along - setting.dro_along);
    let rearwards = if distance.mm() < 0.0 { "forwards" } else { "rearwards" };
    let on = format!(
        "{} along the fixture, {rearwards} from the touch: the cutter goes {}",
        way.scale().name(),
        pass.seen(way, distance)
    );
    let effect = |left| pass.effect(setting, wanted, Axled { along: wanted.along - left, ..wanted });
    let made = pass.go(pass.step("along", "Move along", on), way, distance, effect);
    let made = made.beside("Edge to cutter's axis", Reading::Length(wanted.along));
    pass.planned(made, way, planned, distance)
}

/// The plan counts from the block's left side; from its right side it is the rest of the block's width.
fn across(pass: Pass<'_>, cut: &RoundCut) -> Step {
    let setting = &cut.setting;
    let face = pass.face(setting.on_side);
    let width = pass.work.plan.job.fixture.bench.block_width;
    let from_face = |across: Length| if face.from_left { across } else { width - across };
    let sign = if face.from_left { 1.0 } else { -1.0 };
    let wanted = wanted(pass, setting);
    let effect = |left: Length| {
        let across = wanted.across - Length::from_mm(sign * left.mm());
        pass.effect(setting, wanted, Axled { across, ..wanted })
    };
    pass.across(face, from_face(wanted.across), from_face(setting.dro_across), effect)
}

fn saw(pass: Pass<'_>) -> Step {
    let (ends, on) = match pass.work.hands {
        [_] => ("end", "table clamped; feed slowly, let the saw cut"),
        _ => ("ends", "table clamped; one pass through both stays, feed slowly"),
    };
    let made = pass.step("cut", format!("Cut the {} {ends}", pass.end()), on);
    let Some((candidate, saw)) = chosen(pass) else { return pass.turning(planned(pass, made)) };
    let cutter = Cutter {
        tool: Tool::HoleSaw,
        diameter: candidate.diameter,
        teeth: saw.size.teeth.number(),
        tooth: saw.tooth,
    };
    pass.turning(way_in::checked(pass, run(pass, made, cutter), candidate.diameter, saw))
}

/// Of a saw that is not chosen yet only the planned diameter is known, which is enough for its speed.
fn planned(pass: Pass<'_>, step: Step) -> Step {
    let round = pass.work.stays().next().and_then(|stay| pass.cut_of(stay).round());
    let tooth = ToothMaterial::HighSpeedSteel;
    let Some(cut) = round else { return step };
    run(pass, step, Cutter { tool: Tool::HoleSaw, diameter: cut.cutter, teeth: 0.0, tooth })
}

/// Adds speed and feed to the step at which a cutter turns.
pub(super) fn run(pass: Pass<'_>, mut step: Step, cutter: Cutter) -> Step {
    let run = running(pass.work.shop, pass.work.shop.metal, cutter);
    if let Some(set) = run.set {
        step = step.beside("Spindle", Reading::Speed(set));
    }
    if let Some(feed) = run.feed.filter(|_| cutter.teeth > 0.0) {
        step = step.beside("Feed, at most", Reading::Feed(feed));
    }
    if let Some(times) = run.too_fast {
        let wanted = said(run.wanted.rpm(), 0);
        let message = format!(
            "this cutter wants {wanted} rpm; the mill's slowest speed is {} times that",
            said(times, 1)
        );
        step.beyond.push(message);
    }
    step
}
