//! The fixture as measured, and the mill.

use super::section::{Layout, acts, choice};
use crate::ask::form::{FormField, FormSection};
use crate::model::shop::{Axis, Mill, Mounting, Sense, Speeds, SpindleWay, Toward};
use crate::model::{Hand, capital};

const OF_THE_JOB: &str = "What a cutter could run into, and how far the fixture goes. Clamp height, block width, the touched edge, \
                          the posts' places and the slide's range belong to the job: see “Fixture and edge finder”, where this shop keeps \
                          those that new jobs start with.";
const SCALES: &str = "What each scale shows where the true figure is 0, its smallest division (0: it shows every figure), and \
                      which way it counts. Steps give every figure as the scale shows it.";
const READOUTS: &str = "Readouts are told by the cutter's way over the work: X to the right, Y away from you (up on a horizontal \
                        mill), Z out of the work.";

/// The fixture's bodies and limits.
pub(super) fn fixture(layout: Layout<'_>) -> FormSection {
    layout.section("fixture", "Fixture, as measured", |made| {
        made.words = OF_THE_JOB.to_owned();
        made.fields = ["bed", "block", "post", "axle", "limits"]
            .iter()
            .flat_map(|group| layout.figures(&format!("fixture.{group}.")))
            .collect();
    })
}

/// What its scales show.
pub(super) fn scales(layout: Layout<'_>) -> FormSection {
    let fixture = &layout.shop.fixture;
    let scales = [
        ("slide", "Slide scale", fixture.slide.sense),
        ("axle_height", "Axle height scale", fixture.axle_height.sense),
        ("half_spacing", "Clamp scale", fixture.half_spacing.sense),
        ("tilt", "Gauge", fixture.tilt.sense),
        ("swivel", "Swivel scale", fixture.swivel.sense),
    ];
    layout.section("fixture.scales", "Fixture's scales", |made| {
        made.words = SCALES.to_owned();
        let scale = |(key, name, way): (&str, &str, Sense)| {
            let at = format!("fixture.scales.{key}");
            let figures = layout.figures(&format!("{at}.")).into_iter().map(move |field| named(field, name));
            figures.chain([sense(&at, name, way)]).collect::<Vec<_>>()
        };
        made.fields = scales.into_iter().flat_map(scale).collect();
    })
}

/// A figure of one of several alike.
fn named(field: FormField, of: &str) -> FormField {
    let name = field.name.strip_prefix("Scale ").map_or_else(|| field.name.to_lowercase(), str::to_owned);
    FormField { name: format!("{of}, {name}"), ..field }
}

fn sense(at: &str, of: &str, way: Sense) -> FormField {
    let ways =
        [(Sense::Rises.key(), "more as the figure grows"), (Sense::Falls.key(), "less as the figure grows")];
    choice(format!("{at}.sense"), &format!("{of} shows"), way.key(), ways)
}

/// How the mill stands and counts.
pub(super) fn mill(layout: Layout<'_>) -> FormSection {
    let mill = &layout.shop.mill;
    layout.section("mill", "Mill", |made| {
        made.words = READOUTS.to_owned();
        made.fields = ways(mill);
        for axis in Axis::ALL {
            let at = format!("mill.{}", axis.key());
            let name = format!("{} readout", axis.name());
            made.fields
                .extend(layout.figures(&format!("{at}.")).into_iter().map(|field| named(field, &name)));
            made.fields.push(sense(&at, &name, mill.readout(axis).1));
        }
        let body = ["holder_mm", "holder_length_mm", "nose_mm", "nose_length_mm", "run_out_mm", "run_in_mm"];
        made.fields.extend(body.iter().flat_map(|key| layout.figures(&format!("mill.{key}"))));
    })
}

fn ways(mill: &Mill) -> Vec<FormField> {
    let away = match mill.spindle {
        SpindleWay::Vertical => ["away from you", "towards you"],
        SpindleWay::Horizontal => ["up", "down"],
    };
    let [plus, minus] = if mill.lies_along == Axis::Y { away } else { ["to the right", "to the left"] };
    let hands = Hand::ALL.map(|hand| (hand.key(), hand.key()));
    vec![
        choice(
            "mill.spindle",
            "Spindle",
            mill.spindle.key(),
            SpindleWay::ALL.map(|way| (way.key(), way.name())),
        ),
        choice(
            "mill.mounting",
            "Fixture is held",
            mill.mounting.key(),
            Mounting::ALL.map(|way| (way.key(), way.name())),
        ),
        choice("mill.fixture_along", "Fixture lies along", mill.lies_along.key(), [("x", "X"), ("y", "Y")]),
        choice(
            "mill.rear_toward",
            "Its rear end points",
            mill.rear_toward.key(),
            [(Toward::Plus.key(), plus), (Toward::Minus.key(), minus)],
        ),
        choice(
            "mill.side_to_spindle",
            "Side to the spindle, lying on its side",
            mill.side_to_spindle.key(),
            hands,
        ),
        choice("mill.block_side", "Side of the block that is touched", mill.block_side.key(), hands),
    ]
}

/// The spindle speeds there are.
pub(super) fn speeds(layout: Layout<'_>) -> FormSection {
    layout.section("mill.speeds_rpm", "Spindle speeds", |made| match &layout.shop.mill.speeds {
        Speeds::Steps(steps) => {
            let count =
                |(i, field): (usize, FormField)| FormField { name: format!("Speed {}", i + 1), ..field };
            made.fields = layout.figures("mill.speeds_rpm[").into_iter().enumerate().map(count).collect();
            made.acts = acts(&[
                ("add mill.speeds_rpm", "Add a speed"),
                ("list mill.speeds_rpm range", "Any speed in a range"),
            ]);
            if let Some(last) = steps.len().checked_sub(1).filter(|last| *last > 0) {
                made.acts
                    .extend(acts(&[(&format!("remove mill.speeds_rpm[{last}]"), "Remove the last speed")]));
            }
        }
        Speeds::Range(..) => {
            for (path, name) in [("mill.slowest_rpm", "slowest speed"), ("mill.fastest_rpm", "fastest speed")]
            {
                let named = |field| FormField { name: capital(name), ..field };
                made.fields.extend(layout.figures(path).into_iter().map(named));
            }
            made.acts = acts(&[("list mill.speeds_rpm steps", "Only certain speeds")]);
        }
    })
}
