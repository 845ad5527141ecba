//! Dropouts: the parts that join the stays to the axle, as their drawings give them.

use super::dropout_tabs::{PlateTab, Socket};
use super::end::EndKind;
use super::group::{Group, Spec, below, group};
use super::pair_name::PairName;
use crate::units::{Angle, Bounds, Kind, Length, Quantity, Real};

group! {
    /// What plates and sockets have in common.
    DropoutBody {
        /// Thickness across the bicycle, where the stays are joined to it.
        thickness: Length = "thickness_mm", "dropout thickness", 5.0, 0.3..=30.0;
        /// How deep the hub's face stands in the part's inner face.
        recess: Length = "recess_mm", "recess for the hub", 0.0, 0.0..=20.0;
        /// How far the chainstay's tab points above the line from the axle to the shell's middle.
        turn: Angle = "turn_deg", "turn of the dropout", 0.0, -180.0..=180.0;
    }
}

group! {
    /// A round dropout: a cylinder parallel to the axle that both stays of its side are mitered to.
    RoundDropout {
        /// Its outer diameter.
        od: Length = "od_mm", "round dropout diameter", 24.0, 4.0..=100.0;
        /// Its width across the bicycle.
        width: Length = "width_mm", "round dropout width", 20.0, 1.0..=60.0;
        /// How deep the hub's face stands in its inner face.
        recess: Length = "recess_mm", "recess for the hub", 0.0, 0.0..=20.0;
        /// From the axle to its own axis.
        distance: Length = "distance_mm", "axle to round dropout", 0.0, -100.0..=200.0;
        /// How far that way points above the line from the axle to the shell's middle.
        turn: Angle = "turn_deg", "turn of the dropout", 0.0, -180.0..=180.0;
        /// How far the stays' axes lie outboard of its middle.
        stay_offset: Length = "stay_offset_mm", "stay outboard of the dropout's middle", 0.0, -50.0..=50.0;
    }
}

/// What is known of the optional angle between the two tabs.
pub(crate) static TABS: Spec = Spec {
    key: "tabs_deg",
    name: "angle between the tabs",
    meaning: "From the chainstay tab to the seat-stay tab, upwards.",
    kind: Kind::Angle,
    bounds: Bounds::new(0.0, 180.0),
};

/// A part with a tab for each stay of its side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tabbed<B, A, S> {
    /// Its thickness, recess and turn.
    pub body: B,
    /// From the chainstay's tab up to the seat stay's; `None` where the seat stay's tab points at the front datum of the seat stays.
    pub tabs: Option<A>,
    /// The chainstay's tab.
    pub chainstay: S,
    /// The seat stay's tab.
    pub seatstay: S,
}

/// A part with tabs that are all of number type `T`.
type TabbedOver<T, S> = Tabbed<DropoutBody<T>, Angle<T>, S>;

/// A plate: the stays are slotted for it.
pub type PlateDropout<T = f64> = TabbedOver<T, PlateTab<T>>;

/// A part with plugs: the stays are cut square and slid over them.
pub type SocketDropout<T = f64> = TabbedOver<T, Socket<T>>;

fn map_tabbed<T: Copy, U: Copy, S: Group<T>>(
    part: &TabbedOver<T, S>,
    at: &str,
    f: &mut dyn FnMut(&str, &'static Spec, T) -> U,
) -> TabbedOver<U, S::Over<U>> {
    Tabbed {
        body: part.body.map(at, f),
        tabs: part.tabs.map(|tabs| Angle::from_recorded(f(&below(at, TABS.key), &TABS, tabs.recorded()))),
        chainstay: part.chainstay.map(&below(at, "chainstay"), f),
        seatstay: part.seatstay.map(&below(at, "seatstay"), f),
    }
}

impl<B, A, S> Tabbed<B, A, S> {
    /// The tab of that pair's stay.
    pub const fn tab(&self, pair: PairName) -> &S {
        match pair {
            PairName::Chainstays => &self.chainstay,
            PairName::Seatstays => &self.seatstay,
        }
    }
}

/// One dropout.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Dropout<T = f64> {
    /// See [`PlateDropout`].
    Plate(PlateDropout<T>),
    /// See [`RoundDropout`].
    Round(RoundDropout<T>),
    /// See [`SocketDropout`].
    Socket(SocketDropout<T>),
}

/// The kinds of dropout, without their figures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DropoutKind {
    /// See [`Dropout::Plate`].
    Plate,
    /// See [`Dropout::Round`].
    Round,
    /// See [`Dropout::Socket`].
    Socket,
}

impl DropoutKind {
    /// All kinds, in the order the page offers them.
    pub const ALL: [Self; 3] = [Self::Plate, Self::Round, Self::Socket];

    /// The word in a job file.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Plate => "plate",
            Self::Round => "round",
            Self::Socket => "socket",
        }
    }

    /// How the rear end of a stay is cut for it.
    pub const fn end_kind(self) -> EndKind {
        match self {
            Self::Plate => EndKind::Slot,
            Self::Round => EndKind::Boss,
            Self::Socket => EndKind::Square,
        }
    }

    /// A part of this kind whose figures are all to be entered.
    pub fn plain(self) -> Dropout {
        let (body, tabs) = (DropoutBody::default(), None);
        match self {
            Self::Plate => {
                let tab = PlateTab::default();
                Dropout::Plate(Tabbed { body, tabs, chainstay: tab, seatstay: tab })
            }
            Self::Round => Dropout::Round(RoundDropout::default()),
            Self::Socket => {
                let tab = Socket::default();
                Dropout::Socket(Tabbed { body, tabs, chainstay: tab, seatstay: tab })
            }
        }
    }
}

/// Where a stay's reference point lies on its dropout.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TabPoint<T> {
    /// From the axle along the tab.
    pub distance: Length<T>,
    /// How far the tab's middle line passes above the axle.
    pub off_axle: Length<T>,
    /// How far the stay's axis lies outboard of the part's middle.
    pub stay_offset: Length<T>,
}

impl<T: Copy> Dropout<T> {
    /// The kind of this part.
    pub const fn kind(&self) -> DropoutKind {
        match self {
            Self::Plate(_) => DropoutKind::Plate,
            Self::Round(_) => DropoutKind::Round,
            Self::Socket(_) => DropoutKind::Socket,
        }
    }

    /// Its thickness or width across the bicycle.
    pub const fn width(&self) -> Length<T> {
        match self {
            Self::Plate(part) => part.body.thickness,
            Self::Round(part) => part.width,
            Self::Socket(part) => part.body.thickness,
        }
    }

    /// How deep the hub's face stands in its inner face.
    pub const fn recess(&self) -> Length<T> {
        match self {
            Self::Plate(part) => part.body.recess,
            Self::Round(part) => part.recess,
            Self::Socket(part) => part.body.recess,
        }
    }

    /// How far its first direction points above the line from the axle to the shell's middle.
    pub const fn turn(&self) -> Angle<T> {
        match self {
            Self::Plate(part) => part.body.turn,
            Self::Round(part) => part.turn,
            Self::Socket(part) => part.body.turn,
        }
    }

    /// The angle between its tabs, where that is entered.
    pub const fn tabs(&self) -> Option<Angle<T>> {
        match self {
            Self::Plate(part) => part.tabs,
            Self::Socket(part) => part.tabs,
            Self::Round(_) => None,
        }
    }

    /// Where the stay of that pair has its reference point.
    pub fn tab(&self, pair: PairName) -> TabPoint<T>
    where
        T: Real,
    {
        let (distance, off_axle, stay_offset) = match self {
            Self::Plate(part) => {
                let tab = part.tab(pair);
                (tab.distance, tab.off_axle, tab.stay_offset)
            }
            Self::Socket(part) => {
                let tab = &part.tab(pair).figures;
                (tab.distance, tab.off_axle, tab.stay_offset)
            }
            Self::Round(part) => (part.distance, Length::from_mm(T::zero()), part.stay_offset),
        };
        TabPoint { distance, off_axle, stay_offset }
    }
}

impl<T: Copy> Group<T> for Dropout<T> {
    type Over<U: Copy> = Dropout<U>;

    fn map<U: Copy>(&self, at: &str, f: &mut dyn FnMut(&str, &'static Spec, T) -> U) -> Dropout<U> {
        match self {
            Self::Plate(part) => Dropout::Plate(map_tabbed(part, at, f)),
            Self::Round(part) => Dropout::Round(part.map(at, f)),
            Self::Socket(part) => Dropout::Socket(map_tabbed(part, at, f)),
        }
    }
}
