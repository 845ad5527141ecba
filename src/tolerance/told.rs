//! What the builder knows of the bench better than the starting values.

use super::distribution::Distribution;
use super::place::Place;
use super::rear_end::RearEnd;

/// Names with their numbers; a name that the rear end lacks is passed over.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Told {
    /// Largest errors of settings, mm or degrees.
    pub spreads: Vec<(String, f64)>,
    /// Limits of results, mm.
    pub limits: Vec<(String, f64)>,
    /// By how much settings are known to be off, true figure less told, mm or degrees.
    pub learned: Vec<(String, f64)>,
}

impl RearEnd {
    /// Takes over what the builder knows better.
    pub fn tell(&mut self, told: &Told) {
        for (id, half_width) in &told.spreads {
            self.set_spread(id, Distribution::Rectangular { half_width: *half_width });
        }
        for (id, most) in &told.limits {
            for outcome in self.outcomes.iter_mut().filter(|outcome| outcome.id == *id) {
                outcome.limit = outcome.limit.with(*most);
            }
        }
        for (id, off) in &told.learned {
            let Some(place) = Place::from_id(id) else { continue };
            for setting in self.settings.iter_mut().filter(|setting| place.covers(&setting.place)) {
                setting.off += off;
            }
        }
    }
}
