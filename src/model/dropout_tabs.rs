//! The tabs of a dropout: what each stay of its side is joined to.

use super::group::{Group, Spec, below, group};
use crate::units::{Angle, Bounds, Kind, Length, Quantity};

group! {
    /// A plate's tab, which goes into a slot of the stay.
    PlateTab {
        /// From the axle along the tab to the stay's rear reference point.
        distance: Length = "distance_mm", "axle to stay end", 32.0, -100.0..=200.0;
        /// How far the tab's middle line passes above the axle.
        off_axle: Length = "off_axle_mm", "tab above the axle", 0.0, -50.0..=50.0;
        /// How far the stay's axis lies outboard of the plate's middle.
        stay_offset: Length = "stay_offset_mm", "stay outboard of the dropout's middle", 0.0, -50.0..=50.0;
        /// Depth of the slot along the stay from its end.
        depth: Length = "depth_mm", "slot depth", 16.0, 0.0..=120.0;
        /// How far the stay runs past its rear reference point.
        overhang: Length = "overhang_mm", "overhang", 4.0, -60.0..=100.0;
        /// By how much the slot is wider than the plate, both faces together; the way of joining decides. Common practice, no source.
        clearance: Length = "clearance_mm", "slot clearance", 0.1, 0.0..=2.0;
        /// How far the plate runs outwards to the rear from the centre plane.
        plate_splay: Angle = "plate_splay_deg", "plate splay", 0.0, -30.0..=30.0;
    }
}

group! {
    /// The figures that every plug has.
    Plug {
        /// From the axle along the tab to the shoulder, the stay's rear reference point.
        distance: Length = "distance_mm", "axle to stay end", 32.0, -100.0..=200.0;
        /// How far the tab's middle line passes above the axle.
        off_axle: Length = "off_axle_mm", "tab above the axle", 0.0, -50.0..=50.0;
        /// Outer diameter of the plug.
        od: Length = "plug_od_mm", "plug diameter", 14.0, 2.0..=100.0;
        /// How far the stay's axis lies outboard of the part's middle.
        stay_offset: Length = "stay_offset_mm", "stay outboard of the dropout's middle", 0.0, -50.0..=50.0;
    }
}

/// What is known of the optional splay of a plug.
pub(crate) static PLUG_SPLAY: Spec = Spec {
    key: "splay_deg",
    name: "plug splay",
    meaning: "How far the plug points outwards to the rear.",
    kind: Kind::Angle,
    bounds: Bounds::new(-30.0, 30.0),
};

/// A plug, which goes into the bore of the stay up to a shoulder.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Socket<T = f64> {
    /// Its figures.
    pub figures: Plug<T>,
    /// How far it runs outwards to the rear from the centre plane; `None` where it runs as its stay does.
    pub splay: Option<Angle<T>>,
}

impl Default for Socket {
    fn default() -> Self {
        Self { figures: Plug::default(), splay: None }
    }
}

impl<T: Copy> Group<T> for Socket<T> {
    type Over<U: Copy> = Socket<U>;

    fn map<U: Copy>(&self, at: &str, f: &mut dyn FnMut(&str, &'static Spec, T) -> U) -> Socket<U> {
        let splay = |splay: Angle<T>, f: &mut dyn FnMut(&str, &'static Spec, T) -> U| {
            Angle::from_recorded(f(&below(at, PLUG_SPLAY.key), &PLUG_SPLAY, splay.recorded()))
        };
        Socket { figures: self.figures.map(at, f), splay: self.splay.map(|angle| splay(angle, f)) }
    }
}
