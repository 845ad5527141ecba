//! What the readings say: the stays as they are, a verdict on each result, and whether the readings agree.

use super::allocation::COVERAGE;
use super::carry::{Input, Linear, slopes};
use super::chance::normal_between;
use super::distribution::Distribution;
use super::finished::Finished;
use super::least_squares::{Observed, Solution, Uncertainty, least_squares};
use super::measurand::Measurand;
use super::outcome::Limit;

/// One reading as entered.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// What was measured.
    pub measurand: Measurand,
    /// What was read, in the figure's unit.
    pub value: f64,
    /// Its standard uncertainty, more than 0.
    pub standard: f64,
}

/// Why a reading was left out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// This job has no such figure.
    NoSuchFigure,
    /// The reading is no number.
    NoNumber,
    /// Its uncertainty is not more than 0, or no number.
    NoUncertainty,
}

/// Slopes of finished stays say nothing of stays that are off by more, mm or degrees. Readings that know a stay to no better leave
/// it open.
const REACH: f64 = 10.0;

/// Readings further apart than happens by chance in one case of this many in a hundred contradict each other.
pub const CONTRADICTS_BELOW: f64 = 0.05;
/// A limit that is kept with at least this probability is kept.
pub const KEPT_FROM: f64 = 0.95;
/// One that is kept with at most this is not.
pub const BROKEN_FROM: f64 = 0.05;

/// Whether a result keeps its limit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Verdict {
    /// It does, with that probability.
    Within(f64),
    /// It may, with that probability.
    Marginal(f64),
    /// It does not: it keeps it with that probability only.
    Out(f64),
    /// The readings leave it open: they say nothing of it, or so little that its doubt is wider than its limits.
    Open,
    /// It does not exist: stays that pass their members by have no seat.
    None,
}

impl Verdict {
    fn of(value: f64, standard: f64, (low, high): (f64, f64)) -> Self {
        let probability = normal_between(value, standard, low, high);
        let doubt = COVERAGE * standard;
        let hides = value - doubt < low && high < value + doubt;
        match probability {
            p if p >= KEPT_FROM => Self::Within(p),
            p if p > BROKEN_FROM => Self::Marginal(p),
            _ if hides => Self::Open,
            p => Self::Out(p),
        }
    }

    /// Whether it keeps its limit for sure.
    pub const fn is_within(self) -> bool {
        matches!(self, Self::Within(_))
    }
}

/// A figure as found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Known {
    /// Its value, mm or degrees; what the readings leave open is as planned.
    pub value: f64,
    /// Its standard uncertainty; `None` where the readings leave it open.
    pub standard: Option<f64>,
}

/// A result as found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Judged {
    /// Its value and uncertainty; `None` where it does not exist.
    pub known: Option<Known>,
    /// Whether it keeps its limit.
    pub verdict: Verdict,
}

/// Whether the readings agree with each other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Agreement {
    /// Sum of squared residuals, in standard uncertainties.
    pub chi_square: f64,
    /// How many readings more there are than they determine.
    pub freedom: usize,
    /// The probability of readings at least that far apart.
    pub probability: f64,
    /// The reading that strays most from what the others say, and by how many of its standard uncertainties; `None`
    /// where no reading is checked by others.
    pub worst: Option<(Measurand, f64)>,
}

impl Agreement {
    /// Whether they contradict each other, at [`CONTRADICTS_BELOW`].
    pub fn contradicts(&self) -> bool {
        self.freedom > 0 && self.probability < CONTRADICTS_BELOW
    }
}

/// What the readings say.
#[derive(Clone, Debug)]
pub struct Estimate {
    /// By how much the stays differ from the plan, one for each of [`Finished::unknowns`].
    pub stays: Vec<Known>,
    /// One for each outcome of the rear end.
    pub results: Vec<Judged>,
    /// Whether the readings agree.
    pub agreement: Agreement,
    /// Readings that were left out, and why.
    pub refused: Vec<(Measurand, Refusal)>,
    pub(super) solution: Solution,
}

impl Finished {
    /// The stays as the readings have them; `None` where no stays fit them, such as lengths that cannot be.
    ///
    /// Without any reading everything is open.
    pub fn estimate(&self, readings: &[Reading]) -> Option<Estimate> {
        let mut refused = Vec::new();
        let mut kept = Vec::new();
        for reading in readings {
            match self.observed(reading) {
                Ok(observed) => kept.push((reading, observed)),
                Err(why) => refused.push((reading.measurand, why)),
            }
        }
        let observed: Vec<Observed> = kept.iter().map(|(_, observed)| *observed).collect();
        let solution = least_squares(self, &vec![0.0; self.unknowns.len()], REACH, &observed)?;
        let read: Vec<Measurand> = kept.iter().map(|(reading, _)| reading.measurand).collect();
        Some(Estimate {
            stays: self.stays(&solution),
            results: self.judged(&solution),
            agreement: agreement(&solution, &read),
            refused,
            solution,
        })
    }

    fn observed(&self, reading: &Reading) -> Result<Observed, Refusal> {
        let place = self.measurements.iter().position(|one| one.measurand == reading.measurand);
        let result = place.ok_or(Refusal::NoSuchFigure)?;
        if !reading.value.is_finite() {
            return Err(Refusal::NoNumber);
        }
        if !reading.standard.is_finite() || reading.standard <= 0.0 {
            return Err(Refusal::NoUncertainty);
        }
        Ok(Observed { result, value: reading.value, standard: reading.standard })
    }

    fn stays(&self, solution: &Solution) -> Vec<Known> {
        let count = self.unknowns.len();
        let known = |(i, value): (usize, &f64)| {
            let own: Vec<f64> = (0..count).map(|j| if i == j { 1.0 } else { 0.0 }).collect();
            known(*value, &own, solution)
        };
        solution.values.iter().enumerate().map(known).collect()
    }

    fn judged(&self, solution: &Solution) -> Vec<Judged> {
        let inputs: Vec<Input> =
            solution.values.iter().map(|value| Input::new(*value, Distribution::Exact)).collect();
        let results = slopes(self, &inputs).split_off(self.measurements.len());
        let limits = self.rear.outcomes.iter().map(|outcome| outcome.limit);
        results.into_iter().zip(limits).map(|(result, limit)| judge(result, limit, solution)).collect()
    }
}

fn known(value: f64, slopes: &[f64], solution: &Solution) -> Known {
    let standard = match solution.says(slopes) {
        Uncertainty::Standard(standard) => Some(standard),
        Uncertainty::Open => None,
    };
    Known { value, standard }
}

fn judge(result: Option<Linear>, limit: Limit, solution: &Solution) -> Judged {
    let Some(linear) = result else { return Judged { known: None, verdict: Verdict::None } };
    let known = known(linear.value, &linear.slopes, solution);
    let of = |standard| Verdict::of(known.value, standard, limit.range());
    let verdict = known.standard.map_or(Verdict::Open, of);
    Judged { known: Some(known), verdict }
}

fn agreement(solution: &Solution, read: &[Measurand]) -> Agreement {
    let strays = solution.strays.iter().zip(read);
    let worst = strays.max_by(|a, b| a.0.abs().total_cmp(&b.0.abs()));
    Agreement {
        chi_square: solution.chi_square,
        freedom: solution.freedom,
        probability: solution.probability(),
        worst: worst.filter(|(stray, _)| **stray != 0.0).map(|(stray, measurand)| (*measurand, *stray)),
    }
}
