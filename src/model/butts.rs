//! A butted tube's wall.

use super::group::{Group, Spec, below, group};
use super::inline_vec::InlineVec;
use crate::units::Length;

group! {
    /// A place where the wall's taper begins or ends.
    Butt {
        /// Station from the raw tube's front end.
        at: Length = "at_mm", "butt station", 80.0, 0.0..=1200.0;
        /// Wall there.
        wall: Length = "wall_mm", "wall", 0.8, 0.1..=20.0;
    }
}

/// As many places as a wall may have.
pub(crate) const MOST_BUTTS: usize = 8;

/// The wall by station: straight between the places, level before the first and after the last. Empty for a plain wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Butts<T = f64> {
    /// The places, in rising order of station.
    pub list: InlineVec<Butt<T>, MOST_BUTTS>,
}

impl Default for Butts {
    fn default() -> Self {
        Self { list: InlineVec::default() }
    }
}

impl<T: Copy> Group<T> for Butts<T> {
    type Over<U: Copy> = Butts<U>;

    fn map<U: Copy>(&self, at: &str, f: &mut dyn FnMut(&str, &'static Spec, T) -> U) -> Butts<U> {
        Butts { list: self.list.map(&below(at, "butts"), f) }
    }
}
