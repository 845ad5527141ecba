//! Which way each readout counts as the cutter goes along and across the fixture.

use super::step::Scale;
use super::task::Motion;
use crate::model::shop::{Axis, LengthScale, LengthScaleFigures, Mill, Shown, SpindleWay};
use crate::units::Length;

/// A way of the fixture as the mill knows it: an axis, and +1 or −1 of the cutter's motion over the work.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Way {
    pub(super) axis: Axis,
    pub(super) sign: f64,
}

impl Way {
    pub(super) const fn scale(self) -> Scale {
        Scale::Dro(self.axis)
    }

    /// The same line, the other way.
    pub(super) const fn turned(self, sign: f64) -> Self {
        Self { sign: self.sign * sign, ..self }
    }
}

/// The mill as the steps speak of it.
#[derive(Clone, Copy)]
pub(super) struct Machine<'a> {
    pub(super) mill: &'a Mill,
}

impl Machine<'_> {
    /// Rearwards along the fixture.
    pub(super) const fn along(self) -> Way {
        Way { axis: self.mill.lies_along, sign: self.mill.rear_toward.sign() }
    }

    /// From the touched side towards the cutter. A fixture that is tilted has its drive side where Z × rearwards points;
    /// its base face stays away from the spindle. On its side it is the `w` direction, which is Z × rearwards where the
    /// left side faces the spindle and the opposite where the right does.
    pub(super) fn across(self, on_side: bool) -> Way {
        let along = self.along();
        let turn = if self.mill.lies_along == Axis::Y { -1.0 } else { 1.0 };
        let side = if on_side { -self.mill.side_to_spindle.sign() } else { 1.0 };
        Way { axis: self.mill.lies_across(), sign: along.sign * turn * side * self.handed() }
    }

    /// Out of the work.
    pub(super) const fn out() -> Way {
        Way { axis: Axis::Z, sign: 1.0 }
    }

    /// Z × X is +Y where the spindle stands upright and Y points away; where it lies, Y points up and Z × X down.
    const fn handed(self) -> f64 {
        match self.mill.spindle {
            SpindleWay::Vertical => 1.0,
            SpindleWay::Horizontal => -1.0,
        }
    }

    /// What a readout that was set to zero shows after the cutter has gone `distance` in that way.
    pub(super) fn shows(self, way: Way, distance: Length) -> Shown<Length> {
        let (readout, sense) = self.mill.readout(way.axis);
        let figures = LengthScaleFigures { division: readout.division, zero: Length::default() };
        LengthScale { figures, sense: sense.turned(way.sign) }.shows(distance)
    }

    /// How the cutter is seen to go.
    pub(super) const fn motion(self, way: Way) -> Motion {
        let plus = way.sign > 0.0;
        match (way.axis, self.mill.spindle) {
            (Axis::X, _) if plus => Motion::Right,
            (Axis::X, _) => Motion::Left,
            (Axis::Y, SpindleWay::Vertical) if plus => Motion::Away,
            (Axis::Y, SpindleWay::Vertical) => Motion::Near,
            (Axis::Y, SpindleWay::Horizontal) if plus => Motion::Up,
            (Axis::Y, SpindleWay::Horizontal) => Motion::Down,
            (Axis::Z, _) if plus => Motion::OutOfWork,
            (Axis::Z, _) => Motion::IntoWork,
        }
    }

    /// How the cutter is seen to go `distance`, `way` being the positive one.
    pub(super) const fn seen(self, way: Way, distance: Length) -> Motion {
        self.motion(way.turned(if distance.mm() < 0.0 { -1.0 } else { 1.0 }))
    }
}
