//! Weighted least squares: the inputs of a model from readings of its results.

use super::carry::{Input, Model, slopes};
use super::chance::chi_square_above;
use super::distribution::Distribution;
use nalgebra::{DMatrix, DVector};

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
    /// Their covariance, as far as the readings determine them.
    covariance: DMatrix<f64>,
    /// Directions of the inputs that the readings leave free, one a column.
    free: DMatrix<f64>,
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
        for (value, step) in values.iter_mut().zip(step.iter()) {
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
    let covariance = split.covariance();
    let fitted = &jacobian * &covariance * jacobian.transpose();
    let stray = |(i, residual): (usize, &f64)| {
        let left = 1.0 - fitted.get((i, i)).copied().unwrap_or(1.0);
        if left > OPEN { residual / left.sqrt() } else { 0.0 }
    };
    let freedom = readings.len().saturating_sub(split.rank);
    Some(Estimate {
        strays: residuals.iter().enumerate().map(stray).collect(),
        chi_square: residuals.norm_squared(),
        freedom,
        free: split.free(),
        covariance,
        values,
    })
}

/// Slopes and residuals of the readings, each in its standard uncertainty.
fn weighted<M: Model>(
    model: &M,
    values: &[f64],
    readings: &[Observed],
) -> Option<(DMatrix<f64>, DVector<f64>)> {
    let inputs: Vec<Input> = values.iter().map(|value| Input::new(*value, Distribution::Exact)).collect();
    let all = slopes(model, &inputs);
    let mut jacobian = DMatrix::zeros(readings.len(), values.len());
    let mut residuals = DVector::zeros(readings.len());
    for (i, reading) in readings.iter().enumerate() {
        let linear = all.get(reading.result)?.as_ref()?;
        *residuals.get_mut(i)? = (reading.value - linear.value) / reading.standard;
        for (j, slope) in linear.slopes.iter().enumerate() {
            *jacobian.get_mut((i, j))? = slope / reading.standard;
        }
    }
    residuals.iter().all(|residual| residual.is_finite()).then_some((jacobian, residuals))
}

/// A slope matrix taken apart into what is read and what is not.
struct Split {
    /// Right singular vectors, all of them, one a row.
    rows: DMatrix<f64>,
    singular: Vec<f64>,
    left: DMatrix<f64>,
    rank: usize,
}

impl Split {
    fn new(jacobian: &DMatrix<f64>) -> Option<Self> {
        let (readings, unknowns) = jacobian.shape();
        // Empty rows below make the matrix tall, so that all right singular vectors come out.
        let tall = jacobian.clone().resize_vertically(readings.max(unknowns), 0.0);
        let svd = tall.try_svd(true, true, f64::EPSILON, 1000)?;
        let singular: Vec<f64> = svd.singular_values.iter().copied().collect();
        let largest = singular.iter().copied().fold(0.0, f64::max);
        let rank = singular.iter().filter(|value| **value > UNREAD * largest).count();
        Some(Self { rows: svd.v_t?, singular, left: svd.u?, rank })
    }

    /// The shortest step that takes up the residuals as well as can be.
    fn solve(&self, residuals: &DVector<f64>) -> DVector<f64> {
        let tall = residuals.clone().resize_vertically(self.left.nrows(), 0.0);
        let mut step = DVector::zeros(self.rows.ncols());
        for (i, value) in self.singular.iter().enumerate().take(self.rank) {
            step += self.rows.row(i).transpose() * (self.left.column(i).dot(&tall) / value);
        }
        step
    }

    fn covariance(&self) -> DMatrix<f64> {
        let mut sum = DMatrix::zeros(self.rows.ncols(), self.rows.ncols());
        for (i, value) in self.singular.iter().enumerate().take(self.rank) {
            let row = self.rows.row(i);
            sum += row.transpose() * row / (value * value);
        }
        sum
    }

    fn free(&self) -> DMatrix<f64> {
        self.rows.rows(self.rank, self.rows.nrows() - self.rank).transpose()
    }
}

impl Estimate {
    /// The uncertainty of a figure whose slopes by the inputs are these.
    pub fn says(&self, slopes: &[f64]) -> Said {
        let slopes = DVector::from_column_slice(slopes);
        if slopes.len() != self.covariance.nrows() {
            return Said::Open;
        }
        let open = (self.free.transpose() * &slopes).norm();
        if open > OPEN * slopes.norm().max(OPEN) {
            return Said::Open;
        }
        Said::Standard((slopes.transpose() * &self.covariance * &slopes).sum().max(0.0).sqrt())
    }

    /// The probability of readings at least as far apart as these if all is as stated.
    pub fn probability(&self) -> f64 {
        chi_square_above(self.chi_square, self.freedom)
    }
}
