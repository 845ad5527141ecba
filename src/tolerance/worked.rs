//! Published worked examples, done again by the same engine that the page uses: its self-check.

use super::carry::{Budget, Input, Model, budget, slopes};
use super::distribution::Distribution;
use super::sample::sample;
use crate::units::Real;

/// One figure of an example.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WorkedFigure {
    /// What it is, with its unit.
    pub what: &'static str,
    /// As published.
    pub published: f64,
    /// As found here.
    pub found: f64,
    /// How far they may be apart: half of the published figure's last digit, and what a drawn sample scatters.
    pub within: f64,
}

impl WorkedFigure {
    /// Whether both agree.
    pub fn agrees(&self) -> bool {
        (self.found - self.published).abs() <= self.within
    }
}

/// One example.
#[derive(Clone, Debug, PartialEq)]
pub struct Worked {
    /// What it is called.
    pub name: &'static str,
    /// Where it is published, and how its figures were come by.
    pub source: &'static str,
    /// Its figures.
    pub figures: Vec<WorkedFigure>,
}

/// The examples; the drawn one takes that many runs from that seed. From 100 000 runs on its figures settle to what they
/// may be apart.
pub fn worked_examples(runs: usize, seed: u64) -> Vec<Worked> {
    vec![end_gauge(), gauge_block(runs, seed), stack()].into_iter().flatten().collect()
}

/// An end gauge compared with a standard. Inputs: standard, mean difference, comparator's random and systematic part,
/// expansion, mean temperature off 20 °C, cyclic temperature, difference of expansion, difference of temperature.
struct EndGauge {
    /// What the length is counted from, nm.
    from: f64,
}

impl Model for EndGauge {
    fn results<T: Real>(&self, inputs: &[T]) -> Vec<Option<T>> {
        let [standard, mean, random, systematic, expands, warm, cycle, expands_by, warmer] = inputs else {
            return vec![None];
        };
        let grown = *standard * (*expands_by * (*warm + *cycle) + *expands * *warmer);
        vec![Some(*standard - T::of(self.from) + *mean + *random + *systematic - grown)]
    }
}

const fn student(standard: f64, freedom: u32) -> Distribution {
    Distribution::Student { standard, freedom }
}

/// JCGM 100, H.1: lengths in nm.
fn end_gauge_inputs() -> [Input; 9] {
    [
        Input::new(50_000_623.0, student(25.0, 18)),
        Input::new(215.0, student(5.8, 24)),
        Input::new(0.0, student(3.9, 5)),
        Input::new(0.0, student(6.7, 8)),
        Input::new(11.5e-6, Distribution::Rectangular { half_width: 2e-6 }),
        Input::new(-0.1, Distribution::Normal { standard: 0.2 }),
        Input::new(0.0, Distribution::Arcsine { half_width: 0.5 }),
        Input::new(0.0, student(1e-6 / 3f64.sqrt(), 50)),
        Input::new(0.0, student(0.05 / 3f64.sqrt(), 2)),
    ]
}

/// JCGM 101, 9.5: the same gauge, spreads rounded and some limits inexact.
fn gauge_block_inputs() -> [Input; 9] {
    let [standard, mean, random, systematic, expands, warm, cycle, expands_by, warmer] = end_gauge_inputs();
    let spread = |input: Input, spread| Input { spread, ..input };
    [
        standard,
        spread(mean, student(6.0, 24)),
        spread(random, student(4.0, 5)),
        spread(systematic, student(7.0, 8)),
        expands,
        warm,
        cycle,
        spread(expands_by, Distribution::InexactLimits { half_width: 1e-6, doubt: 0.1e-6 }),
        spread(warmer, Distribution::InexactLimits { half_width: 0.05, doubt: 0.025 }),
    ]
}

fn only_budget<M: Model>(model: &M, inputs: &[Input]) -> Option<Budget> {
    let linear = slopes(model, inputs).into_iter().next()??;
    Some(budget(&linear, inputs))
}

fn share(budget: &Budget, input: usize) -> f64 {
    budget.shares.iter().find(|share| share.input == input).map_or(0.0, |share| share.standard)
}

const fn figure(what: &'static str, published: f64, within: f64, found: f64) -> WorkedFigure {
    WorkedFigure { what, published, found, within }
}

fn end_gauge() -> Option<Worked> {
    let found = only_budget(&EndGauge { from: 0.0 }, &end_gauge_inputs())?;
    let comparison = [1, 2, 3].map(|input| share(&found, input).powi(2)).iter().sum::<f64>().sqrt();
    Some(Worked {
        name: "End gauge",
        source: "JCGM 100:2008, H.1. Inputs, length, uncertainty, freedom and the comparison's part as replayed by two \
                 public uncertainty libraries; the parts of expansion and temperature from memory.",
        figures: vec![
            figure("length, nm", 50_000_838.0, 0.5, found.value),
            figure("standard uncertainty, nm", 32.0, 0.5, found.standard),
            figure("effective degrees of freedom, rounded down", 16.0, 0.0, found.freedom?.floor()),
            figure("of which the comparison, nm", 9.7, 0.05, comparison),
            figure("of which the difference of temperature, nm", 16.6, 0.05, share(&found, 8)),
            figure("of which the difference of expansion, nm", 2.9, 0.05, share(&found, 7)),
            figure("of which the expansion, nm", 0.0, 0.0, share(&found, 4)),
        ],
    })
}

fn gauge_block(runs: usize, seed: u64) -> Option<Worked> {
    let drawn =
        sample(&EndGauge { from: 50_000_000.0 }, &gauge_block_inputs(), runs, seed).into_iter().next()?;
    let (low, high) = drawn.interval(0.99)?;
    Some(Worked {
        name: "Gauge block, drawn",
        source: "JCGM 101:2008, 9.5. Result as replayed in a paper on digital calibration certificates; inputs from \
                 memory, most as in H.1.",
        figures: vec![
            figure("deviation, nm", 838.0, 0.8, drawn.mean()?),
            figure("standard uncertainty, nm", 36.0, 0.7, drawn.standard()?),
            figure("99 % from, nm", 745.0, 3.0, low),
            figure("99 % to, nm", 932.0, 3.0, high),
        ],
    })
}

/// What is left of a bore over three parts in it.
struct Stack;

impl Model for Stack {
    fn results<T: Real>(&self, inputs: &[T]) -> Vec<Option<T>> {
        let [bore, spacer, ring, shoulder] = inputs else { return vec![None] };
        vec![Some(*bore - *spacer - *ring - *shoulder)]
    }
}

fn stack() -> Option<Worked> {
    let part = |nominal, half_width| Input::new(nominal, Distribution::Rectangular { half_width });
    let inputs = [part(40.0, 0.10), part(25.0, 0.05), part(2.0, 0.03), part(10.0, 0.05)];
    let found = only_budget(&Stack, &inputs)?;
    Some(Worked {
        name: "Stack of parts",
        source: "“Tolerance stack-up: a worked example”, metricmech.com, read; the root of squares by hand.",
        figures: vec![
            figure("gap, mm", 3.0, 1e-9, found.value),
            figure("worst case, ± mm", 0.23, 1e-9, found.worst),
            // Like rectangles: the root of the squares of their limits is that of their standard uncertainties times √3.
            figure("root of squares, ± mm", 0.126, 5e-4, found.standard * 3f64.sqrt()),
        ],
    })
}
