//! What can hurt, with where it was read. The machine's manual, local rules and licensed practice come first.

use crate::model::shop::Metal;

/// A caution and its source.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Caution {
    /// The sentence.
    pub words: &'static str,
    /// Where it comes from.
    pub source: &'static str,
}

pub(super) const CLAMP: Caution = Caution {
    words: "A tube that slips turns with the cutter. Use blocks that fit the tube, clamp firmly, and pull at \
            each stay by hand before the spindle turns.",
    source: "a hole-saw maker's rules: secure the work, start square, feed slowly (read); the pull by hand is common \
             practice, no source",
};

pub(super) const TURNING: Caution = Caution {
    words: "Eye protection on, guards in place. No gloves, loose sleeves, rags or long hair near a \
            turning cutter. The machine's manual and your local rules come first; run it only if you are trained for it.",
    source: "workplace safety rules on rotating machinery (29 CFR 1910.212, quoted)",
};

pub(super) const CHANGE: Caution = Caution {
    words: "Spindle off and locked while a cutter is changed. Teeth cut hands even when they stand still.",
    source: "common practice, no source",
};

pub(super) const SLITTING: Caution = Caution {
    words: "A slitting saw that is fed too fast, runs out of true or is pinched breaks into flying pieces. Stand out of \
            its plane, feed slowly, never climb into the cut.",
    source: "common practice, no source",
};

const TITANIUM: Caution = Caution {
    words: "Titanium chips burn, and water or carbon dioxide will not put them out. Slow speed, sharp teeth, plenty of \
            coolant; sweep the chips up often, keep them covered and away from sparks, have a class D powder or dry \
            sand at hand.",
    source: "French accident database ARIA, no. 43330: a crate of titanium chips lit by sparks (read)",
};

/// What a metal itself brings.
pub(super) const fn of_metal(metal: Metal) -> Option<Caution> {
    match metal {
        Metal::Titanium => Some(TITANIUM),
        _ => None,
    }
}
