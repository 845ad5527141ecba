//! Weighted least squares: the inputs of a model from readings of its results.

use super::carry::{Input, Model, slopes};
use super::chance::chi_square_above;
use super::distribution::Distribution;
use nalgebra::DMatrix;

/// One reading of a model's result.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Observed {
    /// Which result, by its place.
    pub result: usize,
    /// What was read.
    pub value: f64,
    /// Its standard uncertainty, more than 0.
    pub standard: f64,
}

/// The inputs that agree best with the readings. What no reading says anything of stays at its start.
#[derive(Clone, Debug)]
pub struct Estimate {
    /// The inputs.
    pub values: Vec<f64>,
    split: Split,
    /// Reading less its estimate, in standard uncertainties of that difference; 0 for a reading that nothing checks.
    pub strays: Vec<f64>,
    /// Sum of the squared residuals, in standard uncertainties.
    pub chi_square: f64,
    /// How many readings more there are than they determine inputs.
    pub freedom: usize,
}

/// What an estimate says of one figure that depends on the inputs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Said {
    /// Its standard uncertainty.
    Standard(f64),
    /// The readings leave it open.
    Open,
}

const MOST_STEPS: usize = 30;

/// Part of the largest singular value below which a direction counts as not read at all.
const UNREAD: f64 = 1e-9;

/// Part of a slope that may lie in a free direction before the figure counts as open.
const OPEN: f64 = 1e-6;

/// Gauss and Newton's steps over exact slopes, from `start`. `None` where a reading has no counterpart, or the steps do
/// not settle.
pub fn least_squares<M: Model>(model: &M, start: &[f64], readings: &[Observed]) -> Option<Estimate> {
    let mut values = start.to_vec();
    for _ in 0..MOST_STEPS {
        let (jacobian, residuals) = weighted(model, &values, readings)?;
        let split = Split::new(&jacobian)?;
        let step = split.solve(&residuals);
        for (value, step) in values.iter_mut().zip(&step) {
            *value += step;
        }
        if step.iter().all(|step| step.abs() < 1e-10) {
            return estimate(model, values, readings);
        }
    }
    None
}

fn estimate<M: Model>(model: &M, values: Vec<f64>, readings: &[Observed]) -> Option<Estimate> {
    let (jacobian, residuals) = weighted(model, &values, readings)?;
    let split = Split::new(&jacobian)?;
    let stray = |(i, residual): (usize, &f64)| {
        let left = 1.0 - split.leverage(i);
        if left > OPEN { residual / left.sqrt() } else { 0.0 }
    };
    Some(Estimate {
        strays: residuals.iter().enumerate().map(stray).collect(),
        chi_square: dot(&residuals, &residuals),
        freedom: readings.len().saturating_sub(split.rank),
        split,
        values,
    })
}

/// Slopes and residuals of the readings, each in its standard uncertainty.
fn weighted<M: Model>(model: &M, values: &[f64], readings: &[Observed]) -> Option<(DMatrix<f64>, Vec<f64>)> {
    let inputs: Vec<Input> = values.iter().map(|value| Input::new(*value, Distribution::Exact)).collect();
    let all = slopes(model, &inputs);
    let mut jacobian = DMatrix::zeros(readings.len(), values.len());
    let mut residuals = Vec::with_capacity(readings.len());
    for (i, reading) in readings.iter().enumerate() {
        let linear = all.get(reading.result)?.as_ref()?;
        residuals.push((reading.value - linear.value) / reading.standard);
        for (j, slope) in linear.slopes.iter().enumerate() {
            *jacobian.get_mut((i, j))? = slope / reading.standard;
        }
    }
    residuals.iter().all(|residual| residual.is_finite()).then_some((jacobian, residuals))
}

/// A slope matrix taken apart (singular values) into directions of the inputs, those that are read best first.
///
/// Products are written out: those of matrices of any size would bring a whole multiplication kernel into the page.
#[derive(Clone, Debug)]
struct Split {
    directions: Vec<Direction>,
    /// How many of them are read at all.
    rank: usize,
}

/// One direction of the inputs and the pattern of readings that goes with it, both of length 1.
#[derive(Clone, Debug)]
struct Direction {
    inputs: Vec<f64>,
    readings: Vec<f64>,
    /// Standard uncertainties of that pattern per unit along the inputs.
    singular: f64,
}

fn dot<'a>(a: impl IntoIterator<Item = &'a f64>, b: impl IntoIterator<Item = &'a f64>) -> f64 {
    a.into_iter().zip(b).map(|(a, b)| a * b).sum()
}

impl Split {
    fn new(jacobian: &DMatrix<f64>) -> Option<Self> {
        let (readings, unknowns) = jacobian.shape();
        // Empty rows below make the matrix tall, so that every direction of the inputs comes out.
        let tall = jacobian.clone().resize_vertically(readings.max(unknowns), 0.0);
        let svd = tall.try_svd(true, true, f64::EPSILON, 1000)?;
        let (left, right) = (svd.u?, svd.v_t?);
        let pairs = left.column_iter().zip(right.row_iter()).zip(svd.singular_values.iter());
        let directions: Vec<Direction> = pairs
            .map(|((readings, inputs), singular)| Direction {
                inputs: inputs.iter().copied().collect(),
                readings: readings.iter().copied().collect(),
                singular: *singular,
            })
            .collect();
        let largest = directions.first().map_or(0.0, |direction| direction.singular);
        let rank = directions.iter().filter(|direction| direction.singular > UNREAD * largest).count();
        Some(Self { directions, rank })
    }

    fn read(&self) -> impl Iterator<Item = &Direction> {
        self.directions.iter().take(self.rank)
    }

    /// The shortest step that takes up the residuals as well as can be.
    fn solve(&self, residuals: &[f64]) -> Vec<f64> {
        let mut step = vec![0.0; self.directions.len()];
        for direction in self.read() {
            let along = dot(&direction.readings, residuals) / direction.singular;
            for (step, part) in step.iter_mut().zip(&direction.inputs) {
                *step += along * part;
            }
        }
        step
    }

    /// How much of its own estimate a reading is, 0 to 1.
    fn leverage(&self, reading: usize) -> f64 {
        let part = |direction: &Direction| direction.readings.get(reading).map_or(0.0, |part| part * part);
        self.read().map(part).sum()
    }
}

impl Estimate {
    /// The uncertainty of a figure whose slopes by the inputs are these.
    pub fn says(&self, slopes: &[f64]) -> Said {
        let along = |direction: &Direction| dot(&direction.inputs, slopes);
        let unread = self.split.directions.iter().skip(self.split.rank).map(along);
        let open = unread.map(|part| part * part).sum::<f64>().sqrt();
        if slopes.len() != self.values.len() || open > OPEN * dot(slopes, slopes).sqrt().max(OPEN) {
            return Said::Open;
        }
        let read = self.split.read().map(|direction| along(direction) / direction.singular);
        Said::Standard(read.map(|part| part * part).sum::<f64>().sqrt())
    }

    /// The probability of readings at least as far apart as these if all is as stated.
    pub fn probability(&self) -> f64 {
        chi_square_above(self.chi_square, self.freedom)
    }
}
