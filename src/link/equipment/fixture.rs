//! The measured fixture of a shop's first form.

use super::list::numbers;
use crate::link::pass::{Table, choice, group, numbered, start};
use crate::link::pen::Pen;
use crate::model::shop::{AngleScale, LengthScale, MeasuredFixture, Sense};
use crate::model::{Fixture, TouchSide};
use crate::units::Length;

const BENCH: &Table = &[
    ("block_width_mm", 70.0),
    ("clamp_height_mm", 40.0),
    ("touch_u_mm", -60.0),
    ("touch_w_mm", 0.0),
    ("slide_min_mm", 380.0),
    ("slide_max_mm", 480.0),
    ("axle_height_min_mm", -30.0),
    ("axle_height_max_mm", 30.0),
];

/// Stations of the clamp posts at the start.
const POSTS: [f64; 2] = [60.0, 330.0];

const BED: &Table =
    &[("front_u_mm", -40.0), ("rear_u_mm", 470.0), ("width_mm", 60.0), ("thickness_mm", 12.0)];

const BLOCK: &Table = &[("front_u_mm", 120.0), ("rear_u_mm", 220.0), ("thickness_mm", 20.0)];

const POST: &Table = &[
    ("along_mm", 25.0),
    ("across_mm", 36.0),
    ("above_mm", 18.0),
    ("front_u_mm", -200.0),
    ("rear_u_mm", 1500.0),
];

const AXLE: &Table = &[("diameter_mm", 12.0), ("length_mm", 170.0)];

const LIMITS: &Table = &[
    ("half_spacing_min_mm", 0.0),
    ("half_spacing_max_mm", 300.0),
    ("tilt_min_deg", 0.0),
    ("tilt_max_deg", 90.0),
    ("swivel_max_deg", 90.0),
];

const LENGTH_SCALE: &Table = &[("zero_mm", 0.0), ("division_mm", 0.0)];

const ANGLE_SCALE: &Table = &[("zero_deg", 0.0), ("division_deg", 0.0)];

numbered! { TouchSide { Front = 0, Rear = 1 } }
numbered! { Sense { Rises = 0, Falls = 1 } }

pub(super) fn fixture(pen: &mut dyn Pen, fixture: &MeasuredFixture) -> Option<MeasuredFixture> {
    Some(MeasuredFixture {
        figures: figures(pen, &fixture.figures)?,
        bed: group(pen, &fixture.bed, &start(BED), BED)?,
        block: group(pen, &fixture.block, &start(BLOCK), BLOCK)?,
        post: group(pen, &fixture.post, &start(POST), POST)?,
        axle: group(pen, &fixture.axle, &start(AXLE), AXLE)?,
        limits: group(pen, &fixture.limits, &start(LIMITS), LIMITS)?,
        slide: length_scale(pen, &fixture.slide)?,
        axle_height: length_scale(pen, &fixture.axle_height)?,
        half_spacing: length_scale(pen, &fixture.half_spacing)?,
        tilt: angle_scale(pen, &fixture.tilt)?,
        swivel: angle_scale(pen, &fixture.swivel)?,
    })
}

fn figures(pen: &mut dyn Pen, fixture: &Fixture) -> Option<Fixture> {
    let posts: Vec<f64> = fixture.posts.iter().map(|post| post.mm()).collect();
    Some(Fixture {
        bench: group(pen, &fixture.bench, &start(BENCH), BENCH)?,
        posts: numbers(pen, &posts, &POSTS)?.into_iter().map(Length::from_mm).collect(),
        touch_from: choice(pen, fixture.touch_from)?,
    })
}

fn length_scale(pen: &mut dyn Pen, scale: &LengthScale) -> Option<LengthScale> {
    let figures = group(pen, &scale.figures, &start(LENGTH_SCALE), LENGTH_SCALE)?;
    Some(LengthScale { figures, sense: choice(pen, scale.sense)? })
}

fn angle_scale(pen: &mut dyn Pen, scale: &AngleScale) -> Option<AngleScale> {
    let figures = group(pen, &scale.figures, &start(ANGLE_SCALE), ANGLE_SCALE)?;
    Some(AngleScale { figures, sense: choice(pen, scale.sense)? })
}
