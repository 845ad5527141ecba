//! What can be measured on a pair of finished stays.

use crate::model::{Hand, PairName};
use crate::plan::CutAt;
use crate::units::Kind;

/// One figure that can be measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measurand {
    /// From the front long point to the rear long point.
    TipToTip(PairName, Hand),
    /// From the middle of the front cut to the rear reference point.
    Length(PairName, Hand),
    /// Between the stay and what an end is cut for.
    CutAngle(CutAt),
    /// Across the fixture at a post, by its number from 1, with both stays standing in their copes.
    Post(PairName, u8, AtPost),
    /// From the centre line to a dropout's inner face.
    Dropout(PairName, Hand),
    /// Between both dropouts' inner faces.
    Dropouts(PairName),
}

/// What is measured across the fixture at a post.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AtPost {
    /// Between the tubes.
    Inside,
    /// Over the tubes.
    Outside,
    /// From the centre line to a tube's middle.
    Axis(Hand),
}

impl AtPost {
    const ALL: [Self; 4] = [Self::Inside, Self::Outside, Self::Axis(Hand::Right), Self::Axis(Hand::Left)];

    pub(super) const fn key(self) -> &'static str {
        match self {
            Self::Inside => "inside",
            Self::Outside => "outside",
            Self::Axis(hand) => hand.key(),
        }
    }
}

/// A bench has no more posts.
const MOST_POSTS: u8 = 8;

impl Measurand {
    /// Everything that any pair of stays may have.
    fn all() -> impl Iterator<Item = Self> {
        PairName::ALL.into_iter().flat_map(|pair| {
            let of_stay = move |hand| {
                let cut = |at_front| Self::CutAngle(CutAt { pair, hand, at_front });
                [
                    Self::TipToTip(pair, hand),
                    Self::Length(pair, hand),
                    cut(true),
                    cut(false),
                    Self::Dropout(pair, hand),
                ]
            };
            let at_post = move |number| AtPost::ALL.map(|what| Self::Post(pair, number, what));
            let stays = Hand::ALL.into_iter().flat_map(of_stay);
            stays.chain((1..=MOST_POSTS).flat_map(at_post)).chain([Self::Dropouts(pair)])
        })
    }

    /// Its identifier, the same while the job is: `chainstays.right.tip-to-tip`.
    pub fn id(self) -> String {
        let of_stay = |pair: PairName, hand: Hand, key: &str| [pair.key(), hand.key(), key].join(".");
        match self {
            Self::TipToTip(pair, hand) => of_stay(pair, hand, "tip-to-tip"),
            Self::Length(pair, hand) => of_stay(pair, hand, "length"),
            Self::CutAngle(at) => [&at.key(), "angle"].join("."),
            Self::Post(pair, number, what) => format!("{}.post-{number}.{}", pair.key(), what.key()),
            Self::Dropout(pair, hand) => of_stay(pair, hand, "dropout"),
            Self::Dropouts(pair) => [pair.key(), "dropouts"].join("."),
        }
    }

    /// The measurand with that identifier.
    pub fn from_id(id: &str) -> Option<Self> {
        Self::all().find(|one| one.id() == id)
    }

    /// Whether it is a length or an angle.
    pub const fn quantity(self) -> Kind {
        match self {
            Self::CutAngle(_) => Kind::Angle,
            Self::TipToTip(..)
            | Self::Length(..)
            | Self::Post(..)
            | Self::Dropout(..)
            | Self::Dropouts(_) => Kind::Length,
        }
    }

    /// The pair that it is measured on.
    pub const fn pair(self) -> PairName {
        match self {
            Self::TipToTip(pair, _)
            | Self::Length(pair, _)
            | Self::CutAngle(CutAt { pair, .. })
            | Self::Post(pair, ..)
            | Self::Dropout(pair, _)
            | Self::Dropouts(pair) => pair,
        }
    }
}

/// With what it is measured, and from where to where.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Method {
    /// Long calipers or a rule, along the stay from long point to long point.
    RuleOverTips,
    /// A rule, from the middle of the front cut to the rear reference point.
    RuleToReference,
    /// An angle gauge, between the stay and a bar held in the cope.
    GaugeOnBar,
    /// An angle gauge, between the stay and a plate held in the slot.
    GaugeOnPlate,
    /// Calipers between the tubes.
    CalipersBetweenTubes,
    /// Calipers over the tubes.
    CalipersOverTubes,
    /// Calipers from the centre line to the tube's middle.
    CalipersToAxis,
    /// A rule on a flat plate, from the centre line to the dropout's inner face.
    RuleToDropout,
    /// Calipers between the dropouts' inner faces.
    CalipersBetweenDropouts,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_measurand_is_found_again_by_its_id() {
        let ids: Vec<String> = Measurand::all().map(Measurand::id).collect();
        assert_eq!(ids.len(), 2 * (2 * 5 + 8 * 4 + 1));
        for one in Measurand::all() {
            assert_eq!(Measurand::from_id(&one.id()), Some(one));
        }
        assert_eq!(Measurand::from_id("chainstays.right"), None);
        assert_eq!(Measurand::from_id("chainstays.post-9.inside"), None);
    }
}
