//! Laying a pair in the fixture.

use super::Work;
use super::caution::CLAMP;
use super::effect::Effect;
use super::reading::{Named, Reading};
use super::step::{Scale, Step};
use crate::model::Hand;
use crate::model::capital;
use crate::model::shop::Shown;
use crate::plan::{BendPlace, BentStay, Post};
use crate::units::{Angle, Length, said};

/// Two settings closer than this, in mm or degrees, are one: it is below what the scales show.
pub(super) const ALIKE: f64 = 0.005;

pub(super) fn steps(work: Work<'_>) -> Vec<Step> {
    let mut steps = vec![slide(work), axle_height(work)];
    steps.extend(work.pair().posts.iter().enumerate().map(|(i, post)| post_step(work, i, post)));
    steps.push(mark(work));
    steps.push(clamp(work));
    steps
}

fn step(work: Work<'_>, key: &str, task: impl Into<String>, set_on: impl Into<String>) -> Step {
    let part = format!("{} in the fixture", capital(&work.title()));
    Step::new(format!("{}.{key}", work.key()), part, task, set_on)
}

/// A length on a scale of the fixture.
fn on_scale(step: Step, scale: Scale, shown: Shown<Length>, effect: Option<Effect>) -> Step {
    step.on(scale, Reading::Length(shown.reading)).rounded(
        Reading::Length(shown.division),
        Reading::Length(shown.remainder),
        effect,
    )
}

/// A sentence where a figure lies outside what the fixture goes to.
fn beyond(what: &str, figure: Length, from: Length, to: Length) -> Option<String> {
    let (figure, from, to) = (figure.mm(), from.mm(), to.mm());
    let over = if figure < from { from - figure } else { figure - to };
    (over > 0.0).then(|| {
        format!(
            "{what} would stand at {} mm; it goes from {} to {}: {} mm is missing",
            said(figure, 2),
            said(from, 2),
            said(to, 2),
            said(over, 2)
        )
    })
}

fn slide(work: Work<'_>) -> Step {
    let on = "slide scale, from the front datum line back to the dummy axle";
    let made = step(work, "slide", "Set the slide", on);
    let Some(stay) = work.stays().next() else { return made };
    let bench = &work.plan.job.fixture.bench;
    // The cuts are set from the datum edge: the axle only shows where the stay must end.
    let mut made = on_scale(made, Scale::Slide, work.shop.fixture.slide.shows(stay.slide), None)
        .checked("measure from the front datum line to the middle of the dummy axle");
    made.also.push(Named::new("Front datum line to axle", Reading::Length(stay.slide)));
    made.beyond.extend(beyond("the slide", stay.slide, bench.slide_min, bench.slide_max));
    made
}

fn axle_height(work: Work<'_>) -> Step {
    let height = work.stays().next().map_or(Length::default(), |stay| stay.axle_height);
    let side = match height.mm() {
        below if below <= -ALIKE => "below the stay plane, towards the base",
        above if above >= ALIKE => "above the stay plane",
        _ => "in the stay plane",
    };
    let bench = &work.plan.job.fixture.bench;
    let on = format!("axle height scale: the axle sits {side}");
    let made = step(work, "axle-height", "Set the dummy axle's height", on);
    let mut made = on_scale(made, Scale::AxleHeight, work.shop.fixture.axle_height.shows(height), None)
        .checked("measure from the stay plane to the middle of the dummy axle");
    made.also.push(Named::new(capital(side), Reading::Length(Length::from_mm(height.mm().abs()))));
    made.beyond.extend(beyond("the axle height", height, bench.axle_height_min, bench.axle_height_max));
    made
}

fn post_step(work: Work<'_>, index: usize, post: &Post) -> Step {
    let count = index + 1;
    let place = "clamp scale, from the centre line out to the middle of each tube";
    let mut made = step(work, &format!("post-{count}"), format!("Set post {count}"), place);
    let spacings: Vec<_> =
        work.hands.iter().filter_map(|hand| Some((*hand, spacing_of(post, *hand)?))).collect();
    let one = spacings.first().map(|(_, spacing)| *spacing);
    let alike = spacings.len() == work.hands.len()
        && spacings.iter().all(|(_, spacing)| one.is_some_and(|one| near(*spacing, one)));
    if spacings.is_empty() {
        made.set_on = "not needed: the stay does not reach this post".to_owned();
    }
    if let Some(spacing) = one.filter(|_| alike) {
        let shown = work.shop.fixture.half_spacing.shows(spacing);
        made = on_scale(made, Scale::HalfSpacing, shown, leans(work, index, shown.remainder));
    }
    made.also.push(Named::new("Post stands at", Reading::Length(post.u)));
    for (hand, spacing) in spacings.iter().filter(|_| !alike) {
        let shown = work.shop.fixture.half_spacing.shows(*spacing);
        made.also.push(Named::new(
            format!("{} on the scale", capital(hand.key())),
            Reading::Length(shown.reading),
        ));
    }
    let (limits, body) = (&work.shop.fixture.limits, &work.shop.fixture.post);
    made.beyond.extend(beyond("the post", post.u, body.front, body.rear));
    made.beyond.extend(spacings.iter().find_map(|(_, spacing)| {
        beyond("the clamp", *spacing, limits.half_spacing_min, limits.half_spacing_max)
    }));
    calipers(work, post, made)
}

const fn spacing_of(post: &Post, hand: Hand) -> Option<Length> {
    match hand {
        Hand::Right => post.right,
        Hand::Left => post.left,
    }
}

fn near(a: Length, b: Length) -> bool {
    (a.mm() - b.mm()).abs() < ALIKE
}

fn calipers(work: Work<'_>, post: &Post, mut made: Step) -> Step {
    let readings = [("Calipers inside", post.inside), ("Calipers over both", post.outside)];
    for (name, reading) in readings.into_iter().filter(|_| work.hands.len() > 1) {
        made.also.extend(reading.map(|known| Named::new(name, Reading::Length(known))));
        made.check = Some("calipers between the tubes and over them, across the fixture");
    }
    made
}

/// A clamp that stands `left` too near the centre line turns the tube about the furthest other post: what that does at
/// the front reference point and to the splay. `None` where no other post holds the tube.
fn leans(work: Work<'_>, index: usize, left: Length) -> Option<Effect> {
    let posts = &work.pair().posts;
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

fn mark(work: Work<'_>) -> Step {
    let pair = work.plan.job.pair(work.name);
    let trim = |hand: &Hand| {
        let bent = work.pair().stay(*hand).bent.as_ref();
        bent.map_or(pair.side(*hand).tube.front_trim, |bent| bent.trim)
    };
    let trims: Vec<_> = work.hands.iter().map(|hand| (hand, trim(hand))).collect();
    let first = trims.first().map(|(_, trim)| *trim);
    let alike = trims.iter().all(|(_, trim)| first.is_some_and(|first| near(*trim, first)));
    let on = "from the raw tube's front end; the mark goes on the front datum line";
    let mut made = step(work, "mark", "Mark each tube", on);
    made.reading = first.filter(|_| alike).map(Reading::Length);
    if !alike {
        let each = trims.iter().map(|(hand, trim)| Named::new(capital(hand.key()), Reading::Length(*trim)));
        made.also = each.collect();
    }
    made
}

fn clamp(work: Work<'_>) -> Step {
    let bent = work.stays().any(|stay| stay.bent.is_some());
    let on = match bent {
        true => {
            "marks on the front datum line, tubes at the half spacings, each turned until its bends stand as said"
        }
        false => "marks on the front datum line, tubes at the half spacings, front ends to the front",
    };
    let made = step(work, "clamp", format!("Clamp the {}", work.title()), on)
        .checked("pull at each stay by hand; read the posts once more")
        .caution(CLAMP);
    let stays: Vec<_> = work.stays().filter_map(|stay| Some((stay, stay.bent.as_ref()?))).collect();
    let alike = stays.windows(2).all(|two| matches!(two, [(_, a), (_, b)] if same_bends(a, b)));
    let shown = stays.iter().take(if alike { 1 } else { stays.len() });
    shown.fold(made, |made, (stay, bent)| {
        let whose = if alike { String::new() } else { format!(", {}", stay.hand.key()) };
        bent.bends.iter().zip(1..).fold(made, |made, (bend, number)| level(made, bend, number, &whose))
    })
}

/// Whether the bends of two stays stand alike, each on its own side.
fn same_bends(a: &BentStay, b: &BentStay) -> bool {
    let same = |(a, b): (&BendPlace, &BendPlace)| {
        near(a.along, b.along) && near(a.from_plane, b.from_plane) && near(a.from_centre, b.from_centre)
    };
    a.bends.len() == b.bends.len() && a.bends.iter().zip(&b.bends).all(same)
}

/// Where a bend's apex stands when the stay is turned right about its chord.
fn level(step: Step, bend: &BendPlace, number: i32, whose: &str) -> Step {
    step.beside(format!("Bend {number}{whose}: apex along the fixture"), Reading::Length(bend.along))
        .beside(format!("Bend {number}{whose}: apex above the stay plane"), Reading::Length(bend.from_plane))
        .beside(format!("Bend {number}{whose}: apex from the centre line"), Reading::Length(bend.from_centre))
}
