//! The results that matter, and how far they may go.

use super::set_up::SetUp;
use super::stand::{Gap, Standing};
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
    Gap,
    /// From the tyre's widest place to the stay beside it.
    Tyre,
}

/// A result that matters, with its limit.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// Stays the same while the job does: `off-centre`, `chainstays.right.front.gap`.
    pub id: String,
    /// What the trade calls it.
    pub name: String,
    /// Which result.
    pub what: What,
    /// What it must keep to, mm. A starting value; the builder's own counts.
    pub limit: Limit,
    /// Where the starting limit comes from.
    pub source: &'static str,
}

const OWN: &str = "a working figure; your own counts";

impl Outcome {
    fn of_frame(what: What, id: &str, name: &str, limit: f64, source: &'static str) -> Self {
        Self { id: id.into(), name: name.into(), what, limit: Limit::Within(limit), source }
    }
}

/// The results of a rear end, in the order in which [`listed`] gives them.
pub(super) fn outcomes(set_up: &SetUp) -> Vec<Outcome> {
    let visible = "1 mm off centre can be seen at the brake bridge: a shop's account, no standard found";
    let mut all = vec![
        Outcome::of_frame(What::OffCentre, "off-centre", "Axle off centre", 1.0, visible),
        Outcome::of_frame(What::Square, "square", "Wheel not square, seen at the rim", 1.0, OWN),
        Outcome::of_frame(What::Difference, "difference", "Right chainstay less left", 0.5, OWN),
        Outcome::of_frame(What::Lean, "lean", "Wheel leans, seen at the rim", 1.0, OWN),
        Outcome::of_frame(What::Length, "length", "Chainstay length off", 1.0, OWN),
        Outcome::of_frame(What::Drop, "drop", "Bottom bracket drop off", 2.0, OWN),
        Outcome::of_frame(What::Spacing, "spacing", "Dropout spacing off", 1.5, DRAWN),
    ];
    for (pair, stay) in &set_up.stays {
        for at_front in ends(stay.front.is_some(), stay.rear.is_some()) {
            all.push(gap(CutAt { pair: *pair, hand: stay.hand, at_front }));
        }
    }
    all.extend(set_up.stays.iter().map(|(pair, stay)| tyre(*pair, stay.hand)));
    all
}

const DRAWN: &str = "+1.5 mm on one production drawing, as told in a forum";

fn ends(front: bool, rear: bool) -> impl Iterator<Item = bool> {
    front.then_some(true).into_iter().chain(rear.then_some(false))
}

fn gap(at: CutAt) -> Outcome {
    Outcome {
        id: format!("{}.gap", at.key()),
        name: format!("Gap at the {} of the {} {}", at.end(), at.hand.key(), at.pair.one()),
        what: What::Gap,
        limit: Limit::AtMost(0.25),
        source: "0.25 mm is a common aim for fillet brazing, from memory; follow your own process",
    }
}

fn tyre(pair: PairName, hand: Hand) -> Outcome {
    Outcome {
        id: [pair.key(), hand.key(), "tyre"].join("."),
        name: format!("Tyre to the {} {}", hand.key(), pair.one()),
        what: What::Tyre,
        limit: Limit::AtLeast(4.0),
        source: "4 mm in EN 14781:2005, 4.10.2, for racing bicycles, as quoted in a forum; US law asks for 1.6 mm",
    }
}

/// The figures of a rear end that stands, in the order of [`outcomes`].
pub(super) fn listed<T: Real>(set_up: &SetUp, standing: &Standing<T>) -> Vec<Option<T>> {
    figures(set_up, standing, |gap| gap.size + gap.rock.abs())
}

/// The same with only what the saw's size leaves of each gap; and then all once more with only what rocking opens,
/// signed. Each has slopes where their sum has a corner.
pub(super) fn listed_apart<T: Real>(set_up: &SetUp, standing: &Standing<T>) -> Vec<Option<T>> {
    let mut all = figures(set_up, standing, |gap| gap.size);
    all.extend(figures(set_up, standing, |gap| gap.rock));
    all
}

fn figures<T: Real>(set_up: &SetUp, standing: &Standing<T>, whole: impl Fn(&Gap<T>) -> T) -> Vec<Option<T>> {
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
