//! What to measure on the finished stays: what every plan has, then what a shop can read besides.

use crate::model::{Hand, PairName};
use crate::plan::{Cut, Pair, Plan};
use crate::tolerance::{Figure, Finished};
use serde::{Deserialize, Serialize};

/// One figure to measure.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Measure {
    /// Stays the same while the job does. The pair's key comes first.
    pub id: String,
    /// What is measured.
    pub name: String,
    /// With what, and from where to where.
    pub how: String,
    /// What it should be, mm or degrees.
    pub nominal: f64,
    /// Whether it is an angle.
    pub is_angle: bool,
}

pub(super) fn measures(plan: &Plan, finished: &Finished) -> Vec<Measure> {
    PairName::ALL.into_iter().flat_map(|name| of_pair(plan.pair(name), name, finished)).collect()
}

fn of_pair(pair: &Pair, name: PairName, finished: &Finished) -> Vec<Measure> {
    let mut all: Vec<Measure> = Hand::ALL.into_iter().flat_map(|hand| of_stay(pair, name, hand)).collect();
    all.extend(of_posts(pair, name));
    let own = finished.figures.iter().filter(|figure| figure.id.starts_with(name.key()));
    let new: Vec<Measure> =
        own.filter(|figure| all.iter().all(|known| known.id != figure.id)).map(further).collect();
    all.extend(new);
    all
}

fn further(figure: &Figure) -> Measure {
    Measure {
        id: figure.id.clone(),
        name: figure.name.clone(),
        how: figure.with.to_owned(),
        nominal: figure.nominal,
        is_angle: figure.unit == "°",
    }
}

fn of_posts(pair: &Pair, name: PairName) -> Vec<Measure> {
    let mut all = Vec::new();
    for (i, post) in pair.posts.iter().enumerate() {
        let calipers = [
            ("inside", post.inside, "calipers between the two tubes, across the fixture"),
            ("outside", post.outside, "calipers over the two tubes, across the fixture"),
        ];
        for (key, reading, how) in calipers {
            all.extend(reading.map(|known| Measure {
                id: format!("{}.post-{}.{key}", name.key(), i + 1),
                name: format!("At post {}, {key}", i + 1),
                how: how.to_owned(),
                nominal: known.mm(),
                is_angle: false,
            }));
        }
    }
    all
}

fn of_stay(pair: &Pair, name: PairName, hand: Hand) -> Vec<Measure> {
    let stay = pair.stay(hand);
    let measure = |key: &str, what: &str, nominal, is_angle, how: &str| Measure {
        id: format!("{}.{}.{key}", name.key(), hand.key()),
        name: format!("{what} of the {} {}", hand.key(), name.one()),
        how: how.to_owned(),
        nominal,
        is_angle,
    };
    let tips = "from front long point to rear long point, along the stay";
    let length = "from the middle of the front cut to the rear reference point";
    let mut all: Vec<Measure> = stay
        .tip_to_tip
        .map(|tips_apart| measure("tip-to-tip", "Tip to tip", tips_apart.mm(), false, tips))
        .into_iter()
        .collect();
    all.push(measure("length", "Length", stay.length.mm(), false, length));
    for (end, cut) in [("front", &stay.front), ("rear", &stay.rear)] {
        let (what, angle, how) = match cut {
            Cut::Cope(cut) | Cut::Boss(cut) => {
                ("cut", cut.angle, "between the stay and the axis of a bar held in the cope")
            }
            Cut::Slot(cut) => ("slot", cut.angle, "between the stay and a plate held in the slot"),
            Cut::Square(_) => continue,
        };
        let label = format!("Angle of the {end} {what}");
        all.push(measure(&format!("{end}.angle"), &label, angle.degrees(), true, how));
    }
    all
}
