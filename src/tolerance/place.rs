//! Which setting of the bench is meant.

use crate::model::{Hand, PairName};
use crate::units::Kind;

/// What can be off, wherever it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SettingKind {
    /// The dummy axle's place along the fixture.
    Slide,
    /// The dummy axle's height above the stay plane.
    AxleHeight,
    /// The stay's place across the fixture at its first post.
    FrontPost,
    /// The same at its last post.
    RearPost,
    /// What holds the dropout on the dummy axle off the centre plane.
    Spacer,
    /// Where the touched datum edge lies along the fixture.
    Datum,
    /// Where it lies above the stay plane.
    DatumHeight,
    /// The stay plane above the fixture's base face.
    ClampHeight,
    /// The width of the mounting block.
    BlockWidth,
    /// The diameter of the edge finder's tip.
    EdgeFinder,
    /// A table move along the fixture; where the end is cut square, the mark it is cut to.
    Along,
    /// A table move the other way.
    Across,
    /// Between the clamp plane and the spindle.
    Tilt,
    /// The fixture turned about its own normal, off the spindle.
    Turn,
    /// The saw's cutting diameter.
    Cutter,
    /// The diameter of what the end is coped onto.
    Member,
    /// The tube's diameter before its taper, or all along a plain tube.
    FrontDiameter,
    /// The tube's diameter after its taper.
    RearDiameter,
    /// How the raw tube is placed lengthwise.
    FrontTrim,
    /// How a bent tube is turned about the line between what holds it.
    Roll,
    /// The angle of a bend, by its number from 1 to 8: what it springs back.
    Bend(u8),
    /// Where the finished stay is put on its member, across on the shell, along on the seat tube.
    Placing,
}

impl SettingKind {
    /// All of them.
    pub const ALL: [Self; 29] = [
        Self::Slide,
        Self::AxleHeight,
        Self::FrontPost,
        Self::RearPost,
        Self::Spacer,
        Self::Datum,
        Self::DatumHeight,
        Self::ClampHeight,
        Self::BlockWidth,
        Self::EdgeFinder,
        Self::Along,
        Self::Across,
        Self::Tilt,
        Self::Turn,
        Self::Cutter,
        Self::Member,
        Self::FrontDiameter,
        Self::RearDiameter,
        Self::FrontTrim,
        Self::Roll,
        Self::Bend(1),
        Self::Bend(2),
        Self::Bend(3),
        Self::Bend(4),
        Self::Bend(5),
        Self::Bend(6),
        Self::Bend(7),
        Self::Bend(8),
        Self::Placing,
    ];

    /// The word in an identifier.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Slide => "slide",
            Self::AxleHeight => "axle-height",
            Self::FrontPost => "front-post",
            Self::RearPost => "rear-post",
            Self::Spacer => "spacer",
            Self::Datum => "datum",
            Self::DatumHeight => "datum-height",
            Self::ClampHeight => "clamp-height",
            Self::BlockWidth => "block-width",
            Self::EdgeFinder => "edge-finder",
            Self::Along => "along",
            Self::Across => "across",
            Self::Tilt => "tilt",
            Self::Turn => "turn",
            Self::Cutter => "cutter",
            Self::Member => "member",
            Self::FrontDiameter => "front-diameter",
            Self::RearDiameter => "rear-diameter",
            Self::FrontTrim => "front-trim",
            Self::Roll => "roll",
            Self::Bend(1) => "bend-1",
            Self::Bend(2) => "bend-2",
            Self::Bend(3) => "bend-3",
            Self::Bend(4) => "bend-4",
            Self::Bend(5) => "bend-5",
            Self::Bend(6) => "bend-6",
            Self::Bend(7) => "bend-7",
            Self::Bend(_) => "bend-8",
            Self::Placing => "placing",
        }
    }

    /// Whether it is a length or an angle.
    pub const fn quantity(self) -> Kind {
        match self {
            Self::Tilt | Self::Turn | Self::Roll | Self::Bend(_) => Kind::Angle,
            _ => Kind::Length,
        }
    }
}

/// One setting: what, and how far it reaches. A setting that both sides or both pairs share is off for all at once.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Place {
    /// What can be off.
    pub kind: SettingKind,
    /// Which pair; `None` for both.
    pub pair: Option<PairName>,
    /// Which side; `None` for both.
    pub hand: Option<Hand>,
    /// `true` at the front end, `false` at the rear; `None` where it belongs to no end.
    pub at_front: Option<bool>,
}

impl Place {
    /// A setting that everything shares.
    pub const fn shared(kind: SettingKind) -> Self {
        Self { kind, pair: None, hand: None, at_front: None }
    }

    /// Its identifier: `chainstays.right.front.along`. It stays the same while the job does.
    pub fn id(&self) -> String {
        let keys = [
            self.pair.map(PairName::key),
            self.hand.map(Hand::key),
            self.at_front.map(end_key),
            Some(self.kind.key()),
        ];
        keys.into_iter().flatten().collect::<Vec<_>>().join(".")
    }

    /// The place with that identifier.
    pub fn from_id(id: &str) -> Option<Self> {
        let all = SettingKind::ALL.into_iter().flat_map(|kind| {
            let pairs = [None, Some(PairName::Chainstays), Some(PairName::Seatstays)];
            pairs.into_iter().flat_map(move |pair| {
                let hands = [None, Some(Hand::Right), Some(Hand::Left)];
                hands.into_iter().flat_map(move |hand| {
                    [None, Some(true), Some(false)].map(|at_front| Self { kind, pair, hand, at_front })
                })
            })
        });
        all.into_iter().find(|place| place.id() == id)
    }

    /// Whether another setting is the same, or one side's part of it.
    pub fn covers(&self, other: &Self) -> bool {
        self.kind == other.kind
            && self.at_front == other.at_front
            && (self.pair.is_none() || self.pair == other.pair)
            && (self.hand.is_none() || other.hand.is_none() || self.hand == other.hand)
    }

    /// Whether it is about that stay.
    pub fn reaches(&self, pair: PairName, hand: Hand) -> bool {
        self.pair.is_none_or(|own| own == pair) && self.hand.is_none_or(|own| own == hand)
    }
}

const fn end_key(at_front: bool) -> &'static str {
    if at_front { "front" } else { "rear" }
}
