//! By how much each setting of the bench is off, stay by stay.

use super::place::{Place, SettingKind};
use crate::model::{Hand, MOST_BENDS, PairName};
use crate::units::Real;

/// Errors that belong to one cut end. Lengths in mm, angles in degrees.
#[derive(Clone, Copy, Debug)]
pub(super) struct EndErrors<T> {
    pub(super) along: T,
    pub(super) across: T,
    pub(super) tilt: T,
    pub(super) turn: T,
    pub(super) cutter: T,
    pub(super) member: T,
}

/// All errors that reach one stay: the true figure less the nominal one, mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct StayErrors<T> {
    pub(super) slide: T,
    pub(super) axle_height: T,
    pub(super) front_post: T,
    pub(super) rear_post: T,
    pub(super) spacer: T,
    pub(super) datum: T,
    pub(super) datum_height: T,
    pub(super) clamp_height: T,
    pub(super) block_width: T,
    pub(super) edge_finder: T,
    pub(super) front_diameter: T,
    pub(super) rear_diameter: T,
    pub(super) front_trim: T,
    /// Degrees.
    pub(super) roll: T,
    /// Of each bend, degrees.
    pub(super) bends: [T; MOST_BENDS],
    pub(super) placing: T,
    pub(super) front: EndErrors<T>,
    pub(super) rear: EndErrors<T>,
}

impl<T: Real> StayErrors<T> {
    /// Everything as it should be.
    pub(super) fn none() -> Self {
        let o = T::zero();
        let end = EndErrors { along: o, across: o, tilt: o, turn: o, cutter: o, member: o };
        Self {
            slide: o,
            axle_height: o,
            front_post: o,
            rear_post: o,
            spacer: o,
            datum: o,
            datum_height: o,
            clamp_height: o,
            block_width: o,
            edge_finder: o,
            front_diameter: o,
            rear_diameter: o,
            front_trim: o,
            roll: o,
            bends: [o; MOST_BENDS],
            placing: o,
            front: end,
            rear: end,
        }
    }

    /// The errors of one stay, from those of all settings.
    pub(super) fn gathered(places: &[Place], errors: &[T], pair: PairName, hand: Hand) -> Self {
        let mut gathered = Self::none();
        for (place, error) in places.iter().zip(errors).filter(|(place, _)| place.reaches(pair, hand)) {
            if let Some(at) = gathered.at(place) {
                *at += *error;
            }
        }
        gathered
    }

    fn at(&mut self, place: &Place) -> Option<&mut T> {
        let end = if place.at_front == Some(false) { &mut self.rear } else { &mut self.front };
        Some(match place.kind {
            SettingKind::Slide => &mut self.slide,
            SettingKind::AxleHeight => &mut self.axle_height,
            SettingKind::FrontPost => &mut self.front_post,
            SettingKind::RearPost => &mut self.rear_post,
            SettingKind::Spacer => &mut self.spacer,
            SettingKind::Datum => &mut self.datum,
            SettingKind::DatumHeight => &mut self.datum_height,
            SettingKind::ClampHeight => &mut self.clamp_height,
            SettingKind::BlockWidth => &mut self.block_width,
            SettingKind::EdgeFinder => &mut self.edge_finder,
            SettingKind::Along => &mut end.along,
            SettingKind::Across => &mut end.across,
            SettingKind::Tilt => &mut end.tilt,
            SettingKind::Turn => &mut end.turn,
            SettingKind::Cutter => &mut end.cutter,
            SettingKind::Member => &mut end.member,
            SettingKind::FrontDiameter => &mut self.front_diameter,
            SettingKind::RearDiameter => &mut self.rear_diameter,
            SettingKind::FrontTrim => &mut self.front_trim,
            SettingKind::Roll => &mut self.roll,
            SettingKind::Bend(number) => self.bends.get_mut(usize::from(number).checked_sub(1)?)?,
            SettingKind::Placing => &mut self.placing,
        })
    }
}
