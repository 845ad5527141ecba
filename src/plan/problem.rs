//! What a plan finds wrong or worth a look: typed, each with its figures.

use crate::model::{Hand, Level, Location, PairName};
use crate::units::{Angle, Length};
use serde::{Deserialize, Serialize};

/// The written code of a problem: its name in snake case, which never changes its meaning.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Code {
    /// Left and right need different clamp frames.
    SidesApart,
    /// Part of the stay misses what it mates to, or the saw.
    PartialContact,
    /// The stay seats nowhere, or there is nothing to cut.
    NoContact,
    /// The stay touches at a point only.
    TouchOnly,
    /// The stay runs parallel to what it mates to.
    AxesParallel,
    /// The cutter's edge runs along the stay's side: the cut feathers out.
    GrazingCut,
    /// The cutter is slimmer than the stay.
    CutterSmallerThanStay,
    /// The cutter is slimmer than what the stay mates to, so that the stay cannot seat.
    CutterSmallerThanMember,
    /// Left and right tubes run into each other.
    StaysCollide,
    /// The cut lies past the end of the raw tube.
    CutPastTubeEnd,
    /// A taper or an oval starts or ends inside the cut.
    TaperInCut,
    /// The slide's scale does not reach.
    SlideOutOfRange,
    /// The axle holder does not reach.
    AxleHeightOutOfRange,
    /// A post stands where the stay is not.
    PostOffStay,
    /// A face of the slot lies outside the tube.
    SlotOutsideTube,
    /// The slot is deeper than what is left of the stay.
    SlotTooDeep,
    /// The front and rear cuts meet.
    CutsOverlap,
    /// A bend begins before the cut ends: the cut is figured as if its end were straight.
    BendInCut,
    /// A bend is tight for its tube.
    TightBend,
    /// The taper runs on into a bend.
    TaperInBend,
    /// A bend lies past an end of the raw tube.
    BendPastTubeEnd,
    /// A post stands on a bend.
    PostOnBend,
    /// No trim lets the tube span its reference points with both cuts on the tube and on its straight ends.
    TubeCannotSpan,
    /// The hub does not fit between the rear ends.
    HubSpacing,
    /// The stay runs past an end of what it mates to.
    PastMemberEnd,
    /// The cutter is larger than what the stay mates to, so that a gap is left.
    CutterLargerThanMember,
    /// A straight tube is to be turned or moved to where it leaves the most clearance.
    NothingToFind,
    /// A plain wall is given beside butts, which count.
    WallUnused,
    /// Two posts stand at one place.
    PostsTogether,
    /// The dropout's tabs do not stand apart as its stays do.
    TabsDifference,
    /// The two stays of a round dropout are cut to axes that are apart.
    RoundApart,
    /// A plug does not go into its stay.
    PlugClearance,
}

/// What a round end mates to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Mate {
    /// The bottom bracket shell.
    Shell,
    /// The seat tube.
    SeatTube,
    /// A round dropout.
    RoundDropout,
}

/// What changes a tube's section along it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum SectionChange {
    /// Its taper.
    Taper,
    /// A stretch pressed oval.
    Oval,
}

/// A reading that a scale of the fixture does not reach.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct OutOfRange {
    /// The side whose reading it is; `None` where both share it.
    pub hand: Option<Hand>,
    /// What would have to be set.
    pub reading: Length,
    /// Where the scale begins.
    pub min: Length,
    /// Where the scale ends.
    pub max: Length,
}

/// What is wrong or worth a look, with its figures.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Problem {
    /// Left and right need clamp planes of their own.
    SidesApart(PairName),
    /// The stay runs parallel to what it mates to.
    AxesParallel(Mate),
    /// The whole stay misses what it mates to: there is nothing to cut.
    MissesMate(Mate),
    /// The whole stay misses the saw.
    MissesSaw {
        /// The saw's diameter.
        saw: Length,
    },
    /// The saw cuts the stay, but the stay misses what it mates to.
    SeatsNowhere(Mate),
    /// The stay only touches what it mates to.
    TouchesMate(Mate),
    /// The stay only touches the saw, which is not of its mate's size.
    TouchesSaw,
    /// Part of the stay misses what it mates to.
    PartlyMissesMate {
        /// What it mates to.
        mate: Mate,
        /// Whether the saw is of that size: then there is no cut where the stay misses.
        saw_fits: bool,
        /// The directions round the stay in which it misses: from, to.
        missed: Vec<[Angle; 2]>,
    },
    /// Part of the stay misses the saw.
    PartlyMissesSaw,
    /// The saw runs out along the side of the tube.
    GrazingCut,
    /// The saw is slimmer than the stay at the cut.
    SawUnderStay {
        /// The saw's diameter.
        saw: Length,
        /// The stay's.
        stay: Length,
    },
    /// The saw is slimmer than what the stay mates to.
    SawUnderMate {
        /// The saw's diameter.
        saw: Length,
        /// What the stay mates to.
        mate: Mate,
        /// The mate's diameter.
        diameter: Length,
    },
    /// Right and left run into each other.
    StaysCollide {
        /// How deep.
        depth: Length,
        /// Whether they do so only between a long and a short point, where a cut may have taken away what meets.
        at_cut_ends: bool,
    },
    /// The cut lies past the end of the raw tube.
    CutPastTubeEnd {
        /// By how much.
        by: Length,
    },
    /// The tube's section changes inside the cut.
    SectionChangesInCut {
        /// What changes it.
        change: SectionChange,
        /// Station of the change from the front reference point, positive towards the rear.
        station: Length,
    },
    /// The slide's scale does not reach.
    SlideOutOfRange(OutOfRange),
    /// The axle holder does not reach.
    AxleHeightOutOfRange(OutOfRange),
    /// A post stands where a stay is not.
    PostOffStay {
        /// The post's station.
        post: Length,
        /// The stay that does not reach it; `None` where neither does.
        hand: Option<Hand>,
    },
    /// A post holds a stay on a bend.
    PostOnBend {
        /// The post's station.
        post: Length,
        /// The stay.
        hand: Hand,
    },
    /// A face of the slot lies outside the tube.
    SlotOutsideTube {
        /// Whether at the slot's mouth, else at its root.
        at_mouth: bool,
        /// Whether it is the outboard face.
        outboard: bool,
    },
    /// The slot runs past the stay's front reference point.
    SlotTooDeep {
        /// By how much.
        past: Length,
    },
    /// Nothing is left between the front and the rear cut.
    CutsOverlap,
    /// A bend begins before the cut ends, seen from the stay's end.
    BendBeginsInCut {
        /// By how much.
        by: Length,
    },
    /// A bend ends after the cut begins, seen from the stay's end.
    BendEndsInCut {
        /// By how much.
        by: Length,
    },
    /// A bend is tight for its tube.
    TightBend {
        /// The bend, counted from the front.
        number: u32,
        /// Its radius.
        radius: Length,
        /// The tube's diameter there.
        diameter: Length,
    },
    /// The tube tapers in bends.
    TaperInBends(
        /// The bends, counted from the front.
        Vec<u32>,
    ),
    /// A bend lies past the end of the raw tube.
    BendPastTubeEnd {
        /// The bend, counted from the front.
        number: u32,
    },
    /// No place of the tube has both cuts on it and off its bends.
    TubeCannotSpan,
    /// The dropouts' inner faces are not as far apart as the hub is wide.
    DropoutsOffHub {
        /// Between the inner faces.
        between: Length,
        /// The hub's width over its faces.
        hub: Length,
    },
    /// One dropout's inner face does not lie at the hub's face.
    DropoutOffHubFace {
        /// How far outboard of the hub's face; negative inboard.
        by: Length,
    },
    /// The stay meets a round dropout further inboard than the hub's face.
    RoundDropoutInsideHub {
        /// By how much.
        by: Length,
    },
    /// A stay that is cut square ends beside the hub's face, nowhere across it.
    EndBesideHubFace {
        /// How far outboard of the hub's face the tube ends; negative inboard.
        by: Length,
    },
    /// The stay runs past an end of what it mates to.
    PastMateEnd {
        /// What it mates to.
        mate: Mate,
        /// By how much.
        by: Length,
    },
    /// The saw is larger than what the stay mates to: a gap is left.
    SawOverMate {
        /// The saw's diameter.
        saw: Length,
        /// What the stay mates to.
        mate: Mate,
        /// The mate's diameter.
        diameter: Length,
        /// The gap that is left.
        gap: Length,
    },
    /// A straight tube leaves nothing to find.
    NothingToFind,
    /// A plain wall is given beside butts, and counts for nothing.
    WallUnused {
        /// That wall.
        wall: Length,
    },
    /// Two posts stand at one place.
    PostsTogether {
        /// Their station.
        post: Length,
    },
    /// The dropout's tabs do not stand apart as its stays do.
    TabsOffStays {
        /// By how much the stays stand further apart.
        by: Angle,
    },
    /// The two stays of a round dropout are cut to axes that are apart.
    RoundDropoutApart {
        /// How far.
        by: Length,
    },
    /// A plug is larger than the bore of its stay.
    PlugTooLarge {
        /// By how much, of the diameters.
        by: Length,
    },
}

/// What fits badly by more than this makes scrap, mm.
const SCRAP: f64 = 1.0;

/// Tabs that are off by more than this are not bent to fit, degrees.
const TABS_SCRAP: f64 = 3.0;

/// The widest gap that a way of joining bridges, mm: fillet brazing. Common practice, no source.
pub(super) const WIDEST_GAP: Length = Length::from_mm(0.25);

/// A stop where the figure is so far off that the part is scrap.
const fn by_size(by: Length) -> Level {
    if by.mm().abs() > SCRAP { Level::Stop } else { Level::Check }
}

impl Problem {
    /// The code that files write.
    pub const fn code(&self) -> Code {
        match self {
            Self::SidesApart(_) => Code::SidesApart,
            Self::AxesParallel(_) => Code::AxesParallel,
            Self::MissesMate(_) | Self::MissesSaw { .. } | Self::SeatsNowhere(_) => Code::NoContact,
            Self::TouchesMate(_) | Self::TouchesSaw => Code::TouchOnly,
            Self::PartlyMissesMate { .. } | Self::PartlyMissesSaw => Code::PartialContact,
            Self::GrazingCut => Code::GrazingCut,
            Self::SawUnderStay { .. } => Code::CutterSmallerThanStay,
            Self::SawUnderMate { .. } => Code::CutterSmallerThanMember,
            Self::StaysCollide { .. } => Code::StaysCollide,
            Self::CutPastTubeEnd { .. } => Code::CutPastTubeEnd,
            Self::SectionChangesInCut { .. } => Code::TaperInCut,
            Self::SlideOutOfRange(_) => Code::SlideOutOfRange,
            Self::AxleHeightOutOfRange(_) => Code::AxleHeightOutOfRange,
            Self::PostOffStay { .. } => Code::PostOffStay,
            Self::PostOnBend { .. } => Code::PostOnBend,
            Self::SlotOutsideTube { .. } => Code::SlotOutsideTube,
            Self::SlotTooDeep { .. } => Code::SlotTooDeep,
            Self::CutsOverlap => Code::CutsOverlap,
            Self::BendBeginsInCut { .. } | Self::BendEndsInCut { .. } => Code::BendInCut,
            Self::TightBend { .. } => Code::TightBend,
            Self::TaperInBends(_) => Code::TaperInBend,
            Self::BendPastTubeEnd { .. } => Code::BendPastTubeEnd,
            Self::TubeCannotSpan => Code::TubeCannotSpan,
            Self::DropoutsOffHub { .. }
            | Self::DropoutOffHubFace { .. }
            | Self::RoundDropoutInsideHub { .. }
            | Self::EndBesideHubFace { .. } => Code::HubSpacing,
            Self::PastMateEnd { .. } => Code::PastMemberEnd,
            Self::SawOverMate { .. } => Code::CutterLargerThanMember,
            Self::NothingToFind => Code::NothingToFind,
            Self::WallUnused { .. } => Code::WallUnused,
            Self::PostsTogether { .. } => Code::PostsTogether,
            Self::TabsOffStays { .. } => Code::TabsDifference,
            Self::RoundDropoutApart { .. } => Code::RoundApart,
            Self::PlugTooLarge { .. } => Code::PlugClearance,
        }
    }

    /// How grave it is: a stop where the part would be scrap or the set-up cannot be made, a check where the builder must look
    /// before going on.
    pub const fn level(&self) -> Level {
        match self {
            Self::AxesParallel(_)
            | Self::MissesMate(_)
            | Self::MissesSaw { .. }
            | Self::SeatsNowhere(_)
            | Self::TouchesMate(_)
            | Self::TouchesSaw
            | Self::SawUnderMate { .. }
            | Self::StaysCollide { at_cut_ends: false, .. }
            | Self::CutPastTubeEnd { .. }
            | Self::SlideOutOfRange(_)
            | Self::AxleHeightOutOfRange(_)
            | Self::SlotOutsideTube { .. }
            | Self::SlotTooDeep { .. }
            | Self::CutsOverlap
            | Self::BendPastTubeEnd { .. }
            | Self::TubeCannotSpan
            | Self::PastMateEnd { .. }
            | Self::PlugTooLarge { .. } => Level::Stop,
            Self::TabsOffStays { by } if by.degrees().abs() > TABS_SCRAP => Level::Stop,
            Self::TabsOffStays { .. } => Level::Check,
            Self::RoundDropoutApart { by } => by_size(*by),
            Self::DropoutsOffHub { between, hub } => by_size(Length::from_mm(between.mm() - hub.mm())),
            Self::DropoutOffHubFace { by } | Self::RoundDropoutInsideHub { by } => by_size(*by),
            Self::SawOverMate { gap, .. } => by_size(*gap),
            Self::PartlyMissesMate { .. }
            | Self::PartlyMissesSaw
            | Self::GrazingCut
            | Self::SawUnderStay { .. }
            | Self::StaysCollide { at_cut_ends: true, .. }
            | Self::PostOffStay { .. }
            | Self::PostOnBend { .. }
            | Self::BendBeginsInCut { .. }
            | Self::BendEndsInCut { .. }
            | Self::TightBend { .. }
            | Self::TaperInBends(_)
            | Self::EndBesideHubFace { .. }
            | Self::PostsTogether { .. } => Level::Check,
            Self::SidesApart(_)
            | Self::SectionChangesInCut { .. }
            | Self::NothingToFind
            | Self::WallUnused { .. } => Level::Note,
        }
    }
}

/// A problem and what it is about.
#[derive(Clone, Debug, PartialEq)]
pub struct Warning {
    /// What it is about.
    pub location: Location,
    /// What is wrong.
    pub problem: Problem,
}

impl Warning {
    /// The code that files write.
    pub const fn code(&self) -> Code {
        self.problem.code()
    }

    /// How grave it is.
    pub const fn level(&self) -> Level {
        self.problem.level()
    }
}
