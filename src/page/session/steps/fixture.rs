//! Laying a pair in the fixture.

use super::super::reading::{Named, Reading};
use super::{Step, Work, capital};
use staywright::plan::Post;
use staywright::quantity::Length;
use staywright::trade::Hand;

const CLAMP: &str = "A tube that slips turns with the cutter. Use blocks that fit the tube, clamp firmly, and pull at \
                     each stay by hand before the spindle turns.";

pub(super) fn steps(work: Work<'_>) -> Vec<Step> {
    let mut steps = vec![slide(work), axle_height(work)];
    steps.extend(work.pair().posts.iter().enumerate().map(|(i, post)| post_step(work, i, post)));
    steps.push(mark(work));
    steps.push(clamp(work));
    steps
}

fn step(
    work: Work<'_>,
    key: &str,
    task: impl Into<String>,
    reading: Option<Reading>,
    set_on: impl Into<String>,
) -> Step {
    Step {
        id: format!("{}.{key}", work.key()),
        part: format!("{} in the fixture", capital(&work.title())),
        task: task.into(),
        reading,
        set_on: set_on.into(),
        also: Vec::new(),
        caution: None,
    }
}

fn slide(work: Work<'_>) -> Step {
    let slide = work.stays().next().map(|stay| Reading::Length(stay.slide));
    step(
        work,
        "slide",
        "Set the slide",
        slide,
        "slide scale, from the front datum line back to the dummy axle",
    )
}

fn axle_height(work: Work<'_>) -> Step {
    let height = work.stays().next().map_or(Length::default(), |stay| stay.axle_height);
    let side =
        if height.mm() < 0.0 { "below the stay plane, towards the base" } else { "above the stay plane" };
    let size = Length::from_mm(height.mm().abs());
    step(work, "axle-height", "Set the dummy axle's height", Some(Reading::Length(size)), side)
}

fn post_step(work: Work<'_>, index: usize, post: &Post) -> Step {
    let count = index + 1;
    let task = format!("Set post {count}");
    let place = "from the centre line out to the middle of each tube";
    let of = |hand: &Hand| match hand {
        Hand::Right => post.right,
        Hand::Left => post.left,
    };
    let spacings: Vec<_> = work.hands.iter().map(|hand| (hand, of(hand))).collect();
    let alike = spacings.windows(2).all(|two| matches!(two, [a, b] if same(a.1, b.1)));
    let main = spacings.first().and_then(|(_, spacing)| *spacing).map(Reading::Length);
    let mut made = step(work, &format!("post-{count}"), task, main.filter(|_| alike), place);
    if main.is_none() {
        made.set_on = "not needed: the stay does not reach this post".to_owned();
    }
    made.also.push(Named::new("Post stands at", Reading::Length(post.u)));
    if !alike {
        for (hand, spacing) in spacings {
            let name = format!("{} half spacing", capital(hand.key()));
            made.also.extend(spacing.map(|known| Named::new(name, Reading::Length(known))));
        }
    }
    let both = work.hands.len() > 1;
    let calipers = [("Calipers inside", post.inside), ("Calipers over both", post.outside)];
    for (name, reading) in calipers.into_iter().filter(|_| both) {
        made.also.extend(reading.map(|known| Named::new(name, Reading::Length(known))));
    }
    made
}

fn same(a: Option<Length>, b: Option<Length>) -> bool {
    match (a, b) {
        (Some(a), Some(b)) => (a.mm() - b.mm()).abs() < super::cut::ALIKE,
        _ => a.is_none() && b.is_none(),
    }
}

fn mark(work: Work<'_>) -> Step {
    let pair = work.plan.job.pair(work.name);
    let trims: Vec<_> = work.hands.iter().map(|hand| (hand, pair.side(*hand).tube.front_trim)).collect();
    let first = trims.first().map(|(_, trim)| *trim);
    let alike = trims.iter().all(|(_, trim)| same(Some(*trim), first));
    let on = "from the raw tube's front end; the mark goes on the front datum line";
    let mut made = step(work, "mark", "Mark each tube", first.filter(|_| alike).map(Reading::Length), on);
    if !alike {
        made.also = trims
            .iter()
            .map(|(hand, trim)| Named::new(capital(hand.key()), Reading::Length(*trim)))
            .collect();
    }
    made
}

fn clamp(work: Work<'_>) -> Step {
    let on = "marks on the front datum line, tubes at the half spacings, front ends to the front";
    let mut made = step(work, "clamp", format!("Clamp the {}", work.title()), None, on);
    made.caution = Some(CLAMP);
    made
}
