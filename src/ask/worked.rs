//! Published worked examples, done again.

use crate::tolerance::{Worked, WorkedFigure, worked_examples};
use crate::units::trimmed;
use serde::{Deserialize, Serialize};

/// Draws of the example that is done by drawing: as many as settle its figures.
const RUNS: usize = 100_000;

/// One example.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Example {
    /// What it is called.
    pub name: String,
    /// Where it is published.
    pub source: String,
    /// Its figures.
    pub figures: Vec<ExampleFigure>,
}

/// One figure of an example.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ExampleFigure {
    /// What it is, with its unit.
    pub what: String,
    /// As published.
    pub published: String,
    /// As found here.
    pub found: String,
    /// Whether both agree.
    pub agrees: bool,
}

pub(super) fn examples() -> Vec<Example> {
    worked_examples(RUNS, 1).iter().map(example).collect()
}

fn example(worked: &Worked) -> Example {
    Example {
        name: worked.name.to_owned(),
        source: worked.source.to_owned(),
        figures: worked.figures.iter().map(figure).collect(),
    }
}

fn figure(figure: &WorkedFigure) -> ExampleFigure {
    ExampleFigure {
        what: figure.what.to_owned(),
        published: trimmed(figure.published, 3),
        found: trimmed(figure.found, 3),
        agrees: figure.agrees(),
    }
}
