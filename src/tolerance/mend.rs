//! What brings the wheel straight: which stay to take off how much, and where to put the stays on the frame.

use super::carry::{Input, Model, slopes, values};
use super::distribution::Distribution;
use super::estimate::{Estimate, Known, Verdict};
use super::finished::{Finished, Part, Unknown};
use super::outcome::{What, listed};
use crate::model::{Hand, PairName};
use crate::plan::CutAt;
use crate::units::Real;

/// So much comes off one stay.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Trim {
    /// Which end: of the longer side, the front where it is coped and can be cut again in the fixture.
    pub at: CutAt,
    /// How much, mm along the stay, 0 or more; its uncertainty is that of the readings.
    pub amount: Known,
    /// What it puts right.
    pub mends: What,
    /// Whether that result is not surely within its limit now.
    pub needed: bool,
}

/// Both stays of a pair are put that much further to one side of the frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Move {
    /// Which pair.
    pub pair: PairName,
    /// How far, mm, positive to the right: the right stay's spacing at the front grows by it, the left one's shrinks.
    pub to_right: Known,
    /// Whether the axle is not surely within its limit now.
    pub needed: bool,
}

/// What brings the wheel straight.
#[derive(Clone, Debug, PartialEq)]
pub struct Mend {
    /// Ends to touch. Empty where nothing comes off, or the readings leave it open.
    pub trims: Vec<Trim>,
    /// Where to put the chainstays; `None` where the readings leave it open.
    pub moved: Option<Move>,
    /// All results after that, in the order of the outcomes.
    pub after: Vec<Option<f64>>,
}

/// Less than this is not worth taking off, mm.
const NOTHING: f64 = 1e-6;

/// The results for so much off the longer stay of each pair (right less left) and the chainstays moved to the right.
struct Mended<'a> {
    finished: &'a Finished,
    stays: &'a [f64],
}

impl Mended<'_> {
    fn standing<T: Real>(&self, [chain, seat, moved]: [T; 3]) -> Vec<Option<T>> {
        let off = |unknown: &Unknown| {
            let of_pair = if unknown.pair == PairName::Chainstays { chain } else { seat };
            let longer = if of_pair.value() >= 0.0 { Hand::Right } else { Hand::Left };
            if unknown.part == Part::Length && unknown.hand == longer { of_pair.abs() } else { T::zero() }
        };
        let paired = self.finished.unknowns.iter().zip(self.stays);
        let stays: Vec<T> = paired.map(|(unknown, value)| T::of(*value) - off(unknown)).collect();
        let built = self.finished.built(&stays, |pair, hand| {
            if pair == PairName::Chainstays { moved * T::of(hand.sign()) } else { T::zero() }
        });
        listed(self.finished.rear.set_up(), &self.finished.rear.standing(&built))
    }
}

impl Model for Mended<'_> {
    fn results<T: Real>(&self, by: &[T]) -> Vec<Option<T>> {
        let of = |i| by.get(i).copied().unwrap_or(T::zero());
        self.standing([of(0), of(1), of(2)])
    }
}

/// Which of the three amounts sets which result right, in the order in which each leaves the earlier ones alone.
const MENDS: [What; 3] = [What::Square, What::Lean, What::OffCentre];

impl Finished {
    /// What brings the wheel of these stays straight.
    ///
    /// A stay can only be made shorter, so the longer one of each pair is. Every amount comes from Newton's steps over
    /// exact slopes; its uncertainty is carried from the readings.
    pub fn mend(&self, estimate: &Estimate) -> Mend {
        let stays = &estimate.solution.values;
        let mended = Mended { finished: self, stays };
        let open = MENDS.map(|what| self.verdict(estimate, what).is_none_or(is_open));
        let by = amounts(&mended, open);
        let amount = |i: usize, value: f64| Known { value, standard: self.amount_standard(estimate, i, by) };
        let mut trims = Vec::new();
        for (i, pair) in PairName::ALL.into_iter().enumerate() {
            let (Some(value), Some(what)) = (by.get(i), MENDS.get(i)) else { continue };
            if value.abs() > NOTHING {
                let hand = if *value > 0.0 { Hand::Right } else { Hand::Left };
                let at_front = self.rear.set_up().stay(pair, hand).is_some_and(|stay| stay.front.is_some());
                let needed = !self.verdict(estimate, *what).is_some_and(Verdict::is_within);
                let at = CutAt { pair, hand, at_front };
                trims.push(Trim { at, amount: amount(i, value.abs()), mends: *what, needed });
            }
        }
        let [_, _, moved] = by;
        let needed = !self.verdict(estimate, What::OffCentre).is_some_and(Verdict::is_within);
        let moved = Move { pair: PairName::Chainstays, to_right: amount(2, moved), needed };
        let [.., across_open] = open;
        Mend { trims, moved: (!across_open).then_some(moved), after: values(&mended, &by) }
    }

    /// The results of stays as they are, in the order of the outcomes, once mended so: what a mend found from readings
    /// does to the stays themselves.
    pub fn mended(&self, stays: &[f64], mend: &Mend) -> Vec<Option<f64>> {
        let off = |pair| {
            let of_pair = mend.trims.iter().filter(|trim| trim.at.pair == pair);
            of_pair.map(|trim| trim.amount.value * trim.at.hand.sign()).sum::<f64>()
        };
        let moved = mend.moved.map_or(0.0, |moved| moved.to_right.value);
        Mended { finished: self, stays }.results(&[
            off(PairName::Chainstays),
            off(PairName::Seatstays),
            moved,
        ])
    }

    fn verdict(&self, estimate: &Estimate, what: What) -> Option<Verdict> {
        let place = self.rear.outcomes.iter().position(|outcome| outcome.what == what)?;
        estimate.results.get(place).map(|judged| judged.verdict)
    }

    /// The uncertainty of an amount: that of the result it mends, over how much the amount moves it.
    fn amount_standard(&self, estimate: &Estimate, i: usize, by: [f64; 3]) -> Option<f64> {
        let what = MENDS.get(i)?;
        let place = self.rear.outcomes.iter().position(|outcome| outcome.what == *what)?;
        let standard = estimate.results.get(place)?.known?.standard?;
        let mended = Mended { finished: self, stays: &estimate.solution.values };
        let slope = *slopes(&mended, &exact(by)).get(place)?.as_ref()?.slopes.get(i)?;
        (slope.abs() > NOTHING).then(|| standard / slope.abs())
    }
}

const fn is_open(verdict: Verdict) -> bool {
    matches!(verdict, Verdict::Open | Verdict::None)
}

fn exact(by: [f64; 3]) -> [Input; 3] {
    by.map(|value| Input::new(value, Distribution::Exact))
}

const ROUNDS: usize = 8;

/// The amounts that bring each result that is not open to 0. Off the chainstays first, then off the seat stays, which
/// leave the chainstays' difference alone, then across; a few rounds settle what little each moves the others.
fn amounts(mended: &Mended<'_>, open: [bool; 3]) -> [f64; 3] {
    let mut by = [0.0; 3];
    for _ in 0..ROUNDS {
        for (i, (what, open)) in MENDS.into_iter().zip(open).enumerate() {
            if let Some(step) = newton(mended, by, i, what).filter(|_| !open)
                && let Some(amount) = by.get_mut(i)
            {
                *amount += step;
            }
        }
    }
    by
}

fn newton(mended: &Mended<'_>, by: [f64; 3], i: usize, what: What) -> Option<f64> {
    let place = mended.finished.rear.outcomes.iter().position(|outcome| outcome.what == what)?;
    let all = slopes(mended, &exact(by));
    let linear = all.get(place)?.as_ref()?;
    let slope = *linear.slopes.get(i)?;
    let step = -linear.value / slope;
    (slope.abs() > NOTHING && step.is_finite()).then_some(step)
}
