//! The round members that stays are coped onto.

use super::axes::Axes;
use super::problem::Mate;
use super::stay_geometry::StayGeometry;
use crate::geometry::{Cylinder, Line};
use crate::model::{End, Frame, Member};
use crate::units::{Length, Real};
use nalgebra::Vector3;

/// A round member, as one end of one stay meets it.
pub(crate) struct Round<T: Real> {
    /// What it is.
    pub(crate) mate: Mate,
    /// Its own surface.
    pub(crate) surface: Cylinder<T>,
    /// The surface that is cut.
    pub(crate) cut: Cylinder<T>,
    /// From its axis' point to either end; `None` where its ends are not known.
    pub(crate) half_length: Option<T>,
    /// Where an offset from it counts as positive.
    pub(crate) positive: Vector3<T>,
}

impl<T: Real> Round<T> {
    /// What a round end is cut to; `None` for an end that is not round.
    pub(crate) fn of(end: &End<T>, frame: &Frame<T>, axes: &Axes<T>, stay: &StayGeometry<T>) -> Option<Self> {
        let (mate, axis, diameter, cutter) = match end {
            End::Cope(cope) => {
                let (mate, axis, diameter) = match cope.onto {
                    Member::Shell => (Mate::Shell, axes.shell, frame.shell_od),
                    Member::SeatTube => (Mate::SeatTube, axes.seat_tube, frame.seat_tube_od),
                };
                (mate, axis, diameter, cope.cutter)
            }
            End::Boss(boss) => {
                let axis = Line { point: stay.rear_middle, direction: Vector3::y() };
                (Mate::RoundDropout, axis, boss.diameter, None)
            }
            End::Slot(_) | End::Square => return None,
        };
        let cylinder = |diameter: Length<T>| Cylinder { axis, radius: diameter.mm() * T::of(0.5) };
        let upright = matches!(end, End::Cope(cope) if cope.onto == Member::SeatTube);
        let positive = if upright { Vector3::y() * T::of(stay.hand.sign()) } else { stay.clamp.w };
        let half_length = (mate == Mate::Shell).then(|| frame.shell_width.mm() * T::of(0.5));
        let cut = cylinder(cutter.unwrap_or(diameter));
        Some(Self { mate, surface: cylinder(diameter), cut, half_length, positive })
    }

    /// Whether the saw is the member's own size.
    pub(crate) fn is_true_size(&self) -> bool {
        self.surface.radius.value() == self.cut.radius.value()
    }
}
