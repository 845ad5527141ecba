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
pub struct Solution {
    /// The inputs.
    pub values: Vec<f64>,
    split: Split,
    reach: f64,
    /// Reading less its estimate, in standard uncertainties of that difference; 0 for a reading that nothing checks.
    pub strays: Vec<f64>,
    /// Sum of the squared residuals, in standard uncertainties.
    pub chi_square: f64,
    /// How many readings more there are than they determine inputs.
    pub freedom: usize,
}

/// What an estimate says of one figure that depends on the inputs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Uncertainty {
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

/// A step is halved so often at most until it brings the inputs nearer to the readings.
const MOST_HALVINGS: i32 = 10;

/// A step shorter than this, in the inputs' units, is none.
const SETTLED: f64 = 1e-10;

/// As many readings as inputs, and no inputs within two standard uncertainties of them: the sum of squares from which nothing
/// fits.
const MISFIT: f64 = 4.0;

/// Gauss and Newton's steps over exact slopes, from `start`, each halved until it brings the inputs nearer to the readings
/// (Björck, Numerical Methods for Least Squares Problems, 9.2.1).
///
/// `reach` is how far from `start`, in the inputs' units, the slopes say anything; infinite where the model is linear. A
/// direction of the inputs that the readings know to no better than that counts as unread: no step goes along it.
///
/// `None` where a reading has no counterpart, or where no inputs give readings that should determine them.
pub fn least_squares<M: Model>(
    model: &M,
    start: &[f64],
    reach: f64,
    readings: &[Observed],
) -> Option<Solution> {
    let mut at = Compared::new(model, start.to_vec(), readings)?;
    for _ in 0..MOST_STEPS {
        let step = Split::new(&at.jacobian, reach)?.solve(&at.residuals);
        let next = if step.iter().all(|step| step.abs() < SETTLED) {
            None
        } else {
            at.nearer(model, &step, readings)
        };
        match next {
            Some(next) => at = next,
            None => break,
        }
    }
    at.estimate(reach)
}

/// A model's results beside the readings.
struct Compared {
    inputs: Vec<f64>,
    /// Slopes of the readings by the inputs, each in its standard uncertainty.
    jacobian: DMatrix<f64>,
    /// Reading less result, in standard uncertainties.
    residuals: Vec<f64>,
}

impl Compared {
    fn new<M: Model>(model: &M, inputs: Vec<f64>, readings: &[Observed]) -> Option<Self> {
        let exact: Vec<Input> = inputs.iter().map(|value| Input::new(*value, Distribution::Exact)).collect();
        let all = slopes(model, &exact);
        let mut jacobian = DMatrix::zeros(readings.len(), inputs.len());
        let mut residuals = Vec::with_capacity(readings.len());
        for (i, reading) in readings.iter().enumerate() {
            let linear = all.get(reading.result)?.as_ref()?;
            residuals.push((reading.value - linear.value) / reading.standard);
            for (j, slope) in linear.slopes.iter().enumerate() {
                *jacobian.get_mut((i, j))? = slope / reading.standard;
            }
        }
        let finite = residuals.iter().all(|residual| residual.is_finite());
        finite.then_some(Self { inputs, jacobian, residuals })
    }

    /// Sum of the squared residuals.
    fn squares(&self) -> f64 {
        dot(&self.residuals, &self.residuals)
    }

    /// Further along `step`, as far as that comes nearer to the readings; `None` where it does not.
    fn nearer<M: Model>(&self, model: &M, step: &[f64], readings: &[Observed]) -> Option<Self> {
        (0..=MOST_HALVINGS).find_map(|halvings| {
            let part = 0.5f64.powi(halvings);
            let inputs = self.inputs.iter().zip(step).map(|(input, step)| input + part * step).collect();
            Self::new(model, inputs, readings).filter(|next| next.squares() < self.squares())
        })
    }

    fn estimate(self, reach: f64) -> Option<Solution> {
        let split = Split::new(&self.jacobian, reach)?;
        let stray = |(i, residual): (usize, &f64)| {
            let left = 1.0 - split.leverage(i);
            if left > OPEN { residual / left.sqrt() } else { 0.0 }
        };
        let strays = self.residuals.iter().enumerate().map(stray).collect();
        let (chi_square, freedom) = (self.squares(), self.residuals.len().saturating_sub(split.within_reach));
        let fits = freedom > 0 || chi_square < MISFIT;
        fits.then_some(Solution { values: self.inputs, split, reach, strays, chi_square, freedom })
    }
}

/// A slope matrix taken apart (singular values) into directions of the inputs, those that are read best first.
///
/// Products are written out: those of matrices of any size would bring a whole multiplication kernel into the page.
#[derive(Clone, Debug)]
struct Split {
    directions: Vec<Direction>,
    /// How many of them are read at all.
    rank: usize,
    /// How many are known to no worse than the reach of the slopes.
    within_reach: usize,
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
    fn new(jacobian: &DMatrix<f64>, reach: f64) -> Option<Self> {
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
        let read = |direction: &&Direction| direction.singular > UNREAD * largest;
        let known = |direction: &&Direction| reach * direction.singular >= 1.0;
        let rank = directions.iter().filter(read).count();
        let within_reach = directions.iter().filter(read).filter(known).count();
        Some(Self { directions, rank, within_reach })
    }

    fn within_reach(&self) -> impl Iterator<Item = &Direction> {
        self.directions.iter().take(self.within_reach)
    }

    /// The shortest step that takes up the residuals as well as can be.
    fn solve(&self, residuals: &[f64]) -> Vec<f64> {
        let mut step = vec![0.0; self.directions.len()];
        for direction in self.within_reach() {
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
        self.within_reach().map(part).sum()
    }
}

impl Solution {
    /// The uncertainty of a figure whose slopes by the inputs are these.
    pub fn says(&self, slopes: &[f64]) -> Uncertainty {
        let along = |direction: &Direction| dot(&direction.inputs, slopes);
        let unread = self.split.directions.iter().skip(self.split.rank).map(along);
        let open = unread.map(|part| part * part).sum::<f64>().sqrt();
        if slopes.len() != self.values.len() || open > OPEN * dot(slopes, slopes).sqrt().max(OPEN) {
            return Uncertainty::Open;
        }
        // What is hardly read counts in full: a figure that depends on it is as uncertain as that.
        let read = self.split.directions.iter().take(self.split.rank);
        let parts = read.map(|direction| along(direction) / direction.singular);
        let standard = parts.map(|part| part * part).sum::<f64>().sqrt();
        let beyond = standard > self.reach * dot(slopes, slopes).sqrt();
        if beyond { Uncertainty::Open } else { Uncertainty::Standard(standard) }
    }

    /// The probability of readings at least as far apart as these if all is as stated.
    pub fn probability(&self) -> f64 {
        chi_square_above(self.chi_square, self.freedom)
    }
}
