//! The mill of a shop's first form.

use crate::link::pass::{Table, choice, figures, group, length, numbered, start};
use crate::link::pen::Pen;
use crate::model::Hand;
use crate::model::shop::{Axis, DroAxis, Mill, Mounting, Sense, Speeds, SpindleWay, Toward};
use crate::units::SpindleSpeed;

const READOUT: &Table = &[("division_mm", 0.0), ("travel_mm", 400.0)];

const BODY: &Table = &[
    ("holder_mm", 45.0),
    ("holder_length_mm", 50.0),
    ("nose_mm", 85.0),
    ("nose_length_mm", 120.0),
    ("run_out_mm", 2.0),
    ("run_in_mm", 5.0),
];

/// Slowest and fastest speed at the start.
const RANGE: [f64; 2] = [60.0, 4000.0];

numbered! { SpindleWay { Vertical = 0, Horizontal = 1 } }
numbered! { Axis { X = 0, Y = 1, Z = 2 } }
numbered! { Toward { Plus = 0, Minus = 1 } }
numbered! { Hand { Left = 0, Right = 1 } }
numbered! { Mounting { Vise = 0, Table = 1 } }

pub(super) fn mill(pen: &mut dyn Pen, mill: &Mill) -> Option<Mill> {
    let spindle = choice(pen, mill.spindle)?;
    let lies_along = choice(pen, mill.lies_along)?;
    let rear_toward = choice(pen, mill.rear_toward)?;
    let side_to_spindle = choice(pen, mill.side_to_spindle)?;
    let block_side = choice(pen, mill.block_side)?;
    let mounting = choice(pen, mill.mounting)?;
    let [x, y, z] = [Axis::X, Axis::Y, Axis::Z].map(|axis| readout(pen, mill.readout(axis)));
    let ((x, x_sense), (y, y_sense), (z, z_sense)) = (x?, y?, z?);
    Some(Mill {
        spindle,
        lies_along,
        rear_toward,
        side_to_spindle,
        block_side,
        mounting,
        axes: [x, y, z],
        senses: [x_sense, y_sense, z_sense],
        body: group(pen, &mill.body, &start(BODY), BODY)?,
        speeds: speeds(pen, &mill.speeds)?,
    })
}

fn readout(pen: &mut dyn Pen, (figures, sense): (DroAxis, Sense)) -> Option<(DroAxis, Sense)> {
    Some((group(pen, &figures, &start(READOUT), READOUT)?, choice(pen, sense)?))
}

/// 0 and a range, or one more than there are steps and the steps.
fn speeds(pen: &mut dyn Pen, speeds: &Speeds) -> Option<Speeds> {
    let (steps, range) = match speeds {
        Speeds::Steps(steps) => (Some(steps.as_slice()), RANGE),
        Speeds::Range(slowest, fastest) => (None, [slowest.rpm(), fastest.rpm()]),
    };
    let count = length(pen, steps.map_or(0, |steps| steps.len().saturating_add(1)))?;
    if count == 0 {
        return match figures(pen, &range, &RANGE)?.as_slice() {
            [slowest, fastest] => {
                Some(Speeds::Range(SpindleSpeed::from_rpm(*slowest), SpindleSpeed::from_rpm(*fastest)))
            }
            _ => None,
        };
    }
    let shown =
        |place| steps.and_then(|steps| steps.get(place)).map_or(0.0, |speed: &SpindleSpeed| speed.rpm());
    let passed = (0..count - 1).map(|place| pen.number(shown(place)).map(SpindleSpeed::from_rpm));
    Some(Speeds::Steps(passed.collect::<Option<_>>()?))
}
