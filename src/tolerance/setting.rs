//! The settings of the bench that can be off, with what is known of them to start with.

use super::distribution::Distribution;
use super::place::{Place, SettingKind};
use super::set_up::{Hinge, SetUp, StaySetUp, in_one_pass};
use crate::model::{Hand, PairName};
use crate::plan::Plan;

/// One setting that can be off.
#[derive(Clone, Debug, PartialEq)]
pub struct Setting {
    /// Which.
    pub place: Place,
    /// By how much it is known to be off, true figure less nominal: 0 until the builder says otherwise, as after
    /// [`RearEnd::learn`](super::RearEnd::learn).
    pub off: f64,
    /// How far it can be off besides, mm or degrees. A starting value; the builder's own counts.
    pub spread: Distribution,
}

impl Setting {
    fn new(place: Place) -> Self {
        Self { place, off: 0.0, spread: Distribution::Rectangular { half_width: start(place.kind) } }
    }

    /// Its identifier, the same while the job is.
    pub fn id(&self) -> String {
        self.place.id()
    }
}

/// Half of what a setting can be off by at first, either way, mm or degrees. `text` says where each comes from.
const fn start(kind: SettingKind) -> f64 {
    match kind {
        SettingKind::EdgeFinder => 0.02,
        SettingKind::BlockWidth | SettingKind::Along | SettingKind::Across | SettingKind::Turn => 0.05,
        SettingKind::FrontPost
        | SettingKind::RearPost
        | SettingKind::Spacer
        | SettingKind::Datum
        | SettingKind::DatumHeight
        | SettingKind::ClampHeight => 0.1,
        SettingKind::Tilt | SettingKind::Member | SettingKind::FrontDiameter | SettingKind::RearDiameter => {
            0.1
        }
        SettingKind::Slide | SettingKind::AxleHeight => 0.25,
        SettingKind::Cutter | SettingKind::Placing => 0.3,
        SettingKind::FrontTrim | SettingKind::Roll | SettingKind::Bend(_) => 0.5,
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
        (SettingKind::Datum, on_side || tilted),
        (SettingKind::EdgeFinder, on_side || tilted),
        (SettingKind::ClampHeight, on_side),
        (SettingKind::DatumHeight, tilted),
        (SettingKind::BlockWidth, tilted),
    ];
    let mut places: Vec<Place> =
        wanted.into_iter().filter(|(_, wanted)| *wanted).map(|(kind, _)| Place::shared(kind)).collect();
    places.extend(Hand::ALL.map(|hand| Place { hand: Some(hand), ..Place::shared(SettingKind::Spacer) }));
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
            for kind in [SettingKind::Slide, SettingKind::AxleHeight] {
                push(places, if together { of_pair(kind) } else { own(kind) });
            }
        }
        places.extend([SettingKind::FrontPost, SettingKind::RearPost, SettingKind::Placing].map(own));
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

fn tube_kinds(stay: &StaySetUp) -> impl Iterator<Item = SettingKind> + use<'_> {
    let (tapered, bent) = (stay.tube.od_front != stay.tube.od_rear, stay.bent.is_some());
    let kinds = [
        (SettingKind::FrontDiameter, true),
        (SettingKind::RearDiameter, tapered),
        (SettingKind::FrontTrim, tapered || bent),
        (SettingKind::Roll, bent),
    ];
    let bends = stay.bent.iter().flat_map(|bent| bent.bends()).map(SettingKind::Bend);
    kinds.into_iter().filter(|(_, wanted)| *wanted).map(|(kind, _)| kind).chain(bends)
}

fn end_kinds(stay: &StaySetUp, at_front: bool) -> Vec<SettingKind> {
    let round = if at_front { stay.front.as_ref() } else { stay.rear.as_ref() };
    match round {
        Some(_) => vec![
            SettingKind::Along,
            SettingKind::Across,
            SettingKind::Tilt,
            SettingKind::Turn,
            SettingKind::Cutter,
            SettingKind::Member,
        ],
        // A front end cut square hangs where its mark was.
        None if at_front && matches!(stay.hinge, Hinge::Across) => vec![SettingKind::Along],
        None => Vec::new(),
    }
}
