//! Ways of joining, and the gap that each allows.

use super::origin::{Origin, Sure};
use crate::model::group::group;
use crate::units::Length;

group! {
    /// The gap between a finished end and its member.
    JointGap {
        /// Below it the joint is starved.
        least: Length = "least_mm", "least gap", 0.0, 0.0..=5.0;
        /// The gap to aim at.
        best: Length = "best_mm", "best gap", 0.05, 0.0..=5.0;
        /// Above it the joint is not sound.
        most: Length = "most_mm", "largest gap", 0.1, 0.0..=5.0;
    }
}

/// A way of joining.
#[derive(Clone, Debug, PartialEq)]
pub struct Process {
    /// What the trade calls it.
    pub name: String,
    /// The gap it allows.
    pub gap: JointGap,
    /// Where the gap comes from.
    pub origin: Origin,
}

/// The ways of joining whose gaps are known from somewhere, the surest first of those that builders use.
pub fn published_processes() -> Vec<Process> {
    let process = |name: &str, [least, best, most]: [f64; 3], sure, source: &str| Process {
        name: name.to_owned(),
        gap: JointGap {
            least: Length::from_mm(least),
            best: Length::from_mm(best),
            most: Length::from_mm(most),
        },
        origin: Origin::new(sure, source),
    };
    vec![
        process("fillet brazing", [0.0, 0.1, 0.25], Sure::Remembered, "what builders aim at"),
        process(
            "TIG welding",
            [0.0, 0.0, 0.1],
            Sure::Remembered,
            "what builders aim at: no light through the joint",
        ),
        process(
            "silver brazing",
            [0.025, 0.038, 0.127],
            Sure::Read,
            "a filler maker's note on clearance, after R. H. Leach's chart of 1939: strongest at 0.0015 in, still \
             strong from 0.001 to 0.005 in",
        ),
        process(
            "copper brazing in a furnace",
            [0.0, 0.0, 0.051],
            Sure::Quoted,
            "a welders' forum quoting the AWS Brazing Handbook, 4th edition: 0.000 to 0.002 in",
        ),
        process(
            "nickel brazing",
            [0.0, 0.03, 0.076],
            Sure::Read,
            "an alloy maker's article: full strength below 0.003 in",
        ),
    ]
}
