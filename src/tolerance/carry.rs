//! How errors carry through a function: exact slopes, and what they make of the spread of its inputs.

use super::distribution::Distribution;
use crate::units::{Real, ranked};
use num_dual::Dual64;

/// A function of several figures with several results, over any number type.
///
/// A result that does not exist for these inputs is `None`. The count and order of results never change.
pub trait Model {
    /// The results for `inputs`, which come in the order of the [`Input`]s.
    fn results<T: Real>(&self, inputs: &[T]) -> Vec<Option<T>>;
}

/// What is known of one input.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Input {
    /// The best estimate.
    pub estimate: f64,
    /// How far off it can be.
    pub spread: Distribution,
}

impl Input {
    /// An estimate with its spread.
    pub const fn new(estimate: f64, spread: Distribution) -> Self {
        Self { estimate, spread }
    }
}

/// A result's value at the estimates and its slope by every input.
#[derive(Clone, Debug, PartialEq)]
pub struct Linear {
    /// The result at the estimates.
    pub value: f64,
    /// Units of the result gained per unit of each input, in their order.
    pub slopes: Vec<f64>,
}

/// The results for those inputs.
///
/// They come from dual numbers that carry nothing: the page then holds a model once and not once more for plain numbers,
/// which costs a drawn sample about twice its time.
pub fn values<M: Model>(model: &M, inputs: &[f64]) -> Vec<Option<f64>> {
    let inputs: Vec<Dual64> = inputs.iter().map(|x| Dual64::from_re(*x)).collect();
    let value = |result: Option<Dual64>| result.map(|result| result.re).filter(|value| value.is_finite());
    model.results(&inputs).into_iter().map(value).collect()
}

/// Value and exact slopes of every result: one run over dual numbers for each input.
///
/// A result that has a corner at the estimates (a gap that opens either way) gets its slope for growing inputs.
pub fn slopes<M: Model>(model: &M, inputs: &[Input]) -> Vec<Option<Linear>> {
    let estimates: Vec<f64> = inputs.iter().map(|input| input.estimate).collect();
    let start = |value: Option<f64>| Some(Linear { value: value?, slopes: Vec::with_capacity(inputs.len()) });
    let mut found: Vec<Option<Linear>> = values(model, &estimates).into_iter().map(start).collect();
    for towards in 0..inputs.len() {
        let dual = |(i, x): (usize, &f64)| Dual64::new(*x, if i == towards { 1.0 } else { 0.0 });
        let at: Vec<Dual64> = estimates.iter().enumerate().map(dual).collect();
        for (linear, result) in found.iter_mut().zip(model.results(&at)) {
            let slope = result.map(|result| result.eps).filter(|eps| eps.is_finite());
            match (linear.as_mut(), slope) {
                (Some(linear), Some(slope)) => linear.slopes.push(slope),
                _ => *linear = None,
            }
        }
    }
    found
}

/// What one input adds to a result's uncertainty.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Share {
    /// Which input, by its place.
    pub input: usize,
    /// Units of the result per unit of the input.
    pub slope: f64,
    /// Slope times standard uncertainty, 0 or more.
    pub standard: f64,
    /// Slope times the input's largest error, 0 or more.
    pub worst: f64,
    /// Its part of the variance, 0 to 1.
    pub part: f64,
}

/// The uncertainty of one result and where it comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct Budget {
    /// The result at the estimates.
    pub value: f64,
    /// Combined standard uncertainty: the root sum of squares (JCGM 100, 5.1.2).
    pub standard: f64,
    /// The sum of all shares at their largest.
    pub worst: f64,
    /// Effective degrees of freedom (Welch and Satterthwaite, JCGM 100, G.4.1); `None` where nothing limits them.
    pub freedom: Option<f64>,
    /// One share for each input, the largest part first.
    pub shares: Vec<Share>,
}

/// The budget of a result whose inputs are independent.
pub fn budget(linear: &Linear, inputs: &[Input]) -> Budget {
    let paired = linear.slopes.iter().zip(inputs).enumerate();
    let mut shares: Vec<Share> = paired
        .map(|(input, (slope, known))| Share {
            input,
            slope: *slope,
            standard: (slope * known.spread.standard()).abs(),
            worst: (slope * known.spread.worst()).abs(),
            part: 0.0,
        })
        .collect();
    let variance: f64 = shares.iter().map(|share| share.standard * share.standard).sum();
    for share in &mut shares {
        share.part = if variance > 0.0 { share.standard * share.standard / variance } else { 0.0 };
    }
    let freedom = effective_freedom(&shares, inputs, variance);
    let worst = shares.iter().map(|share| share.worst).sum();
    // Inputs without spread come last, those with the steepest slope first.
    let order = |share: &Share| [share.standard, share.slope.abs()];
    let shares = ranked(shares, |a, b| order(a) >= order(b));
    Budget { value: linear.value, standard: variance.sqrt(), worst, freedom, shares }
}

fn effective_freedom(shares: &[Share], inputs: &[Input], variance: f64) -> Option<f64> {
    let term = |(share, input): (&Share, &Input)| {
        input.spread.freedom().map_or(0.0, |freedom| share.standard.powi(4) / f64::from(freedom))
    };
    let sum: f64 = shares.iter().zip(inputs).map(term).sum();
    (sum > 0.0).then(|| variance * variance / sum)
}
