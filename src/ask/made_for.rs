//! What a tick stands for: the figures of its step, and those of the setting that the step belongs to.

use crate::link;
use crate::model::Hand;
use crate::procedure::{Phase, SettingKey, Step};
use serde::{Deserialize, Serialize};

/// Figures closer than this, mm or degrees, are one.
const SAME: f64 = 1e-6;

/// The figures that a step is done for.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct MadeFor {
    /// What is set at the step itself, mm or degrees.
    pub figures: Vec<f64>,
    /// A digest of all that is set for its setting, and for the clamping that the setting rests on.
    pub setting: u64,
}

impl MadeFor {
    /// Whether the step is done as well for `other`.
    pub fn is(&self, other: &Self) -> bool {
        self.setting == other.setting && same(&self.figures, &other.figures)
    }
}

fn same(one: &[f64], other: &[f64]) -> bool {
    one.len() == other.len() && one.iter().zip(other).all(|(one, other)| (one - other).abs() < SAME)
}

/// The figures that each step is done for, in the order of the steps.
pub(super) fn made_for(steps: &[Step]) -> Vec<MadeFor> {
    let all: Vec<(SettingKey, Vec<f64>)> =
        steps.iter().map(|step| (step.key.setting, step.figures())).collect();
    let one = |(setting, figures): &(SettingKey, Vec<f64>)| {
        let under =
            all.iter().filter(|(other, _)| rests_on(*setting, *other)).flat_map(|(_, figures)| figures);
        MadeFor { figures: figures.clone(), setting: digest(under) }
    };
    all.iter().map(one).collect()
}

/// A digest of figures to a ten-thousandth.
fn digest<'a>(figures: impl Iterator<Item = &'a f64>) -> u64 {
    let bytes: Vec<u8> = figures.flat_map(|figure| ((figure * 1e4).round() as i64).to_le_bytes()).collect();
    link::digest(&bytes)
}

/// Whether what is done for `setting` holds only as long as what is set for `other` does: its own, and the clamping of its stays.
fn rests_on(setting: SettingKey, other: SettingKey) -> bool {
    let cuts = matches!(setting.phase, Phase::Front | Phase::Rear);
    let shares = Hand::ALL.into_iter().any(|hand| setting.serves(hand) && other.serves(hand));
    setting == other || (cuts && other.phase == Phase::Clamping && setting.pair == other.pair && shares)
}
