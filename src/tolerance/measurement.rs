//! What can be read on the finished stays, with what a shop has.

use super::as_cut::DEGREE;
use super::finished::{Differs, outwards};
use super::measurand::{AtPost, Measurand, Method};
use super::set_up::{Hinge, SetUp, StaySetUp};
use super::tip::Tip;
use crate::model::{End, Hand, PairName};
use crate::plan::{Cut, CutAt, Plan, Stay, hub_face};
use crate::units::{Length, Real};

/// A measurand of a plan, with what it should be.
#[derive(Clone, Debug)]
pub struct Measurement {
    /// What is measured.
    pub measurand: Measurand,
    /// How.
    pub method: Method,
    /// What it should be, mm or degrees.
    pub nominal: f64,
    /// How far off it may be. A starting value; the builder's own counts.
    pub limit: f64,
    /// The standard uncertainty of a reading. A starting value; measure yours by reading the same twice.
    pub standard: f64,
    reads: Reads,
}

/// What a measurand depends on besides what it is.
#[derive(Clone, Copy, Debug)]
enum Reads {
    /// The long points of both ends, where they move with their cut's angle.
    Tips([Option<Tip>; 2]),
    /// How far along the fixture a post stands, mm.
    Post(f64),
    /// Nothing.
    Stay,
}

/// Starting limit and standard uncertainty of a reading, mm or degrees.
type Start = (f64, f64);

const LENGTH: Start = (0.5, 0.1);
const FINE: Start = (0.5, 0.05);
const ANGLE: Start = (0.2, 0.1);

/// Everything that can be read on the stays of a plan.
pub(super) fn measurements(plan: &Plan, set_up: &SetUp) -> Vec<Measurement> {
    let mut all = Vec::new();
    for pair in PairName::ALL {
        for hand in Hand::ALL {
            of_stay(plan, pair, hand, &mut all);
        }
        let both = Hand::ALL.map(|hand| set_up.stay(pair, hand));
        if let [Some(right), Some(left)] = both
            && [right, left].iter().all(|stay| matches!(stay.hinge, Hinge::Across))
        {
            at_posts(plan, pair, &mut all);
            of_dropouts(plan, pair, &mut all);
        }
    }
    all
}

fn of_stay(plan: &Plan, pair: PairName, hand: Hand, all: &mut Vec<Measurement>) {
    let stay = plan.pair(pair).stay(hand);
    // A bent stay's tips lie a curve apart.
    if let Some(tips) = stay.tip_to_tip.filter(|_| stay.bent.is_none()) {
        let (measurand, reads) = (Measurand::TipToTip(pair, hand), tips_of(plan, pair, stay));
        all.push(measurement(measurand, Method::RuleOverTips, tips.mm(), LENGTH, reads));
    }
    let length = stay.bent.as_ref().map_or(stay.length, |bent| bent.chord);
    let measurand = Measurand::Length(pair, hand);
    all.push(measurement(measurand, Method::RuleToReference, length.mm(), LENGTH, Reads::Stay));
    for (cut, at_front) in [(&stay.front, true), (&stay.rear, false)] {
        let (angle, method) = match cut {
            Cut::Cope(cut) | Cut::Boss(cut) => (cut.angle, Method::GaugeOnBar),
            Cut::Slot(slot) => (slot.angle, Method::GaugeOnPlate),
            Cut::Square(_) => continue,
        };
        let measurand = Measurand::CutAngle(CutAt { pair, hand, at_front });
        all.push(measurement(measurand, method, angle.degrees(), ANGLE, Reads::Stay));
    }
}

fn tips_of(plan: &Plan, pair: PairName, stay: &Stay) -> Reads {
    let tube = &plan.job.pair(pair).side(stay.hand).tube;
    let tip = |cut: &Cut, at_front| Tip::new(stay, tube, cut.round()?, at_front);
    Reads::Tips([tip(&stay.front, true), tip(&stay.rear, false)])
}

/// Read with both stays standing in their copes, on the shell or on a bar of its size, at their planned places.
fn at_posts(plan: &Plan, pair: PairName, all: &mut Vec<Measurement>) {
    for (number, post) in (1..).zip(&plan.pair(pair).posts) {
        let readings = [
            (AtPost::Inside, post.inside, Method::CalipersBetweenTubes),
            (AtPost::Outside, post.outside, Method::CalipersOverTubes),
            (AtPost::Axis(Hand::Right), post.right, Method::CalipersToAxis),
            (AtPost::Axis(Hand::Left), post.left, Method::CalipersToAxis),
        ];
        for (what, reading, method) in readings {
            let measurand = Measurand::Post(pair, number, what);
            let reads = Reads::Post(post.u.mm());
            let nominal = reading.map(Length::mm);
            all.extend(nominal.map(|nominal| measurement(measurand, method, nominal, FINE, reads)));
        }
    }
}

/// Read with the dropouts in place, the stays standing as above.
fn of_dropouts(plan: &Plan, pair: PairName, all: &mut Vec<Measurement>) {
    let inner = Hand::ALL.map(|hand| {
        let side = plan.job.pair(pair).side(hand);
        match &side.rear_end {
            End::Slot(slot) => {
                let middle = side.rear.half_spacing - plan.job.stay_offset(pair, hand);
                middle.mm() - 0.5 * slot.plate.mm()
            }
            _ => hub_face(&plan.job.frame, hand).mm(),
        }
    });
    for (hand, inner) in Hand::ALL.into_iter().zip(inner) {
        let measurand = Measurand::Dropout(pair, hand);
        all.push(measurement(measurand, Method::RuleToDropout, inner, LENGTH, Reads::Stay));
    }
    let (measurand, apart) = (Measurand::Dropouts(pair), inner.iter().sum());
    all.push(measurement(measurand, Method::CalipersBetweenDropouts, apart, FINE, Reads::Stay));
}

const fn measurement(
    measurand: Measurand,
    method: Method,
    nominal: f64,
    (limit, standard): Start,
    reads: Reads,
) -> Measurement {
    Measurement { measurand, method, nominal, limit, standard, reads }
}

impl Measurement {
    /// What would be read on stays that differ by so much.
    pub(super) fn read<T: Real>(
        &self,
        set_up: &SetUp,
        differs: &dyn Fn(PairName, Hand) -> Differs<T>,
    ) -> Option<T> {
        let off = |pair, hand| Some(strays_at(set_up.stay(pair, hand)?, &differs(pair, hand), self.along()));
        let dropout = |pair, hand| Some(dropout_strays(set_up.stay(pair, hand)?, &differs(pair, hand)));
        let both = |of: &dyn Fn(Hand) -> Option<T>| Some(of(Hand::Right)? + of(Hand::Left)?);
        let more = match self.measurand {
            Measurand::TipToTip(pair, hand) => self.tips_apart(&differs(pair, hand)),
            Measurand::Length(pair, hand) => differs(pair, hand).length,
            Measurand::CutAngle(CutAt { pair, hand, at_front: true }) => differs(pair, hand).front,
            Measurand::CutAngle(CutAt { pair, hand, at_front: false }) => differs(pair, hand).rear,
            Measurand::Post(pair, _, AtPost::Axis(hand)) => off(pair, hand)?,
            Measurand::Post(pair, ..) => both(&|hand| off(pair, hand))?,
            Measurand::Dropout(pair, hand) => dropout(pair, hand)?,
            Measurand::Dropouts(pair) => both(&|hand| dropout(pair, hand))?,
        };
        Some(T::of(self.nominal) + more)
    }

    fn along(&self) -> f64 {
        if let Reads::Post(along) = self.reads { along } else { 0.0 }
    }

    fn tips_apart<T: Real>(&self, by: &Differs<T>) -> T {
        let [front, rear] = if let Reads::Tips(tips) = self.reads { tips } else { [None, None] };
        let moves =
            |tip: Option<Tip>, angle: T| tip.map_or(T::zero(), |tip| tip.moves(angle * T::of(DEGREE)));
        by.length + moves(rear, by.rear) - moves(front, by.front)
    }
}

fn slope(stay: &StaySetUp) -> f64 {
    let [a, b] = stay.chord;
    (b.y - a.y) / (b.x - a.x)
}

/// How far further out a stay that stands in its cope runs, so far along the fixture.
fn strays_at<T: Real>(stay: &StaySetUp, by: &Differs<T>, along: f64) -> T {
    let foot = stay.foot();
    let turns = outwards(stay, true, by.front);
    if let Some(bent) = &stay.bent {
        // What comes to stand beside the post when the stay turns about its foot.
        let passes =
            bent.passes(along).map(|(out, slope)| along - foot + (out - stay.foot_outboard(foot)) * slope);
        return turns * T::of(passes.unwrap_or(along - foot));
    }
    let nominal = slope(stay);
    ((T::of(nominal.atan()) + turns).tan() - T::of(nominal)) * T::of(along - foot)
}

/// How far further out its dropout stands.
fn dropout_strays<T: Real>(stay: &StaySetUp, by: &Differs<T>) -> T {
    let (sin, cos) = outwards(stay, true, by.front).sin_cos();
    let along = T::of(stay.axle.x - stay.foot()) + by.length * T::of(1.0 / stay.secant);
    let nominal = T::of(stay.axle.y - stay.foot_outboard(stay.foot()));
    let across = nominal + by.length * T::of(slope(stay) / stay.secant) + by.dropout;
    across * cos + along * sin - nominal
}
