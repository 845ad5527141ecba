//! The settings of the bench that can be off, with what is known of them to start with.

use super::distribution::Distribution;
use super::place::{Kind, Place};
use super::set_up::{Hinge, SetUp, StaySetUp, in_one_pass};
use crate::model::{Hand, PairName};
use crate::plan::Plan;

/// One setting that can be off.
#[derive(Clone, Debug, PartialEq)]
pub struct Setting {
    /// Which.
    pub place: Place,
    /// By how much it is known to be off, true figure less told: 0 until the builder says otherwise, as after
    /// [`RearEnd::learn`](super::RearEnd::learn).
    pub off: f64,
    /// How far it can be off besides, in its [`unit`](Kind::unit). A starting value; the builder's own counts.
    pub spread: Distribution,
    /// Where the starting value comes from.
    pub source: &'static str,
}

impl Setting {
    fn new(place: Place) -> Self {
        let (half_width, source) = start(place.kind);
        Self { place, off: 0.0, spread: Distribution::Rectangular { half_width }, source }
    }

    /// Its identifier, the same while the job is.
    pub fn id(&self) -> String {
        self.place.id()
    }

    /// What the trade calls it.
    pub fn name(&self) -> String {
        self.place.name()
    }
}

/// Half of what a setting can be off by at first, either way, and why.
const fn start(kind: Kind) -> (f64, &'static str) {
    match kind {
        Kind::Slide | Kind::AxleHeight => (0.25, "half of a 0.5 mm scale division; measure yours"),
        Kind::FrontPost | Kind::RearPost => (0.1, "calipers over tubes, from memory; measure yours"),
        Kind::Spacer => (0.1, "a turned spacer, from memory; measure yours"),
        Kind::Datum | Kind::DatumHeight | Kind::ClampHeight => {
            (0.1, "how the fixture is made; measure yours")
        }
        Kind::BlockWidth => (0.05, "calipers; measure yours"),
        Kind::EdgeFinder => (0.02, "a caliper's resolution; measure yours"),
        Kind::Along | Kind::Across => (0.05, "read-out and backlash, from memory; measure yours"),
        Kind::Tilt => (0.1, "a 0.1° angle gauge; measure yours"),
        Kind::Turn => (0.05, "0.1 mm over 115 mm on a dial gauge; measure yours"),
        Kind::Cutter => (0.3, "hole saws cut 0.2 to 0.8 mm over, from memory; measure yours"),
        Kind::Member => (0.1, "calipers on a painted or turned part, from memory; measure yours"),
        Kind::FrontDiameter | Kind::RearDiameter => (0.1, "drawn tube, from memory; measure yours"),
        Kind::FrontTrim => (0.5, "a pencil line; measure yours"),
        Kind::Roll => (0.5, "bends levelled by eye or gauge, no source; measure yours"),
        Kind::Bend(_) => (0.5, "what a bend springs back, no source; measure yours"),
        Kind::Placing => (0.3, "a scribed line; measure yours"),
    }
}

/// Every setting that reaches this job's stays.
pub(super) fn settings(plan: &Plan, set_up: &SetUp) -> Vec<Setting> {
    let mut places = shared(set_up);
    for pair in PairName::ALL {
        pair_places(plan, set_up, pair, &mut places);
    }
    places.into_iter().map(Setting::new).collect()
}

fn rounds(set_up: &SetUp) -> impl Iterator<Item = &super::set_up::RoundSetUp> {
    set_up.stays.iter().flat_map(|(_, stay)| [stay.front.as_ref(), stay.rear.as_ref()]).flatten()
}

/// What fixture and mill bring to all four stays alike.
fn shared(set_up: &SetUp) -> Vec<Place> {
    let on_side = rounds(set_up).any(|round| round.on_side);
    let tilted = rounds(set_up).any(|round| !round.on_side);
    let wanted = [
        (Kind::Datum, on_side || tilted),
        (Kind::EdgeFinder, on_side || tilted),
        (Kind::ClampHeight, on_side),
        (Kind::DatumHeight, tilted),
        (Kind::BlockWidth, tilted),
    ];
    let mut places: Vec<Place> =
        wanted.into_iter().filter(|(_, wanted)| *wanted).map(|(kind, _)| Place::shared(kind)).collect();
    places.extend(Hand::ALL.map(|hand| Place { hand: Some(hand), ..Place::shared(Kind::Spacer) }));
    places
}

fn pair_places(plan: &Plan, set_up: &SetUp, pair: PairName, places: &mut Vec<Place>) {
    let of_pair = |kind| Place { pair: Some(pair), ..Place::shared(kind) };
    let together = plan.pair(pair).one_plane;
    for hand in Hand::ALL {
        let Some(stay) = set_up.stay(pair, hand) else { continue };
        let own = |kind| Place { hand: Some(hand), ..of_pair(kind) };
        // A slot or a socket leaves the dropout to the dummy axle, which both stays share where they are set together.
        if stay.rear.is_none() {
            for kind in [Kind::Slide, Kind::AxleHeight] {
                push(places, if together { of_pair(kind) } else { own(kind) });
            }
        }
        places.extend([Kind::FrontPost, Kind::RearPost, Kind::Placing].map(own));
        places.extend(tube_kinds(stay).map(own));
        for at_front in [true, false] {
            let shares = in_one_pass(plan, pair, at_front);
            for kind in end_kinds(stay, at_front) {
                let place = if shares { of_pair(kind) } else { own(kind) };
                push(places, Place { at_front: Some(at_front), ..place });
            }
        }
    }
}

/// Both sides name what they share; it is one setting.
fn push(places: &mut Vec<Place>, place: Place) {
    if !places.contains(&place) {
        places.push(place);
    }
}

fn tube_kinds(stay: &StaySetUp) -> impl Iterator<Item = Kind> + use<'_> {
    let (tapered, bent) = (stay.tube.od_front != stay.tube.od_rear, stay.bent.is_some());
    let kinds = [
        (Kind::FrontDiameter, true),
        (Kind::RearDiameter, tapered),
        (Kind::FrontTrim, tapered || bent),
        (Kind::Roll, bent),
    ];
    let bends = stay.bent.iter().flat_map(|bent| bent.bends()).map(Kind::Bend);
    kinds.into_iter().filter(|(_, wanted)| *wanted).map(|(kind, _)| kind).chain(bends)
}

fn end_kinds(stay: &StaySetUp, at_front: bool) -> Vec<Kind> {
    let round = if at_front { stay.front.as_ref() } else { stay.rear.as_ref() };
    match round {
        Some(_) => vec![Kind::Along, Kind::Across, Kind::Tilt, Kind::Turn, Kind::Cutter, Kind::Member],
        // A front end cut square hangs where its mark was.
        None if at_front && matches!(stay.hinge, Hinge::Across) => vec![Kind::Along],
        None => Vec::new(),
    }
}
