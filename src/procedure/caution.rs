//! What can hurt. The machine's manual, local rules and licensed practice come first.

use crate::model::shop::Metal;

/// What can hurt.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Caution {
    /// A tube that slips turns with the cutter.
    SlippingTube,
    /// A cutter that turns.
    TurningCutter,
    /// Teeth, while a cutter is changed or cleared.
    CutterChange,
    /// A slitting saw that breaks.
    BreakingSaw,
    /// Titanium chips burn.
    BurningChips,
}

impl Caution {
    /// All of them.
    pub const ALL: [Self; 5] =
        [Self::SlippingTube, Self::TurningCutter, Self::CutterChange, Self::BreakingSaw, Self::BurningChips];
}

/// What a metal itself brings.
pub(super) const fn of_metal(metal: Metal) -> Option<Caution> {
    match metal {
        Metal::Titanium => Some(Caution::BurningChips),
        _ => None,
    }
}
