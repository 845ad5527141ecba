//! What still holds from the steps before: how the fixture stands, which readouts are at zero, what is mounted.

use super::task::Face;
use crate::model::Hand;
use crate::plan::EndUp;
use crate::units::{Angle, Length};

/// Two figures closer than this are one: rounding in the arithmetic.
const SAME: f64 = 1e-6;

/// How the fixture stands.
#[derive(Clone, Copy, Debug)]
pub(super) enum FixtureStand {
    /// On its side, and turned about its own normal.
    OnSide { side: Hand, swivel: Angle },
    /// Tilted, what the tilt leaves to 90° being given, and turned about its own normal.
    Tilted { end_up: EndUp, tilt: Angle, swivel: Angle },
}

impl FixtureStand {
    fn is_same(&self, other: &Self) -> bool {
        let same = |a: &Angle, b: &Angle| (a.degrees() - b.degrees()).abs() < SAME;
        match (self, other) {
            (Self::OnSide { side: a, swivel: x }, Self::OnSide { side: b, swivel: y }) => {
                a == b && same(x, y)
            }
            (
                Self::Tilted { end_up: a, tilt: x, swivel: u },
                Self::Tilted { end_up: b, tilt: y, swivel: v },
            ) => a == b && same(x, y) && same(u, v),
            _ => false,
        }
    }
}

/// What is in the spindle.
#[derive(Clone, Copy, Debug)]
pub(super) enum Mounted {
    /// A hole saw that cuts so wide.
    HoleSaw(Length),
    /// The slitting saw of that place in the shop's list, or the one that is still to be found.
    SlittingSaw(Option<usize>),
}

impl Mounted {
    fn is_same(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::HoleSaw(a), Self::HoleSaw(b)) => (*a - *b).mm().abs() < SAME,
            (Self::SlittingSaw(a), Self::SlittingSaw(b)) => a == b,
            _ => false,
        }
    }
}

/// The machine as the steps so far have left it, within one clamping of the stays.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct MachineState {
    stand: Option<FixtureStand>,
    is_edge_found: bool,
    face: Option<Face>,
    is_top_found: bool,
    mounted: Option<Mounted>,
    along: Option<Length>,
    across: Option<Length>,
    is_axle_out: bool,
}

impl MachineState {
    /// Stands the fixture so; `false` where it does already. A fixture that was moved has no datum any more.
    pub(super) fn stands(&mut self, stand: FixtureStand) -> bool {
        if self.stand.is_some_and(|known| known.is_same(&stand)) {
            return false;
        }
        let Self { mounted, is_axle_out, .. } = *self;
        *self = Self { stand: Some(stand), mounted, is_axle_out, ..Self::default() };
        true
    }

    /// Finds the datum edge and a face; `false` where both readouts still count from there. For this the spindle is empty.
    pub(super) fn finds(&mut self, face: Face) -> bool {
        if self.is_edge_found && self.face == Some(face) {
            return false;
        }
        (self.is_edge_found, self.face) = (true, Some(face));
        (self.mounted, self.along, self.across) = (None, None, None);
        self.is_top_found = false;
        true
    }

    /// Finds the block with the saw that is mounted; `false` where it still counts from there. The saw is brought over the block
    /// for it, so that the table stands elsewhere then.
    pub(super) const fn finds_top(&mut self) -> bool {
        if self.is_top_found {
            return false;
        }
        (self.along, self.across) = (None, None);
        self.is_top_found = true;
        true
    }

    /// Mounts a cutter; `false` where it is in the spindle.
    pub(super) fn mounts(&mut self, cutter: Mounted) -> bool {
        if self.mounted.is_some_and(|known| known.is_same(&cutter)) {
            return false;
        }
        self.mounted = Some(cutter);
        self.is_top_found = false;
        true
    }

    /// Takes the dummy axle out; `false` where it is out.
    pub(super) fn takes_axle_out(&mut self) -> bool {
        !std::mem::replace(&mut self.is_axle_out, true)
    }

    /// Moves along the fixture; `false` where the cutter stands there.
    pub(super) fn goes_along(&mut self, distance: Length) -> bool {
        let stays = self.along.is_some_and(|known| (known - distance).mm().abs() < SAME);
        self.along = Some(distance);
        !stays
    }

    /// Moves across the fixture; `false` where the cutter stands there within `shows`.
    pub(super) fn goes_across(&mut self, distance: Length, shows: f64) -> bool {
        if self.across.is_some_and(|known| (known - distance).mm().abs() < shows.max(SAME)) {
            return false;
        }
        self.across = Some(distance);
        true
    }

    /// The table is fed along the fixture: where it then stands is nobody's concern.
    pub(super) const fn is_fed_along(&mut self) {
        self.along = None;
    }
}
