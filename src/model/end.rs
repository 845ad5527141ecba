//! What the end of a stay is cut to.

use super::group::{Group, Spec, below, group};
use crate::units::{Angle, Bounds, Kind, Length, Quantity, Real};

/// A round member of the frame that a front end can be coped onto.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Member {
    /// The bottom-bracket shell.
    Shell,
    /// The seat tube.
    SeatTube,
}

impl Member {
    /// Both members.
    pub const ALL: [Self; 2] = [Self::Shell, Self::SeatTube];

    /// The word in a job file.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Shell => "shell",
            Self::SeatTube => "seat_tube",
        }
    }

    /// The trade's word.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Shell => "shell",
            Self::SeatTube => "seat tube",
        }
    }
}

/// A cope onto a round member of the frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cope<T = f64> {
    /// The member.
    pub onto: Member,
    /// The saw's true cutting diameter, where it is not the member's.
    pub cutter: Option<Length<T>>,
}

group! {
    /// A cope onto a round dropout.
    Boss {
        /// Diameter of the dropout's round part.
        diameter: Length = "boss_mm", "boss diameter", 24.0, 4.0..=100.0;
    }
}

group! {
    /// A slot for a dropout plate.
    Slot {
        /// Thickness of the plate.
        plate: Length = "plate_mm", "plate thickness", 5.0, 0.3..=30.0;
        /// Depth along the stay from its end.
        depth: Length = "depth_mm", "slot depth", 16.0, 0.0..=120.0;
        /// How far the stay runs past the rear reference point.
        overhang: Length = "overhang_mm", "overhang", 4.0, -60.0..=100.0;
        /// How far the plate runs outwards to the rear from the centre plane.
        plate_splay: Angle = "plate_splay_deg", "plate splay", 0.0, -30.0..=30.0;
        /// By how much the slot is wider than the plate, both faces together. A job that does not say so has none.
        clearance: Length = "clearance_mm", "slot clearance", 0.0, 0.0..=2.0;
    }
}

/// Clearance that a new slot starts with, mm. Common practice, no source: the way of joining decides.
const SLOT_CLEARANCE: f64 = 0.1;

impl Slot {
    /// What a new slot starts with.
    pub fn start() -> Self {
        Self { clearance: Length::from_mm(SLOT_CLEARANCE), ..Self::default() }
    }
}

impl<T: Real> Slot<T> {
    /// From one face of the slot to the other.
    pub fn width(&self) -> Length<T> {
        self.plate + self.clearance
    }
}

/// What one end of a stay is cut to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum End<T = f64> {
    /// Coped onto the shell or the seat tube.
    Cope(Cope<T>),
    /// Coped onto a round dropout.
    Boss(Boss<T>),
    /// Slotted for a plate.
    Slot(Slot<T>),
    /// Cut square at the reference point.
    Square,
}

/// The kinds of end, without their figures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EndKind {
    /// See [`End::Cope`].
    Cope,
    /// See [`End::Boss`].
    Boss,
    /// See [`End::Slot`].
    Slot,
    /// See [`End::Square`].
    Square,
}

impl EndKind {
    /// All kinds, in the order the page offers them.
    pub const ALL: [Self; 4] = [Self::Cope, Self::Boss, Self::Slot, Self::Square];

    /// The word in a job file.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Cope => "cope",
            Self::Boss => "boss",
            Self::Slot => "slot",
            Self::Square => "square",
        }
    }

    /// Whether this kind makes sense at the front end (`true`) or the rear end (`false`) of a stay.
    pub const fn fits(self, at_front: bool) -> bool {
        match self {
            Self::Cope => at_front,
            Self::Boss | Self::Slot => !at_front,
            Self::Square => true,
        }
    }

    /// A new end of this kind, as a person starts with it.
    pub fn start(self, onto: Member) -> End {
        match self {
            Self::Slot => End::Slot(Slot::start()),
            _ => self.plain(onto),
        }
    }

    /// An end of this kind of which a job says no more.
    pub fn plain(self, onto: Member) -> End {
        match self {
            Self::Cope => End::Cope(Cope { onto, cutter: None }),
            Self::Boss => End::Boss(Boss::default()),
            Self::Slot => End::Slot(Slot::default()),
            Self::Square => End::Square,
        }
    }
}

impl<T> End<T> {
    /// The kind of this end.
    pub const fn kind(&self) -> EndKind {
        match self {
            Self::Cope(_) => EndKind::Cope,
            Self::Boss(_) => EndKind::Boss,
            Self::Slot(_) => EndKind::Slot,
            Self::Square => EndKind::Square,
        }
    }
}

/// What is known of a cope's optional cutter diameter.
pub(crate) static CUTTER: Spec = Spec {
    key: "cutter_mm",
    name: "cutter diameter",
    meaning: "Diameter of the saw, measured over its teeth.",
    kind: Kind::Length,
    bounds: Bounds::new(4.0, 200.0),
};

impl<T: Copy> Group<T> for End<T> {
    type Over<U: Copy> = End<U>;

    fn map<U: Copy>(&self, at: &str, f: &mut dyn FnMut(&str, &'static Spec, T) -> U) -> End<U> {
        match self {
            Self::Cope(Cope { onto, cutter }) => End::Cope(Cope {
                onto: *onto,
                cutter: cutter
                    .map(|c| Length::from_recorded(f(&below(at, CUTTER.key), &CUTTER, c.recorded()))),
            }),
            Self::Boss(boss) => End::Boss(boss.map(at, f)),
            Self::Slot(slot) => End::Slot(slot.map(at, f)),
            Self::Square => End::Square,
        }
    }
}
