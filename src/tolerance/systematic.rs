//! What a pair of finished stays says of the bench: errors that both sides show come from what both share, and will come
//! again with the next pair unless they are allowed for.

use super::as_cut::DEGREE;
use super::estimate::{Estimate, Known};
use super::finished::{Finished, Part, Unknown, outwards};
use super::least_squares::Uncertainty;
use super::place::{Place, SettingKind};
use super::set_up::{Hinge, StaySetUp};
use crate::geometry::Line;
use crate::model::{Hand, PairName};

/// By how much a setting seems to be off: the true figure less the nominal one, as [`RearEnd`](super::RearEnd) takes it.
/// Setting it to that much less than nominal allows for it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SystematicError {
    /// Which setting.
    pub place: Place,
    /// By how much it is off, mm or degrees.
    pub off: Known,
}

impl SystematicError {
    /// Whether it is more than the readings' own uncertainty would bring, at two standard uncertainties.
    pub fn is_clear(&self) -> bool {
        self.off.standard.is_some_and(|standard| self.off.value.abs() > 2.0 * standard)
    }
}

impl Finished {
    /// The errors of the bench that the readings show, pair by pair. Those that they leave open are left out.
    ///
    /// Both stays long alike: the slide, or for round dropouts the table. Cope angles off by the same: the posts' spacing,
    /// or on the seat tube the tilt. Off by opposite amounts: the fixture stood turned to the spindle.
    pub fn systematic_errors(&self, estimate: &Estimate) -> Vec<SystematicError> {
        PairName::ALL.into_iter().flat_map(|pair| self.pair_errors(estimate, pair)).collect()
    }

    fn pair_errors(&self, estimate: &Estimate, pair: PairName) -> Vec<SystematicError> {
        let Some(stay) = self.rear.set_up().stay(pair, Hand::Right) else { return Vec::new() };
        let shared = |kind| Place { pair: Some(pair), ..Place::shared(kind) };
        let at_front = |kind| Place { at_front: Some(true), ..shared(kind) };
        let alike = |by: f64| [0.5 * by, 0.5 * by];
        let length = match stay.rear {
            Some(_) => (at_front(SettingKind::Along), Part::Length, alike(-stay.secant)),
            None => (shared(SettingKind::Slide), Part::Length, alike(stay.secant)),
        };
        let mut wanted = vec![length];
        match (&stay.front, stay.hinge) {
            (Some(round), Hinge::Upright(_)) => {
                wanted.push((
                    at_front(SettingKind::Tilt),
                    Part::FrontAngle,
                    alike(tilt_per_angle(stay, &round.axis)),
                ));
            }
            (Some(_), Hinge::Across) => {
                // A fixture turned by κ splays the right stay by κ more and the left one by κ less.
                let splay = outwards(stay, true, 1.0) / DEGREE;
                wanted.push((at_front(SettingKind::Turn), Part::FrontAngle, [0.5 * splay, -0.5 * splay]));
                let [a, b] = stay.posts;
                let per_splay = (b.x - a.x) * stay.secant * stay.secant;
                let post = alike(outwards(stay, true, 1.0) * per_splay);
                wanted.push((shared(SettingKind::RearPost), Part::FrontAngle, post));
            }
            (None, _) => {}
        }
        let error = |(place, part, weights)| self.systematic_error(estimate, pair, part, weights, place);
        wanted.into_iter().filter_map(error).collect()
    }

    fn systematic_error(
        &self,
        estimate: &Estimate,
        pair: PairName,
        part: Part,
        [right, left]: [f64; 2],
        place: Place,
    ) -> Option<SystematicError> {
        let weight = |unknown: &Unknown| match unknown.hand {
            _ if unknown.pair != pair || unknown.part != part => 0.0,
            Hand::Right => right,
            Hand::Left => left,
        };
        let weights: Vec<f64> = self.unknowns.iter().map(weight).collect();
        let value = weights.iter().zip(&estimate.solution.values).map(|(weight, value)| weight * value).sum();
        match estimate.solution.says(&weights) {
            Uncertainty::Standard(standard) => {
                Some(SystematicError { place, off: Known { value, standard: Some(standard) } })
            }
            Uncertainty::Open => None,
        }
    }
}

/// By how much the tilt opens for each degree that the sharp angle between stay and spindle does: with `θ` the splay and
/// `τ` the tilt, `cos α = cos θ cos τ`; where the end climbs by `z`, `cos α = |x cos τ ± z sin τ|`.
fn tilt_per_angle(stay: &StaySetUp, spindle: &Line) -> f64 {
    let bent = stay.bent.as_ref().map(|bent| (bent.front.direction.x, bent.front.direction.z));
    let (x, climbs) = bent.unwrap_or((1.0 / stay.secant, 0.0));
    let (sin, cos) = (spindle.direction.z, spindle.direction.x);
    let forwards = if cos < 0.0 { -climbs } else { climbs };
    let cosine = x * cos.abs() + forwards * sin;
    let opens = (x * sin - forwards * cos.abs()) * if cosine < 0.0 { -1.0 } else { 1.0 };
    if opens.abs() < 1e-6 { 0.0 } else { (1.0 - cosine * cosine).max(0.0).sqrt() / opens }
}
