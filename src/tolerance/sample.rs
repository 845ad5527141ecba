//! Monte Carlo: the model run on drawn inputs (JCGM 101), and what the runs say.

use super::carry::{Input, Model, values};
use fastrand::Rng;
use std::cmp::Ordering;
use std::collections::BinaryHeap;

/// The runs in which one result existed.
#[derive(Clone, Debug, PartialEq)]
pub struct Sample {
    /// The results, smallest first.
    pub sorted: Vec<f64>,
    /// In how many runs there was no result.
    pub missing: usize,
    /// The seed that every draw follows from.
    pub seed: u64,
}

/// Draws the inputs `runs` times and gathers every result. The same seed gives the same sample.
pub fn sample<M: Model>(model: &M, inputs: &[Input], runs: usize, seed: u64) -> Vec<Sample> {
    let mut rng = Rng::with_seed(seed);
    let mut samples: Vec<Sample> = Vec::new();
    let mut drawn = vec![0.0; inputs.len()];
    for _ in 0..runs {
        for (at, input) in drawn.iter_mut().zip(inputs) {
            *at = input.estimate + input.spread.draw(&mut rng);
        }
        let results = values(model, &drawn);
        if samples.is_empty() {
            let empty = || Sample { sorted: Vec::with_capacity(runs), missing: 0, seed };
            samples.resize_with(results.len(), empty);
        }
        for (sample, result) in samples.iter_mut().zip(results) {
            match result {
                Some(result) => sample.sorted.push(result),
                None => sample.missing += 1,
            }
        }
    }
    for sample in &mut samples {
        sample.sorted = in_order(std::mem::take(&mut sample.sorted));
    }
    samples
}

/// Smallest first, by a heap: its code is a tenth of the standard sort's, which nothing else on the page needs.
fn in_order(values: Vec<f64>) -> Vec<f64> {
    let heap: BinaryHeap<Total> = values.into_iter().map(Total).collect();
    heap.into_sorted_vec().into_iter().map(|Total(value)| value).collect()
}

/// A number in the total order of IEEE 754.
struct Total(f64);

impl Ord for Total {
    fn cmp(&self, other: &Self) -> Ordering {
        self.0.total_cmp(&other.0)
    }
}

impl PartialOrd for Total {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for Total {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other).is_eq()
    }
}

impl Eq for Total {}

impl Sample {
    /// How many runs there were.
    pub const fn runs(&self) -> usize {
        self.sorted.len() + self.missing
    }

    /// The mean; `None` where no run had a result.
    pub fn mean(&self) -> Option<f64> {
        let count = self.sorted.len() as f64;
        (count > 0.0).then(|| self.sorted.iter().sum::<f64>() / count)
    }

    /// The standard deviation; `None` for fewer than two results.
    pub fn standard(&self) -> Option<f64> {
        let mean = self.mean().filter(|_| self.sorted.len() > 1)?;
        let squares: f64 = self.sorted.iter().map(|x| (x - mean).powi(2)).sum();
        Some((squares / (self.sorted.len() - 1) as f64).sqrt())
    }

    /// The value that a part `p` of the results, 0 to 1, does not exceed.
    pub fn quantile(&self, p: f64) -> Option<f64> {
        let last = self.sorted.len().checked_sub(1)?;
        self.sorted.get(((last as f64) * p).round() as usize).copied()
    }

    /// The interval with a part `p` of the results in it and as much left out below as above.
    pub fn interval(&self, p: f64) -> Option<(f64, f64)> {
        Some((self.quantile(0.5 - 0.5 * p)?, self.quantile(0.5 + 0.5 * p)?))
    }

    /// The part of all runs whose result existed and held `good`.
    pub fn part(&self, good: impl Fn(f64) -> bool) -> f64 {
        let held = self.sorted.iter().filter(|x| good(**x)).count();
        if self.runs() == 0 { 0.0 } else { held as f64 / self.runs() as f64 }
    }
}
