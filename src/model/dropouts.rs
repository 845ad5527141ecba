//! The two dropouts of a rear end, and which figures of the stays are entered although the dropouts say them.

use super::dropout::Dropout;
use super::group::{Group, Spec, below};
use super::pair_name::PairName;
use super::side::Hand;

/// The figures of a stay that follow from its dropout unless they are entered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Derived {
    /// Distance of the stay's axis from the centre plane.
    HalfSpacing,
    /// Of the rear reference point, over the line from front datum to axle.
    Rise,
    /// How far the rear reference point lies short of the axle.
    Reach,
    /// Thickness of the plate.
    Plate,
    /// Depth of the slot.
    Depth,
    /// How far the stay runs past its reference point.
    Overhang,
    /// How far the plate splays.
    PlateSplay,
    /// By how much the slot is wider than the plate.
    Clearance,
    /// Diameter of a round dropout.
    Boss,
}

impl Derived {
    /// All of them. A link counts them in this order.
    pub const ALL: [Self; 9] = [
        Self::HalfSpacing,
        Self::Rise,
        Self::Reach,
        Self::Plate,
        Self::Depth,
        Self::Overhang,
        Self::PlateSplay,
        Self::Clearance,
        Self::Boss,
    ];

    /// The path below a stay: `rear.reach_mm`.
    pub const fn key(self) -> &'static str {
        match self {
            Self::HalfSpacing => "rear.half_spacing_mm",
            Self::Rise => "rear.rise_mm",
            Self::Reach => "rear.reach_mm",
            Self::Plate => "rear.end.plate_mm",
            Self::Depth => "rear.end.depth_mm",
            Self::Overhang => "rear.end.overhang_mm",
            Self::PlateSplay => "rear.end.plate_splay_deg",
            Self::Clearance => "rear.end.clearance_mm",
            Self::Boss => "rear.end.boss_mm",
        }
    }

    /// The stay and the figure at a path of a job.
    pub fn of_path(path: &str) -> Option<(PairName, Hand, Self)> {
        let (pair, rest) = path.split_once('.')?;
        let (hand, rest) = rest.split_once('.')?;
        let pair = PairName::ALL.into_iter().find(|one| one.key() == pair)?;
        let hand = Hand::ALL.into_iter().find(|one| one.key() == hand)?;
        Some((pair, hand, Self::ALL.into_iter().find(|one| one.key() == rest)?))
    }

    const fn bit(self) -> u16 {
        1 << self as u16
    }
}

/// A set of [`Derived`] figures that are entered.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Entered(u16);

impl Entered {
    /// Whether that figure is entered.
    pub const fn has(self, figure: Derived) -> bool {
        self.0 & figure.bit() != 0
    }

    /// The set with that figure entered, or not.
    #[must_use]
    pub const fn with(self, figure: Derived, entered: bool) -> Self {
        if entered { Self(self.0 | figure.bit()) } else { Self(self.0 & !figure.bit()) }
    }

    /// The figures of both sets.
    #[must_use]
    pub const fn or(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// The set as a number, bit for bit in the order of [`Derived::ALL`].
    pub const fn bits(self) -> u16 {
        self.0
    }

    /// The set of that number; `None` where it has a bit too many.
    pub const fn of_bits(bits: u16) -> Option<Self> {
        if bits >> Derived::ALL.len() == 0 { Some(Self(bits)) } else { None }
    }
}

/// The dropouts of a rear end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dropouts<T = f64> {
    /// The drive side's.
    pub right: Dropout<T>,
    /// The other side's; `None` where it mirrors the right one.
    pub left: Option<Dropout<T>>,
    /// What is entered in the stays themselves, chainstays then seat stays, right then left.
    entered: [[Entered; 2]; 2],
}

impl<T> Dropouts<T> {
    /// Dropouts that all figures of the stays follow from.
    pub const fn new(right: Dropout<T>, left: Option<Dropout<T>>) -> Self {
        Self { right, left, entered: [[Entered(0); 2]; 2] }
    }

    /// The dropout on that side.
    pub const fn side(&self, hand: Hand) -> &Dropout<T> {
        match (hand, &self.left) {
            (Hand::Left, Some(left)) => left,
            _ => &self.right,
        }
    }

    /// What is entered in that stay itself.
    pub const fn entered(&self, pair: PairName, hand: Hand) -> Entered {
        let [[chain_right, chain_left], [seat_right, seat_left]] = self.entered;
        match (pair, hand) {
            (PairName::Chainstays, Hand::Right) => chain_right,
            (PairName::Chainstays, Hand::Left) => chain_left,
            (PairName::Seatstays, Hand::Right) => seat_right,
            (PairName::Seatstays, Hand::Left) => seat_left,
        }
    }

    /// Sets what is entered in that stay itself.
    pub const fn set_entered(&mut self, pair: PairName, hand: Hand, entered: Entered) {
        let [chainstays, seatstays] = &mut self.entered;
        let [right, left] = match pair {
            PairName::Chainstays => chainstays,
            PairName::Seatstays => seatstays,
        };
        match hand {
            Hand::Right => *right = entered,
            Hand::Left => *left = entered,
        }
    }
}

impl<T: Copy> Group<T> for Dropouts<T> {
    type Over<U: Copy> = Dropouts<U>;

    fn map<U: Copy>(&self, at: &str, f: &mut dyn FnMut(&str, &'static Spec, T) -> U) -> Dropouts<U> {
        Dropouts {
            right: self.right.map(&below(at, "right"), f),
            left: self.left.as_ref().map(|left| left.map(&below(at, "left"), f)),
            entered: self.entered,
        }
    }
}
