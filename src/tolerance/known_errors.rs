//! What the builder knows of the bench better than the starting values.

use super::distribution::Distribution;
use super::outcome::What;
use super::place::Place;
use super::rear_end::RearEnd;

/// The builder's own figures, each with what it is of; what the rear end lacks is passed over.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct KnownErrors {
    /// Largest errors of settings, mm or degrees.
    pub spreads: Vec<(Place, f64)>,
    /// Limits of results, mm.
    pub limits: Vec<(What, f64)>,
    /// By how much settings are known to be off, true figure less nominal, mm or degrees.
    pub offsets: Vec<(Place, f64)>,
}

impl RearEnd {
    /// Takes over what the builder knows better.
    pub fn apply(&mut self, known: &KnownErrors) {
        for (place, half_width) in &known.spreads {
            self.set_spread(place, Distribution::Rectangular { half_width: *half_width });
        }
        for (what, most) in &known.limits {
            for outcome in self.outcomes.iter_mut().filter(|outcome| outcome.what == *what) {
                outcome.limit = outcome.limit.with(*most);
            }
        }
        for (place, off) in &known.offsets {
            for setting in self.settings.iter_mut().filter(|setting| place.covers(&setting.place)) {
                setting.off += off;
            }
        }
    }
}
