//! What the builder knows of the bench better than the starting values: how far settings can be off, how far results may
//! go, and by how much a setting is known to be off.

use crate::tolerance::{KnownErrors, Place, What};
use serde::{Deserialize, Serialize};

/// A setting that is known to be off: a correction of the builder's own.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Learned {
    /// Its name among the settings.
    pub id: String,
    /// What the trade calls it.
    pub name: String,
    /// Whether it is an angle.
    pub is_angle: bool,
    /// By how much it is off, true figure less told, mm or degrees.
    pub off: f64,
}

/// Everything told, by the names that the answers give.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct ShopErrors {
    /// Largest error of a setting, mm or degrees.
    pub spreads: Vec<(String, f64)>,
    /// Limit of a result, mm.
    pub limits: Vec<(String, f64)>,
    /// Corrections.
    pub learned: Vec<Learned>,
}

impl ShopErrors {
    /// Nothing on a bench is off by more, mm or degrees.
    pub const MOST: f64 = 100.0;

    /// Keeps the largest error of a setting.
    pub fn spread(&mut self, id: &str, half_width: f64) {
        put(&mut self.spreads, id, half_width);
    }

    /// The builder's own largest error of a setting.
    pub fn spread_of(&self, id: &str) -> Option<f64> {
        of(&self.spreads, id)
    }

    /// The builder's own limit of a result.
    pub fn limit_of(&self, id: &str) -> Option<f64> {
        of(&self.limits, id)
    }

    /// Keeps the limit of a result.
    pub fn limit(&mut self, id: &str, limit: f64) {
        put(&mut self.limits, id, limit);
    }

    /// Keeps a correction, in place of an earlier one of the same setting.
    pub fn learn(&mut self, learned: Learned) {
        self.forget(&learned.id);
        self.learned.push(learned);
    }

    /// Drops a correction.
    pub fn forget(&mut self, id: &str) {
        self.learned.retain(|known| known.id != id);
    }

    /// The same without figures that no bench can have.
    #[must_use]
    pub fn sound(mut self) -> Self {
        let fits = |number: f64| number.abs() <= Self::MOST;
        self.spreads.retain(|(_, number)| fits(*number) && *number >= 0.0);
        self.limits.retain(|(_, number)| fits(*number) && *number >= 0.0);
        self.learned.retain(|known| fits(known.off));
        self
    }

    /// The same as the room of tolerances takes it; names that no job has are passed over.
    pub(super) fn known_errors(&self) -> KnownErrors {
        let places = |list: &[(String, f64)]| {
            list.iter().filter_map(|(id, number)| Some((Place::from_id(id)?, *number))).collect()
        };
        let limits = self.limits.iter().filter_map(|(id, limit)| Some((What::from_id(id)?, *limit)));
        let offsets = self.learned.iter().filter_map(|known| Some((Place::from_id(&known.id)?, known.off)));
        KnownErrors { spreads: places(&self.spreads), limits: limits.collect(), offsets: offsets.collect() }
    }
}

fn of(told: &[(String, f64)], id: &str) -> Option<f64> {
    told.iter().find(|(known, _)| known == id).map(|(_, number)| *number)
}

fn put(told: &mut Vec<(String, f64)>, id: &str, number: f64) {
    told.retain(|(known, _)| known != id);
    told.push((id.to_owned(), number));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tolerance::SettingKind;

    #[test]
    fn the_newest_word_counts_and_rubbish_does_not() {
        let mut bench = ShopErrors::default();
        bench.spread("slide", 0.2);
        bench.spread("slide", 0.1);
        bench.limit("off-centre", f64::NAN);
        let tilt = |off| Learned { id: "tilt".into(), name: "tilt".into(), is_angle: true, off };
        bench.learn(tilt(0.25));
        bench.learn(tilt(-0.5));
        let sound = bench.clone().sound();
        assert_eq!(sound.spreads, [("slide".to_owned(), 0.1)]);
        assert_eq!(sound.known_errors().offsets, [(Place::shared(SettingKind::Tilt), -0.5)]);
        assert!(sound.limits.is_empty());
        bench.learn(tilt(1e9));
        assert!(bench.sound().learned.is_empty());
    }
}
