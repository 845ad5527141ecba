//! One thing to do.

use super::beside::{Beside, Quantity};
use super::caution::Caution;
use super::effect::Effect;
use super::key::StepKey;
use super::problem::Problem;
use super::reading::Reading;
use super::task::Task;
use crate::model::shop::Axis;
use crate::units::LengthUnit;

/// What a figure is set on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scale {
    /// The fixture's slide.
    Slide,
    /// The axle holder.
    AxleHeight,
    /// The clamp post of that count, from 1, from the centre line.
    HalfSpacing(u8),
    /// The gauge that tells the fixture's angle to the mill's table.
    Tilt,
    /// The fixture's swivel.
    Swivel,
    /// A readout of the mill.
    Dro(Axis),
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

/// A figure that is set, and what it is set on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SetPoint {
    /// The figure, as the scale shows it.
    pub reading: Reading,
    /// The scale that shows it; `None` for a figure that is measured otherwise.
    pub scale: Option<Scale>,
    /// What the scale's division leaves of it.
    pub rounding: Option<Rounding>,
}

/// One thing to do.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// What it is for.
    pub key: StepKey,
    /// What to do.
    pub task: Task,
    /// The figure to set, as the scale shows it.
    pub reading: Option<Reading>,
    /// The scale that shows it; `None` for a figure that is measured otherwise.
    pub scale: Option<Scale>,
    /// What the scale's division leaves of it.
    pub rounding: Option<Rounding>,
    /// Further figures that are set at the same step, after that one.
    pub further: Vec<SetPoint>,
    /// Figures beside it.
    pub also: Vec<Beside>,
    /// What cannot be done here, or is to be minded.
    pub problems: Vec<Problem>,
    /// What can hurt here.
    pub cautions: Vec<Caution>,
}

impl Step {
    /// A step with nothing to set yet.
    pub(super) const fn new(key: StepKey, task: Task) -> Self {
        Self {
            key,
            task,
            reading: None,
            scale: None,
            rounding: None,
            further: Vec::new(),
            also: Vec::new(),
            problems: Vec::new(),
            cautions: Vec::new(),
        }
    }

    /// Every figure that is set, in the order in which they are set.
    pub fn set_points(&self) -> impl Iterator<Item = SetPoint> {
        let first =
            self.reading.map(|reading| SetPoint { reading, scale: self.scale, rounding: self.rounding });
        first.into_iter().chain(self.further.iter().copied())
    }

    /// The figure that is set on a scale.
    pub fn set_point(&self, scale: Scale) -> Option<SetPoint> {
        self.set_points().find(|point| point.scale == Some(scale))
    }

    /// A figure beside it.
    pub fn beside_of(&self, what: Quantity) -> Option<Reading> {
        self.also.iter().find(|beside| beside.what == what).map(|beside| beside.reading)
    }

    /// The numbers that are set at this step, mm or degrees: by these, with [`Step::task`], a tick can be told from one for
    /// other figures. Speeds, feeds and gaps are not among them.
    pub fn figures(&self) -> Vec<f64> {
        let is_set = |beside: &&Beside| {
            !matches!(
                beside.what,
                Quantity::Spindle
                    | Quantity::Feed
                    | Quantity::SmallestGap(..)
                    | Quantity::SawGap
                    | Quantity::GoesIn
                    | Quantity::StandsOff
                    | Quantity::Planned { .. }
            )
        };
        let also = self.also.iter().filter(is_set).map(|beside| beside.reading);
        self.set_points().map(|point| point.reading).chain(also).filter_map(Reading::number).collect()
    }

    /// With all that is set and said at another step, after its own.
    pub(super) fn then(mut self, other: Self) -> Self {
        let mut points = self.set_points().chain(other.set_points()).collect::<Vec<_>>().into_iter();
        if let Some(SetPoint { reading, scale, rounding }) = points.next() {
            (self.reading, self.scale, self.rounding) = (Some(reading), scale, rounding);
        }
        self.further = points.collect();
        self.also.extend(other.also);
        self.problems.extend(other.problems);
        self.cautions.extend(other.cautions);
        self
    }

    /// With a figure beside it.
    pub(super) fn beside(mut self, what: Quantity, reading: Reading) -> Self {
        self.also.push(Beside { what, reading });
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

    /// With what can hurt here.
    pub(super) fn caution(mut self, caution: Caution) -> Self {
        self.cautions.push(caution);
        self
    }

    /// With what cannot be done here.
    pub(super) fn with(mut self, problems: impl IntoIterator<Item = Problem>) -> Self {
        self.problems.extend(problems);
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
