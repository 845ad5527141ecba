//! The ways of joining of a shop's first form, with those that a shop starts with.

use super::list::list;
use crate::link::pass::{Table, choice, flag, group, length, numbered, start};
use crate::link::pen::Pen;
use crate::model::shop::{JointGap, Origin, Process, Sure};
use crate::units::Length;

const GAP: &Table = &[("least_mm", 0.0), ("best_mm", 0.05), ("most_mm", 0.1)];

/// Name, gap and origin of what a shop starts with, as it was when this form was given out.
const KNOWN: [(&str, [f64; 3], Sure, &str); 5] = [
    ("fillet brazing", [0.0, 0.1, 0.25], Sure::Remembered, "what builders aim at"),
    ("TIG welding", [0.0, 0.0, 0.1], Sure::Remembered, "what builders aim at: no light through the joint"),
    (
        "silver brazing",
        [0.025, 0.038, 0.127],
        Sure::Read,
        "a filler maker's note on clearance, after R. H. Leach's chart of 1939: strongest at 0.0015 in, still \
         strong from 0.001 to 0.005 in",
    ),
    (
        "copper brazing in a furnace",
        [0.0, 0.0, 0.051],
        Sure::Quoted,
        "a welders' forum quoting the AWS Brazing Handbook, 4th edition: 0.000 to 0.002 in",
    ),
    (
        "nickel brazing",
        [0.0, 0.03, 0.076],
        Sure::Read,
        "an alloy maker's article: full strength below 0.003 in",
    ),
];

numbered! { Sure { Read = 0, Quoted = 1, Remembered = 2, WorkedOut = 3, Own = 4 } }

fn known() -> Vec<Process> {
    let process = |(name, [least, best, most], sure, source): (&str, [f64; 3], Sure, &str)| Process {
        name: name.to_owned(),
        gap: JointGap {
            least: Length::from_mm(least),
            best: Length::from_mm(best),
            most: Length::from_mm(most),
        },
        origin: Origin::new(sure, source),
    };
    KNOWN.map(process).to_vec()
}

fn fresh() -> Process {
    Process { name: String::new(), gap: start(GAP), origin: Origin::new(Sure::Own, "") }
}

pub(super) fn processes(pen: &mut dyn Pen, processes: &[Process]) -> Option<Vec<Process>> {
    list(pen, processes, &[known()], &fresh(), |pen, process, _| one(pen, process))
}

/// By what is not as in the known one of the same name; where there is none, whole.
fn one(pen: &mut dyn Pen, process: &Process) -> Option<Process> {
    let known = [vec![fresh()], known()].concat();
    let place = known.iter().skip(1).position(|known| known.name == process.name);
    let place = length(pen, place.map_or(0, |place| place + 1))?;
    let base = known.get(place)?;
    let name = if place == 0 { pen.text(&process.name)? } else { base.name.clone() };
    let gap = group(pen, &process.gap, &base.gap, GAP)?;
    let sure = choice(pen, process.origin.sure)?;
    let told = flag(pen, process.origin.source != base.origin.source)?;
    let source = if told { pen.text(&process.origin.source)? } else { base.origin.source.clone() };
    Some(Process { name, gap, origin: Origin { sure, source } })
}
