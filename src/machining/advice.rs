//! What to mind with a metal and a set-up, with the reason.

use crate::model::Tube;
use crate::model::shop::{HoleSaw, Metal, Origin, Sure};
use crate::units::Length;

/// A piece of advice.
#[derive(Clone, Debug, PartialEq)]
pub struct Advice {
    /// What to do.
    pub words: &'static str,
    /// Why.
    pub reason: &'static str,
    /// Where it comes from.
    pub origin: Origin,
}

/// An arbor longer than this many of its own diameters counts as long. From memory.
const LONG: f64 = 4.0;

/// A wall thinner than this many of a saw's tooth pitches snags. From memory: at least two teeth in the cut.
const TEETH_IN_CUT: f64 = 2.0;

const PRACTICE: &str = "common practice, no source";

/// What to mind with a saw in a tube of a metal.
pub fn advice(metal: Metal, saw: &HoleSaw, tube: &Tube) -> Vec<Advice> {
    let mut all = vec![
        advise(
            "Take the pilot drill out.",
            "it stands about 1.6 mm before the teeth and would meet the round tube off its middle",
            Origin::new(Sure::Read, "a hole-saw maker's rules: the pilot stands 1/16 in beyond the teeth"),
        ),
        of_metal(metal),
    ];
    if saw.arbor.reach.mm() > LONG * saw.arbor.shank.mm() {
        all.push(advise(
            "Feed gently: the arbor is long. Choke it up as far as the reach allows.",
            "an arbor bends with the third power of its length; a fifth less makes it about twice as stiff",
            Origin::new(Sure::WorkedOut, "the textbook cantilever"),
        ));
    }
    if snags(saw, tube) {
        all.push(advise(
            "Thin wall: let the saw find its way, with hardly any feed where it comes in and out.",
            "with fewer than two teeth in the wall each tooth hooks the edge; finer teeth would be better",
            Origin::new(Sure::Remembered, PRACTICE),
        ));
    }
    all
}

fn of_metal(metal: Metal) -> Advice {
    match metal {
        Metal::CastIron => advise(
            "Cut it dry.",
            "cast iron makes its own graphite dust; oil turns that to paste",
            Origin::new(Sure::Read, "a hole-saw maker's rules"),
        ),
        Metal::Titanium => advise(
            "Run slowly, keep the feed up, flood it with coolant.",
            "titanium carries heat away badly and hardens where teeth rub; hot chips burn",
            Origin::new(Sure::Quoted, "a trade journal on cutting titanium"),
        ),
        Metal::Stainless => advise(
            "Never let the teeth rub: keep the feed up, with cutting oil.",
            "stainless steel hardens where teeth rub without cutting",
            Origin::new(Sure::Remembered, PRACTICE),
        ),
        _ => advise(
            "Use cutting oil.",
            "it carries the chips out of the kerf and keeps the teeth",
            Origin::new(Sure::Read, "a hole-saw maker's rules"),
        ),
    }
}

const fn advise(words: &'static str, reason: &'static str, origin: Origin) -> Advice {
    Advice { words, reason, origin }
}

/// Whether the wall is so thin that fewer than two teeth stand in it.
fn snags(saw: &HoleSaw, tube: &Tube) -> bool {
    let pitch = std::f64::consts::PI * saw.diameter().mm() / saw.size.teeth.number().max(1.0);
    tube.wall < Length::from_mm(TEETH_IN_CUT * pitch)
}
