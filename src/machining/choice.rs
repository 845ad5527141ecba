//! Which of the saws on hand cuts an end best, and where its axis belongs.

use super::placed::{Placed, cutter_axis, stub_extent, ways};
use crate::geometry::Line;
use crate::model::shop::{HoleSaw, JointGap, Shop};
use crate::plan::{Contact, CutAt, Plan, RoundCut, seats, try_cutter};
use crate::units::Length;
use nalgebra::Vector3;
use serde::{Deserialize, Serialize};

/// What a saw is worth for an end.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Verdict {
    /// The gap is within what the joint allows.
    Fits,
    /// The saw is larger than the member by enough to leave too wide a gap, by this much.
    TooLarge(Length),
    /// The saw is slimmer than the member, by this much: the stay touches at its edges alone, whatever the gap.
    CannotSeat(Length),
    /// The saw is not deep enough for the slug that it cuts off, by this much.
    TooShort(Length),
    /// The saw does not cut the stay all round.
    NotAllRound,
}

impl Verdict {
    /// Better verdicts come first.
    const fn rank(self) -> u8 {
        match self {
            Self::Fits => 0,
            Self::TooLarge(_) => 1,
            Self::CannotSeat(_) => 2,
            Self::TooShort(_) => 3,
            Self::NotAllRound => 4,
        }
    }
}

/// How far the cutter's axis goes from the planned place so that the stay's length comes out right.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shift {
    /// Added to `dro_along`.
    pub along: Length,
    /// Added to `dro_across`.
    pub across: Length,
    /// Added to `dro_along` where nothing is added across, so that one setting does for both stays of a pair; the axes'
    /// offset then changes a little. `None` where the table's direction is square to the stay.
    pub along_alone: Option<Length>,
}

impl Shift {
    /// What is added along and across in a pass through both stays, which can only go along, or through one. `None` where that
    /// cannot be.
    pub fn in_pass(self, paired: bool) -> Option<(Length, Length)> {
        if paired { Some((self.along_alone?, Length::default())) } else { Some((self.along, self.across)) }
    }
}

/// One saw, judged for one end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Candidate {
    /// Its place in the shop's list.
    pub saw: usize,
    /// The diameter reckoned with.
    pub diameter: Length,
    /// Whether that diameter was measured.
    pub measured: bool,
    /// Largest gap when the stay is pushed home.
    pub gap: Option<Length>,
    /// How far the stay goes towards the member until it touches.
    pub push: Option<Length>,
    /// Whether the gap is less than the joint's least.
    pub tight: bool,
    /// What it is worth.
    pub verdict: Verdict,
    /// Where its axis belongs.
    pub shift: Option<Shift>,
}

/// All saws of a shop for one end, the best first; empty where the end is not round.
pub fn candidates(plan: &Plan, shop: &Shop, at: CutAt) -> Vec<Candidate> {
    let Some(cut) = at.cut(plan).round() else { return Vec::new() };
    let place = Place::new(plan, shop, at, cut);
    let saws = shop.hole_saws.iter().enumerate();
    let mut found: Vec<Candidate> = saws.filter_map(|(i, saw)| place.judge(i, saw)).collect();
    let gap = shop.process().map(|process| process.gap).unwrap_or_default();
    let key = |candidate: &Candidate| {
        let off = candidate.gap.map_or(f64::INFINITY, |found| off(&gap, found));
        let apart = (candidate.diameter - cut.member).mm().abs();
        (candidate.verdict.rank(), off, apart)
    };
    // A stable sort: of two saws that are worth the same, the shop's order decides.
    found.sort_by(|a, b| {
        let ((rank, off, apart), (other_rank, other_off, other_apart)) = (key(a), key(b));
        rank.cmp(&other_rank).then(off.total_cmp(&other_off)).then(apart.total_cmp(&other_apart))
    });
    found
}

/// How far a gap is from what a joint wants: any gap from the least to the best is as good as the best.
fn off(wanted: &JointGap, gap: Length) -> f64 {
    (gap - wanted.best).mm().max((wanted.least - gap).mm()).max(0.0)
}

/// The end that saws are judged for.
struct Place<'a> {
    plan: &'a Plan,
    at: CutAt,
    cut: &'a RoundCut,
    gap: Option<JointGap>,
    stay: Placed,
    axis: Line,
}

impl<'a> Place<'a> {
    fn new(plan: &'a Plan, shop: &Shop, at: CutAt, cut: &'a RoundCut) -> Self {
        Self {
            plan,
            at,
            cut,
            gap: shop.process().map(|process| process.gap),
            stay: Placed::new(plan, at),
            axis: cutter_axis(plan, at, cut, shop.mill.side_to_spindle),
        }
    }

    fn judge(&self, index: usize, saw: &HoleSaw) -> Option<Candidate> {
        let diameter = saw.diameter();
        let trial = try_cutter(self.plan, self.at, diameter, &Vector3::zeros())?;
        let verdict = if trial.contact == Contact::Full {
            self.verdict(saw, trial.gap.map_or(f64::INFINITY, Length::mm))
        } else {
            Verdict::NotAllRound
        };
        let least = self.gap.map_or(0.0, |gap| gap.least.mm());
        Some(Candidate {
            saw: index,
            diameter,
            measured: saw.cutting.is_some(),
            gap: trial.gap,
            push: trial.push,
            tight: trial.gap.is_some_and(|gap| gap.mm() < least),
            verdict,
            shift: trial.push.map(|push| self.shift(push)),
        })
    }

    fn verdict(&self, saw: &HoleSaw, gap: f64) -> Verdict {
        let diameter = saw.diameter();
        let stub = stub_extent(&self.stay, &self.axis, diameter.mm() / 2.0);
        let short = stub.map_or(0.0, Length::mm) - saw.size.depth.mm();
        let over = gap - self.gap.map_or(f64::INFINITY, |gap| gap.most.mm());
        if short > 0.0 {
            Verdict::TooShort(Length::from_mm(short))
        } else if !seats(diameter, self.cut.member) {
            Verdict::CannotSeat(self.cut.member - diameter)
        } else if over <= 0.0 {
            Verdict::Fits
        } else {
            Verdict::TooLarge(Length::from_mm(over))
        }
    }

    /// The stay must stick out further by `push`: the cutter's axis goes that far along the stay, towards the member. What
    /// of that runs along the cutter's own axis changes nothing.
    fn shift(&self, push: Length) -> Shift {
        let towards = if self.at.at_front { -push.mm() } else { push.mm() };
        let ways = ways(&self.axis);
        let stay = self.stay.axis.direction;
        let square = stay - self.axis.direction * stay.dot(&self.axis.direction);
        let (along, across) = (square.dot(&ways.along), square.dot(&ways.across));
        let alone = (along.abs() > 1e-6).then(|| Length::from_mm(towards * square.norm_squared() / along));
        Shift {
            along: Length::from_mm(towards * along),
            across: Length::from_mm(towards * across),
            along_alone: alone,
        }
    }
}
