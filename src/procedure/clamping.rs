//! Laying a pair in the fixture.

use super::Work;
use super::alike::{mean, near};
use super::beside::{Beside, Quantity};
use super::caution::Caution;
use super::effect::Effect;
use super::key::{Phase, StepKind};
use super::problem::{Problem, Ranged};
use super::reading::Reading;
use super::step::{Scale, Step};
use super::task::{AxleSide, Task};
use crate::model::Hand;
use crate::model::shop::Shown;
use crate::plan::{BendPlace, BentStay, Post};
use crate::units::{Angle, Length};

/// Places closer than this, mm, are one: they are measured with a rule.
const ALIKE: f64 = 0.01;

pub(super) fn steps(work: Work<'_>) -> Vec<Step> {
    let mut steps = vec![slide(work), axle_height(work)];
    steps.extend(posts(work));
    steps.push(clamp(work));
    steps
}

fn step(work: Work<'_>, kind: StepKind, task: Task) -> Step {
    Step::new(work.key(Phase::Clamping, kind), task)
}

/// A length on a scale of the fixture.
fn on_scale(step: Step, scale: Scale, shown: Shown<Length>, effect: Option<Effect>) -> Step {
    step.on(scale, Reading::Length(shown.reading)).rounded(
        Reading::Length(shown.division),
        Reading::Length(shown.remainder),
        effect,
    )
}

/// The cuts are set from the datum edge: the axle only shows where the stay must end.
fn slide(work: Work<'_>) -> Step {
    let made = step(work, StepKind::Slide, Task::SetSlide);
    let Some(stay) = work.stays().next() else { return made };
    let bench = &work.plan.job.fixture.bench;
    on_scale(made, Scale::Slide, work.shop.fixture.slide.shows(stay.slide), None)
        .beside(Quantity::DatumToAxle, Reading::Length(stay.slide))
        .with(Problem::of_range(Ranged::Slide, stay.slide, bench.slide_min, bench.slide_max))
}

/// The steps with slide and height of the dummy axle as one, where both are set.
pub(super) fn axle_at_once(steps: Vec<Step>) -> Vec<Step> {
    let mut joined: Vec<Step> = Vec::with_capacity(steps.len());
    for step in steps {
        match (joined.pop(), step.task) {
            (Some(slide), Task::SetAxleHeight(side)) if slide.task == Task::SetSlide => {
                joined.push(Step { task: Task::SetAxle(side), ..slide.then(step) });
            }
            (before, _) => {
                joined.extend(before);
                joined.push(step);
            }
        }
    }
    joined
}

fn axle_height(work: Work<'_>) -> Step {
    let height = work.stays().next().map_or(Length::default(), |stay| stay.axle_height);
    let side = match height.mm() {
        below if below <= -ALIKE => AxleSide::Below,
        above if above >= ALIKE => AxleSide::Above,
        _ => AxleSide::In,
    };
    let bench = &work.plan.job.fixture.bench;
    let made = step(work, StepKind::AxleHeight, Task::SetAxleHeight(side));
    on_scale(made, Scale::AxleHeight, work.shop.fixture.axle_height.shows(height), None)
        .beside(Quantity::AxleFromPlane(side), Reading::Length(Length::from_mm(height.mm().abs())))
        .with(Problem::of_range(Ranged::AxleHeight, height, bench.axle_height_min, bench.axle_height_max))
}

/// All posts in one step: each is set on its own scale, both clamps of it alike.
fn posts(work: Work<'_>) -> Option<Step> {
    let each = work.pair().posts.iter().zip(1_u8..).map(|(post, count)| post_step(work, count, post));
    let mut whole = each.reduce(Step::then)?;
    let has_calipers =
        |beside: &Beside| matches!(beside.what, Quantity::CalipersInside(_) | Quantity::CalipersOutside(_));
    let count = u8::try_from(work.pair().posts.len()).unwrap_or(u8::MAX);
    whole.task = Task::SetPosts { count, has_calipers: whole.also.iter().any(has_calipers) };
    Some(whole)
}

fn post_step(work: Work<'_>, count: u8, post: &Post) -> Step {
    let spacings: Vec<(Hand, Length)> =
        work.hands.iter().filter_map(|hand| Some((*hand, spacing_of(post, *hand)?))).collect();
    let calipers =
        [(Quantity::CalipersInside(count), post.inside), (Quantity::CalipersOutside(count), post.outside)];
    let calipers = calipers
        .into_iter()
        .filter(|_| work.hands.len() > 1)
        .filter_map(|(what, known)| Some((what, known?)));
    let task = Task::SetPosts { count, has_calipers: false };
    let made = spaced(work, count, step(work, StepKind::Posts, task), &spacings);
    let (limits, body) = (&work.shop.fixture.limits, &work.shop.fixture.post);
    let of_clamp = |(_, spacing): &(Hand, Length)| {
        Problem::of_range(Ranged::Clamp, *spacing, limits.half_spacing_min, limits.half_spacing_max)
    };
    let made = made
        .beside(Quantity::PostStation(count), Reading::Length(post.u))
        .with(Problem::of_range(Ranged::Post, post.u, body.front, body.rear))
        .with(spacings.iter().find_map(of_clamp))
        .with(spacings.is_empty().then_some(Problem::PostNotReached(count)));
    calipers.fold(made, |made, (what, known)| made.beside(what, Reading::Length(known)))
}

/// One figure for both sides, set in the middle, where the scale shows no difference; else one for each.
fn spaced(work: Work<'_>, count: u8, made: Step, spacings: &[(Hand, Length)]) -> Step {
    let scale = &work.shop.fixture.half_spacing;
    let shows = work.fineness().post();
    let alike = spacings.windows(2).all(|two| matches!(two, [(_, a), (_, b)] if near(a.mm(), b.mm(), shows)));
    if alike && !spacings.is_empty() && spacings.len() == work.hands.len() {
        let middle = Length::from_mm(mean(spacings.iter().map(|(_, spacing)| spacing.mm())));
        let shown = scale.shows(middle);
        let effect = leans(work, count, shown.remainder);
        return on_scale(made, Scale::HalfSpacing(count), shown, effect);
    }
    spacings.iter().fold(made, |made, (hand, spacing)| {
        made.beside(Quantity::OnScale(count, *hand), Reading::Length(scale.shows(*spacing).reading))
    })
}

const fn spacing_of(post: &Post, hand: Hand) -> Option<Length> {
    match hand {
        Hand::Right => post.right,
        Hand::Left => post.left,
    }
}

/// A clamp that stands `left` too near the centre line turns the tube about the furthest other post: what that does at
/// the front reference point and to the splay. `None` where no other post holds the tube.
fn leans(work: Work<'_>, count: u8, left: Length) -> Option<Effect> {
    let posts = &work.pair().posts;
    let index = usize::from(count).checked_sub(1)?;
    let here = posts.get(index)?.u.mm();
    let held = posts.iter().enumerate().filter(|(i, post)| *i != index && post.right.or(post.left).is_some());
    let others = held.map(|(_, post)| post.u.mm());
    let pivot = others.max_by(|a, b| (a - here).abs().total_cmp(&(b - here).abs()))?;
    let span = here - pivot;
    let splay = work.stays().next()?.splay.radians();
    (span.abs() > 1.0).then(|| Effect {
        along: Length::default(),
        offset: Length::from_mm(left.mm() * pivot / span),
        angle: Angle::from_radians((splay.tan() - left.mm() / span).atan() - splay),
    })
}

/// Each tube is laid by a mark so far from its raw front end, on the front datum line.
fn clamp(work: Work<'_>) -> Step {
    let is_bent = work.stays().any(|stay| stay.bent.is_some());
    let made = step(work, StepKind::Clamp, Task::Clamp { is_bent }).caution(Caution::SlippingTube);
    bends(work, marked(work, made))
}

fn marked(work: Work<'_>, made: Step) -> Step {
    let pair = work.plan.job.pair(work.name);
    let trim = |hand: Hand| {
        let bent = work.pair().stay(hand).bent.as_ref();
        bent.map_or(pair.side(hand).tube.front_trim, |bent| bent.trim)
    };
    let trims: Vec<(Hand, Length)> = work.hands.iter().map(|hand| (*hand, trim(*hand))).collect();
    match trims.as_slice() {
        [(_, one)] => made.figure(Reading::Length(*one)),
        [(_, one), (_, other)] if near(one.mm(), other.mm(), ALIKE) => made.figure(Reading::Length(*one)),
        _ => trims
            .iter()
            .fold(made, |made, (hand, trim)| made.beside(Quantity::Trim(*hand), Reading::Length(*trim))),
    }
}

/// Where each bend's apex stands when the stay is turned right about its chord.
fn bends(work: Work<'_>, made: Step) -> Step {
    let stays: Vec<(Hand, &BentStay)> =
        work.stays().filter_map(|stay| Some((stay.hand, stay.bent.as_ref()?))).collect();
    let alike = stays.windows(2).all(|two| matches!(two, [(_, a), (_, b)] if same_bends(a, b)));
    let shown = stays.iter().take(if alike { 1 } else { stays.len() });
    shown.fold(made, |made, (hand, bent)| {
        let whose = (!alike).then_some(*hand);
        bent.bends.iter().zip(1_u8..).fold(made, |made, (bend, number)| {
            made.beside(Quantity::BendAlong(number, whose), Reading::Length(bend.along))
                .beside(Quantity::BendAbove(number, whose), Reading::Length(bend.from_plane))
                .beside(Quantity::BendOut(number, whose), Reading::Length(bend.from_centre))
        })
    })
}

/// Whether the bends of two stays stand alike, each on its own side.
fn same_bends(a: &BentStay, b: &BentStay) -> bool {
    let near = |a: Length, b: Length| near(a.mm(), b.mm(), ALIKE);
    let same = |(a, b): (&BendPlace, &BendPlace)| {
        near(a.along, b.along) && near(a.from_plane, b.from_plane) && near(a.from_centre, b.from_centre)
    };
    a.bends.len() == b.bends.len() && a.bends.iter().zip(&b.bends).all(same)
}
