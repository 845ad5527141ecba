//! A rear end whose settings can be off: the model that errors are carried through.

use super::allocation::{ToleranceAllocation, allocations};
use super::as_cut::{Built, as_cut};
use super::assembly::{Assembly, stand};
use super::carry::{Budget, Input, Linear, Model, budget, slopes};
use super::distribution::Distribution;
use super::errors::StayErrors;
use super::outcome::{Outcome, What, listed, listed_apart, outcomes};
use super::place::Place;
use super::sample::{Sample, sample};
use super::set_up::SetUp;
use super::setting::{Setting, settings};
use super::systematic::SystematicError;
use crate::plan::Plan;
use crate::units::Real;

/// A plan, the settings that can be off when it is carried out, and the results that matter.
///
/// Both lists may be edited: limits and spreads changed, settings taken out. Results keep the order of `outcomes`.
#[derive(Clone, Debug)]
pub struct RearEnd {
    set_up: SetUp,
    /// What can be off.
    pub settings: Vec<Setting>,
    /// What matters.
    pub outcomes: Vec<Outcome>,
}

/// What the settings' spreads do to one result.
#[derive(Clone, Debug, PartialEq)]
pub struct Carried {
    /// Its budget, in mm and, for the shares' slopes, mm per unit of the setting. `None` where the result does not exist.
    pub budget: Option<Budget>,
    /// What each setting must be held to for the result to keep its limit, the closest first. Empty where the limit is
    /// already broken with everything as planned.
    pub allocations: Vec<ToleranceAllocation>,
}

impl RearEnd {
    /// The rear end that a plan asks for, with starting spreads and limits.
    pub fn new(plan: &Plan) -> Self {
        let set_up = SetUp::new(plan);
        let (settings, outcomes) = (settings(plan, &set_up), outcomes(&set_up));
        Self { set_up, settings, outcomes }
    }

    /// What can be off, as the carrying of errors takes it: the error of each setting, as far as it is known.
    pub fn inputs(&self) -> Vec<Input> {
        self.settings.iter().map(|setting| Input::new(setting.off, setting.spread)).collect()
    }

    /// Takes an earlier pair's word for how far a setting is off: results then show what it does if nothing is changed.
    /// How many settings it was.
    pub fn learn(&mut self, error: &SystematicError) -> usize {
        let known = self.settings.iter_mut().filter(|setting| error.place.covers(&setting.place));
        known.map(|setting| setting.off += error.off.value).count()
    }

    /// Sets the spread of a setting; whether there is such a setting and the spread is sound.
    pub fn set_spread(&mut self, place: &Place, spread: Distribution) -> bool {
        let found = self.settings.iter_mut().find(|setting| setting.place == *place && spread.is_sound());
        found.map(|setting| setting.spread = spread).is_some()
    }

    /// Every result at the nominal settings, with its slope by every setting: mm per mm or per degree.
    ///
    /// A gap has a corner where it is closed, and where a saw is of true size: there the slopes are those of opening.
    pub fn slopes(&self) -> Vec<Option<Linear>> {
        let mut apart = slopes(&Apart(self), &self.inputs());
        let rocked = apart.split_off(self.outcomes.len().min(apart.len()));
        let joined = apart.into_iter().zip(rocked).zip(&self.outcomes);
        joined
            .map(|((size, rock), outcome)| match outcome.what {
                What::Gap(_) => Some(opened(&size?, &rock?)),
                _ => size,
            })
            .collect()
    }

    /// What the spreads do to every result, to first order.
    pub fn carried(&self) -> Vec<Carried> {
        let inputs = self.inputs();
        let carry = |(linear, outcome): (Option<Linear>, &Outcome)| {
            let budget = linear.map(|linear| budget(&linear, &inputs));
            let allocated = budget.as_ref().map_or_else(Vec::new, |budget| {
                let room = outcome.limit.room(budget.value);
                if room > 0.0 { allocations(budget, &inputs, room) } else { Vec::new() }
            });
            Carried { budget, allocations: allocated }
        };
        self.slopes().into_iter().zip(&self.outcomes).map(carry).collect()
    }

    /// The same without straightening anything out: each run sets everything anew and builds the rear end.
    pub fn sampled(&self, runs: usize, seed: u64) -> Vec<Sample> {
        sample(self, &self.inputs(), runs, seed)
    }

    pub(super) fn set_up(&self) -> &SetUp {
        &self.set_up
    }

    /// All four stays as cut with those errors.
    pub(super) fn built<T: Real>(&self, errors: &[T]) -> Vec<Option<Built<T>>> {
        let places: Vec<Place> = self.settings.iter().map(|setting| setting.place).collect();
        let cut = |(pair, stay): &(_, super::set_up::StaySetUp)| {
            as_cut(&self.set_up, stay, &StayErrors::gathered(&places, errors, *pair, stay.hand))
        };
        self.set_up.stays.iter().map(cut).collect()
    }

    pub(super) fn standing<T: Real>(&self, stays: &[Option<Built<T>>]) -> Assembly<T> {
        stand(&self.set_up, stays)
    }
}

/// The same model with each gap in its two parts.
struct Apart<'a>(&'a RearEnd);

impl Model for Apart<'_> {
    fn results<T: Real>(&self, errors: &[T]) -> Vec<Option<T>> {
        listed_apart(&self.0.set_up, &self.0.standing(&self.0.built(errors)))
    }
}

/// What is closed to rounding: a gap, mm, or what it gains per unit of a setting.
const CLOSED: f64 = 1e-9;

/// A gap with what rocking adds to it. Where the saw's size leaves none yet, the slope is that of the way it opens.
fn opened(size: &Linear, rock: &Linear) -> Linear {
    let closed = |part: &Linear| part.value.abs() < CLOSED;
    let slope = |(size_slope, rock_slope): (&f64, &f64)| {
        let way = if closed(size) && *size_slope < -CLOSED { -1.0 } else { 1.0 };
        let rocks = if closed(rock) { rock_slope.abs() } else { rock_slope * rock.value.signum() * way };
        size_slope * way + rocks
    };
    let slopes = size.slopes.iter().zip(&rock.slopes).map(slope).collect();
    Linear { value: size.value + rock.value.abs(), slopes }
}

impl Model for RearEnd {
    /// The results for the error of each setting, in mm, in the order of the outcomes.
    fn results<T: Real>(&self, errors: &[T]) -> Vec<Option<T>> {
        listed(&self.set_up, &self.standing(&self.built(errors)))
    }
}
