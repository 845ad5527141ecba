//! What can be read on the finished stays, with what a shop has.

use super::as_cut::DEGREE;
use super::finished::{Differs, outwards};
use super::set_up::{Hinge, SetUp, StaySetUp};
use super::tip::Tip;
use crate::model::{End, Hand, PairName};
use crate::plan::{Cut, Plan, Stay};
use crate::units::Real;

/// One figure to read.
#[derive(Clone, Debug)]
pub struct Figure {
    /// Stays the same while the job does: `chainstays.right.tip-to-tip`.
    pub id: String,
    /// What is read.
    pub name: String,
    /// What it should be, in `unit`.
    pub nominal: f64,
    /// `mm` or `°`.
    pub unit: &'static str,
    /// How far off it may be. A starting value; the builder's own counts.
    pub limit: f64,
    /// The standard uncertainty of a reading. A starting value; measure yours by reading the same twice.
    pub standard: f64,
    /// With what, and from where to where.
    pub with: &'static str,
    reads: Reads,
}

/// What a figure depends on.
#[derive(Clone, Copy, Debug)]
enum Reads {
    Tips {
        pair: PairName,
        hand: Hand,
        front: Option<Tip>,
        rear: Option<Tip>,
    },
    Length {
        pair: PairName,
        hand: Hand,
    },
    FrontAngle {
        pair: PairName,
        hand: Hand,
    },
    RearAngle {
        pair: PairName,
        hand: Hand,
    },
    /// Across the fixture to one stay, so far along.
    Across {
        pair: PairName,
        hand: Hand,
        along: f64,
    },
    /// Across the fixture between or over both.
    Between {
        pair: PairName,
        along: f64,
    },
    /// Across the fixture to one dropout.
    Dropout {
        pair: PairName,
        hand: Hand,
    },
    Dropouts {
        pair: PairName,
    },
}

const LENGTH: (&str, f64, f64) = ("mm", 0.5, 0.1);
const FINE: (&str, f64, f64) = ("mm", 0.5, 0.05);
const ANGLE: (&str, f64, f64) = ("°", 0.2, 0.1);

/// Everything that can be read on the stays of a plan.
pub(super) fn figures(plan: &Plan, set_up: &SetUp) -> Vec<Figure> {
    let mut all = Vec::new();
    for pair in PairName::ALL {
        for hand in Hand::ALL {
            stay_figures(plan, pair, hand, &mut all);
        }
        let both = Hand::ALL.map(|hand| set_up.stay(pair, hand));
        if let [Some(right), Some(left)] = both
            && [right, left].iter().all(|stay| matches!(stay.hinge, Hinge::Across))
        {
            standing_figures(plan, pair, &mut all);
            dropout_figures(plan, pair, &mut all);
        }
    }
    all
}

fn stay_figures(plan: &Plan, pair: PairName, hand: Hand, all: &mut Vec<Figure>) {
    let stay = plan.pair(pair).stay(hand);
    let at = [pair.key(), hand.key()].join(".");
    let title = format!("{} {}", hand.key(), pair.one());
    let mut add = |key: &str, what: &str, nominal: f64, kind, with, reads| {
        all.push(figure(format!("{at}.{key}"), format!("{what} of the {title}"), nominal, kind, with, reads));
    };
    // A bent stay's tips lie a curve apart.
    if let Some(tips) = stay.tip_to_tip.filter(|_| stay.bent.is_none()) {
        let with = "long calipers or a rule, from front long point to rear long point, along the stay";
        add("tip-to-tip", "Tip to tip", tips.mm(), LENGTH, with, tips_of(plan, pair, stay));
    }
    let with = "a rule, from the middle of the front cut to the rear reference point";
    let length = stay.bent.as_ref().map_or(stay.length, |bent| bent.chord);
    add("length", "Length", length.mm(), LENGTH, with, Reads::Length { pair, hand });
    if let Some(cut) = stay.front.round() {
        let with = "an angle gauge, between the stay and a bar held in the cope";
        let reads = Reads::FrontAngle { pair, hand };
        add("front.angle", "Angle of the front cut", cut.angle.degrees(), ANGLE, with, reads);
    }
    let (what, angle, with) = match &stay.rear {
        Cut::Cope(cut) | Cut::Boss(cut) => {
            let with = "an angle gauge, between the stay and a bar held in the cope";
            ("Angle of the rear cut", cut.angle, with)
        }
        Cut::Slot(slot) => {
            let with = "an angle gauge, between the stay and a plate held in the slot";
            ("Angle of the rear slot", slot.angle, with)
        }
        Cut::Square(_) => return,
    };
    add("rear.angle", what, angle.degrees(), ANGLE, with, Reads::RearAngle { pair, hand });
}

fn tips_of(plan: &Plan, pair: PairName, stay: &Stay) -> Reads {
    let tube = &plan.job.pair(pair).side(stay.hand).tube;
    let tip = |cut: &Cut, at_front| Tip::new(stay, tube, cut.round()?, at_front);
    Reads::Tips { pair, hand: stay.hand, front: tip(&stay.front, true), rear: tip(&stay.rear, false) }
}

/// Read with both stays standing in their copes, on the shell or on a bar of its size, at their planned places.
fn standing_figures(plan: &Plan, pair: PairName, all: &mut Vec<Figure>) {
    for (i, post) in plan.pair(pair).posts.iter().enumerate() {
        let (at, along) = (format!("{}.post-{}", pair.key(), i + 1), post.u.mm());
        let between = Reads::Between { pair, along };
        let side = |hand| Reads::Across { pair, hand, along };
        let readings = [
            ("inside", post.inside, between, "calipers between the two tubes, across the fixture"),
            ("outside", post.outside, between, "calipers over the two tubes, across the fixture"),
            ("right", post.right, side(Hand::Right), "calipers from the centre line to the tube's middle"),
            ("left", post.left, side(Hand::Left), "calipers from the centre line to the tube's middle"),
        ];
        for (key, reading, reads, with) in readings {
            let name = format!("At post {} of the {}, {key}", i + 1, pair.name());
            let nominal = reading.map(crate::units::Length::mm);
            all.extend(
                nominal.map(|nominal| figure(format!("{at}.{key}"), name, nominal, FINE, with, reads)),
            );
        }
    }
}

/// Read with the dropouts in place, the stays standing as above.
fn dropout_figures(plan: &Plan, pair: PairName, all: &mut Vec<Figure>) {
    let inner = Hand::ALL.map(|hand| {
        let side = plan.job.pair(pair).side(hand);
        match &side.rear_end {
            End::Slot(slot) => side.rear.half_spacing.mm() - 0.5 * slot.plate.mm(),
            _ => 0.5 * plan.job.frame.axle_spacing.mm(),
        }
    });
    for (hand, inner) in Hand::ALL.into_iter().zip(inner) {
        let id = [pair.key(), hand.key(), "dropout"].join(".");
        let name = format!("Centre line to the {} dropout of the {}", hand.key(), pair.name());
        let with = "a rule on a flat plate, from the centre line to the dropout's inner face";
        all.push(figure(id, name, inner, LENGTH, with, Reads::Dropout { pair, hand }));
    }
    let [right, left] = inner;
    let (id, name) =
        (format!("{}.dropouts", pair.key()), format!("Between the dropouts of the {}", pair.name()));
    let with = "calipers, between the dropouts' inner faces";
    all.push(figure(id, name, right + left, FINE, with, Reads::Dropouts { pair }));
}

fn figure(
    id: String,
    name: String,
    nominal: f64,
    (unit, limit, standard): (&'static str, f64, f64),
    with: &'static str,
    reads: Reads,
) -> Figure {
    Figure { id, name, nominal, unit, limit, standard, with, reads }
}

impl Figure {
    /// What would be read on stays that differ by so much.
    pub(super) fn read<T: Real>(
        &self,
        set_up: &SetUp,
        differs: &dyn Fn(PairName, Hand) -> Differs<T>,
    ) -> Option<T> {
        let off = |pair, hand, along| Some(strays_at(set_up.stay(pair, hand)?, &differs(pair, hand), along));
        let dropout = |pair, hand| Some(dropout_strays(set_up.stay(pair, hand)?, &differs(pair, hand)));
        let both = |of: &dyn Fn(Hand) -> Option<T>| Some(of(Hand::Right)? + of(Hand::Left)?);
        let more = match self.reads {
            Reads::Tips { pair, hand, front, rear } => {
                let by = differs(pair, hand);
                let moves = |tip: Option<Tip>, angle: T| {
                    tip.map_or(T::zero(), |tip| tip.moves(angle * T::of(DEGREE)))
                };
                by.length + moves(rear, by.rear) - moves(front, by.front)
            }
            Reads::Length { pair, hand } => differs(pair, hand).length,
            Reads::FrontAngle { pair, hand } => differs(pair, hand).front,
            Reads::RearAngle { pair, hand } => differs(pair, hand).rear,
            Reads::Across { pair, hand, along } => off(pair, hand, along)?,
            Reads::Between { pair, along } => both(&|hand| off(pair, hand, along))?,
            Reads::Dropout { pair, hand } => dropout(pair, hand)?,
            Reads::Dropouts { pair } => both(&|hand| dropout(pair, hand))?,
        };
        Some(T::of(self.nominal) + more)
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
    let told = slope(stay);
    ((T::of(told.atan()) + turns).tan() - T::of(told)) * T::of(along - foot)
}

/// How far further out its dropout stands.
fn dropout_strays<T: Real>(stay: &StaySetUp, by: &Differs<T>) -> T {
    let (sin, cos) = outwards(stay, true, by.front).sin_cos();
    let along = T::of(stay.axle.x - stay.foot()) + by.length * T::of(1.0 / stay.secant);
    let told = T::of(stay.axle.y - stay.foot_outboard(stay.foot()));
    let across = told + by.length * T::of(slope(stay) / stay.secant) + by.dropout;
    across * cos + along * sin - told
}
