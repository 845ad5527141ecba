//! What can hurt, in words. The machine's manual, local rules and licensed practice come first.

use crate::procedure::Caution;

/// The sentences of a caution.
pub const fn caution(caution: Caution) -> &'static str {
    match caution {
        Caution::SlippingTube => {
            "A tube that slips turns with the cutter. Use blocks that fit the tube, clamp firmly, and pull at \
             each stay by hand before the spindle turns."
        }
        Caution::TurningCutter => {
            "Eye protection on, guards in place. No gloves, loose sleeves, rags or long hair near a \
             turning cutter. The machine's manual and your local rules come first; run it only if you are trained for it."
        }
        Caution::CutterChange => {
            "Spindle off and locked while a cutter is changed or cleared. Teeth cut hands even when they stand still."
        }
        Caution::BreakingSaw => {
            "A slitting saw that is fed too fast, runs out of true or is pinched breaks into flying pieces. Stand out of \
             its plane, feed slowly, never climb into the cut."
        }
        Caution::BurningChips => {
            "Titanium chips burn, and water or carbon dioxide will not put them out. Slow speed, sharp teeth, plenty of \
             coolant; sweep the chips up often, keep them covered and away from sparks, have a class D powder or dry \
             sand at hand."
        }
    }
}

/// Where a caution comes from.
pub const fn source(caution: Caution) -> &'static str {
    match caution {
        Caution::SlippingTube => {
            "a hole-saw maker's rules: secure the work, start square, feed slowly (read); the pull by hand is common \
             practice, no source"
        }
        Caution::TurningCutter => "workplace safety rules on rotating machinery (29 CFR 1910.212, quoted)",
        Caution::CutterChange | Caution::BreakingSaw => "common practice, no source",
        Caution::BurningChips => {
            "French accident database ARIA, no. 43330: a crate of titanium chips lit by sparks (read)"
        }
    }
}
