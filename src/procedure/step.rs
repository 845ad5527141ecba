//! One thing to do.

use super::caution::Caution;
use super::effect::Effect;
use super::reading::{Named, Reading};
use crate::model::shop::Axis;
use crate::units::LengthUnit;

/// What a figure is set on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scale {
    /// The fixture's slide.
    Slide,
    /// The axle holder.
    AxleHeight,
    /// A clamp post, from the centre line.
    HalfSpacing,
    /// The gauge that tells the fixture's angle to the mill's table.
    Tilt,
    /// The fixture's swivel.
    Swivel,
    /// A readout of the mill.
    Dro(Axis),
}

impl Scale {
    /// The words for it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Slide => "slide scale",
            Self::AxleHeight => "axle height scale",
            Self::HalfSpacing => "clamp scale",
            Self::Tilt => "gauge",
            Self::Swivel => "swivel scale",
            Self::Dro(Axis::X) => "X readout",
            Self::Dro(Axis::Y) => "Y readout",
            Self::Dro(Axis::Z) => "Z readout",
        }
    }
}

/// What the scale's smallest division leaves, and what that does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rounding {
    /// The smallest division.
    pub division: Reading,
    /// The figure wanted less the one that the reading makes.
    pub left: Reading,
    /// What it does to the cut; of several stays, to the one that it does most to.
    pub effect: Effect,
}

impl Rounding {
    /// How many decimals the scale's readings need in `unit`, at most 4: those of its division.
    pub fn decimals(self, unit: LengthUnit) -> u32 {
        let division = match (self.division, unit) {
            (Reading::Length(length), LengthUnit::Inch) => length.inches(),
            (other, _) => other.number().unwrap_or(0.0),
        };
        let whole = |decimals: &u32| {
            let steps = division * f64::from(10_u32.pow(*decimals));
            (steps - steps.round()).abs() < 1e-6
        };
        (0..4).find(whole).unwrap_or(4)
    }
}

/// One thing to do.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// Stays the same while the job does, so that a tick finds its step again.
    pub id: String,
    /// The part of the work that it belongs to.
    pub part: String,
    /// What to do.
    pub task: String,
    /// The figure to set, as the scale shows it.
    pub reading: Option<Reading>,
    /// The scale that shows it; `None` for a figure that is measured otherwise.
    pub scale: Option<Scale>,
    /// What it is set on, and which way round.
    pub set_on: String,
    /// What the scale's division leaves of it.
    pub rounding: Option<Rounding>,
    /// How to see that it was done right.
    pub check: Option<&'static str>,
    /// Why it comes now and not later.
    pub why: Option<&'static str>,
    /// What cannot be done here, each with the figure by which it fails.
    pub beyond: Vec<String>,
    /// Figures beside it.
    pub also: Vec<Named>,
    /// What can hurt here.
    pub cautions: Vec<Caution>,
}

impl Step {
    /// A step with nothing to set yet.
    pub(super) fn new(id: String, part: String, task: impl Into<String>, set_on: impl Into<String>) -> Self {
        Self {
            id,
            part,
            task: task.into(),
            reading: None,
            scale: None,
            set_on: set_on.into(),
            rounding: None,
            check: None,
            why: None,
            beyond: Vec::new(),
            also: Vec::new(),
            cautions: Vec::new(),
        }
    }

    /// With a figure beside it.
    pub(super) fn beside(mut self, name: impl Into<String>, reading: Reading) -> Self {
        self.also.push(Named::new(name, reading));
        self
    }

    /// With a figure that is no scale's.
    pub(super) const fn figure(mut self, reading: Reading) -> Self {
        self.reading = Some(reading);
        self
    }

    /// With a figure on a scale.
    pub(super) const fn on(mut self, scale: Scale, reading: Reading) -> Self {
        self.scale = Some(scale);
        self.reading = Some(reading);
        self
    }

    /// With how to check it.
    pub(super) const fn checked(mut self, how: &'static str) -> Self {
        self.check = Some(how);
        self
    }

    /// With what can hurt here.
    pub(super) fn caution(mut self, caution: Caution) -> Self {
        self.cautions.push(caution);
        self
    }

    /// With what the scale's division leaves, where it has one.
    pub(super) fn rounded(mut self, division: Reading, left: Reading, effect: Option<Effect>) -> Self {
        if division.number().is_some_and(|division| division > 0.0) {
            self.rounding = Some(Rounding { division, left, effect: effect.unwrap_or_default() });
        }
        self
    }
}
