//! The results that matter, and how far they may go.

use super::assembly::{Assembly, Gap};
use super::set_up::SetUp;
use crate::model::{Hand, PairName};
use crate::plan::CutAt;
use crate::units::Real;

/// What a result must keep to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Limit {
    /// Off by no more than this, either way.
    Within(f64),
    /// No more than this.
    AtMost(f64),
    /// No less than this.
    AtLeast(f64),
}

impl Limit {
    /// From the smallest value that keeps it to the largest.
    pub const fn range(self) -> (f64, f64) {
        match self {
            Self::Within(most) => (-most, most),
            Self::AtMost(most) => (f64::NEG_INFINITY, most),
            Self::AtLeast(least) => (least, f64::INFINITY),
        }
    }

    /// The same kind of limit at another value.
    #[must_use]
    pub const fn with(self, value: f64) -> Self {
        match self {
            Self::Within(_) => Self::Within(value),
            Self::AtMost(_) => Self::AtMost(value),
            Self::AtLeast(_) => Self::AtLeast(value),
        }
    }

    /// Whether a value keeps it.
    pub fn keeps(self, value: f64) -> bool {
        let (low, high) = self.range();
        low <= value && value <= high
    }

    /// How far a value may still move before it breaks the limit; 0 where it is broken.
    pub fn room(self, value: f64) -> f64 {
        let (low, high) = self.range();
        (value - low).min(high - value).max(0.0)
    }
}

/// Which result.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    /// The axle's middle off the centre plane, positive to the right.
    OffCentre,
    /// The wheel's plane turned out of the centre plane: the front of the rim against its rear, positive to the right.
    Square,
    /// The right chainstay less the left, hinge to dropout seen from the side.
    Difference,
    /// The top of the rim against its bottom, positive to the right.
    Lean,
    /// Chainstay length, right and left in the mean, against the frame's.
    Length,
    /// How much higher the axle stands than planned: the bottom bracket drop gained.
    Drop,
    /// Between the dropouts before the axle draws them together, against what was planned.
    Spacing,
    /// The widest opening of a cope.
    Gap(CutAt),
    /// From the tyre's widest place to the stay beside it.
    Tyre(PairName, Hand),
}

impl What {
    /// Those of the wheel and the frame, of which every rear end has one each.
    const OF_FRAME: [Self; 7] = [
        Self::OffCentre,
        Self::Square,
        Self::Difference,
        Self::Lean,
        Self::Length,
        Self::Drop,
        Self::Spacing,
    ];

    /// Its identifier, the same while the job is: `off-centre`, `chainstays.right.front.gap`.
    pub fn id(self) -> String {
        match self {
            Self::OffCentre => "off-centre".to_owned(),
            Self::Square => "square".to_owned(),
            Self::Difference => "difference".to_owned(),
            Self::Lean => "lean".to_owned(),
            Self::Length => "length".to_owned(),
            Self::Drop => "drop".to_owned(),
            Self::Spacing => "spacing".to_owned(),
            Self::Gap(at) => [&at.key(), "gap"].join("."),
            Self::Tyre(pair, hand) => [pair.key(), hand.key(), "tyre"].join("."),
        }
    }

    /// The result with that identifier.
    pub fn from_id(id: &str) -> Option<Self> {
        let tyres = PairName::ALL.into_iter().flat_map(|pair| Hand::ALL.map(|hand| Self::Tyre(pair, hand)));
        let mut all = Self::OF_FRAME.into_iter().chain(CutAt::all().map(Self::Gap)).chain(tyres);
        all.find(|what| what.id() == id)
    }

    /// Whether it is of the wheel or the frame, and not of a single joint or stay.
    pub const fn is_of_frame(self) -> bool {
        !matches!(self, Self::Gap(_) | Self::Tyre(..))
    }

    /// What it must keep to at first, mm. `text` says where each comes from.
    const fn starting_limit(self) -> Limit {
        match self {
            Self::OffCentre | Self::Square | Self::Lean | Self::Length => Limit::Within(1.0),
            Self::Difference => Limit::Within(0.5),
            Self::Drop => Limit::Within(2.0),
            Self::Spacing => Limit::Within(1.5),
            Self::Gap(_) => Limit::AtMost(0.25),
            Self::Tyre(..) => Limit::AtLeast(4.0),
        }
    }
}

/// A result that matters, with its limit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outcome {
    /// Which result.
    pub what: What,
    /// What it must keep to, mm. A starting value; the builder's own counts.
    pub limit: Limit,
}

impl Outcome {
    const fn new(what: What) -> Self {
        Self { what, limit: what.starting_limit() }
    }

    /// Its identifier: see [`What::id`].
    pub fn id(&self) -> String {
        self.what.id()
    }
}

/// The results of a rear end, in the order in which [`listed`] gives them.
pub(super) fn outcomes(set_up: &SetUp) -> Vec<Outcome> {
    let stays = || set_up.stays.iter().map(|(pair, stay)| (*pair, stay));
    let gaps = stays().flat_map(|(pair, stay)| {
        let at = move |at_front| What::Gap(CutAt { pair, hand: stay.hand, at_front });
        ends(stay.front.is_some(), stay.rear.is_some()).map(at)
    });
    let tyres = stays().map(|(pair, stay)| What::Tyre(pair, stay.hand));
    What::OF_FRAME.into_iter().chain(gaps).chain(tyres).map(Outcome::new).collect()
}

fn ends(front: bool, rear: bool) -> impl Iterator<Item = bool> {
    front.then_some(true).into_iter().chain(rear.then_some(false))
}

/// The figures of a rear end that stands, in the order of [`outcomes`].
pub(super) fn listed<T: Real>(set_up: &SetUp, standing: &Assembly<T>) -> Vec<Option<T>> {
    figures(set_up, standing, |gap| gap.size + gap.rock.abs())
}

/// The same with only what the saw's size leaves of each gap; and then all once more with only what rocking opens,
/// signed. Each has slopes where their sum has a corner.
pub(super) fn listed_apart<T: Real>(set_up: &SetUp, standing: &Assembly<T>) -> Vec<Option<T>> {
    let mut all = figures(set_up, standing, |gap| gap.size);
    all.extend(figures(set_up, standing, |gap| gap.rock));
    all
}

fn figures<T: Real>(set_up: &SetUp, standing: &Assembly<T>, whole: impl Fn(&Gap<T>) -> T) -> Vec<Option<T>> {
    let mut all = vec![
        standing.off_centre,
        standing.square,
        standing.difference,
        standing.lean,
        standing.length,
        standing.drop,
        standing.spacing,
    ];
    for ((_, stay), [front, rear]) in set_up.stays.iter().zip(&standing.gaps) {
        let at = |at_front| if at_front { front.as_ref() } else { rear.as_ref() };
        let gap = |at_front| at(at_front).map(&whole);
        all.extend(ends(stay.front.is_some(), stay.rear.is_some()).map(gap));
    }
    all.extend(&standing.tyre);
    all
}
