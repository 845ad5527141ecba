//! Where starting figures come from, and tubes to start from.

use super::rooms::sourced;
use crate::link;
use crate::model::{Job, SOURCES, starting_tubes};
use crate::units::LengthUnit;
use serde::{Deserialize, Serialize};

/// What is published for a figure of the surroundings.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Source {
    /// The figure's name.
    pub name: String,
    /// The published figure, where it stands, and how sure it is.
    pub words: String,
}

/// A tube to start from.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct TubeLine {
    /// What it is called.
    pub name: String,
    /// A link text of a job that is plain apart from its name and this tube in its right chainstay.
    pub tube: String,
}

/// The answer.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Starting {
    /// What is published.
    pub sources: Vec<Source>,
    /// Tubes to be measured.
    pub tubes: Vec<TubeLine>,
}

pub(super) fn starting(unit: LengthUnit) -> Starting {
    let source =
        |known: &crate::model::Sourced| Source { name: known.name().to_owned(), words: sourced(known, unit) };
    let tube = |(name, tube): (&str, _)| {
        let mut job = Job { name: name.to_owned(), ..Job::default() };
        job.chainstays.right.tube = tube;
        TubeLine { name: name.to_owned(), tube: link::encode(&job) }
    };
    Starting {
        sources: SOURCES.iter().map(source).collect(),
        tubes: starting_tubes().into_iter().map(tube).collect(),
    }
}
