//! A cut on the machine, in words: what to mind, and the names of what turns and what stands.

use super::Style;
use crate::machining::{Advice, PILOT, Standing, Turning};
use crate::model::shop::{Metal, Origin, Sure};

const PRACTICE: &str = "common practice, no source";
const SAW_RULES: &str = "a hole-saw maker's rules";

/// A piece of advice: what to do, as a sentence with its full stop.
pub const fn advice(advice: Advice) -> &'static str {
    match advice {
        Advice::PilotOut => "Take the pilot drill out.",
        Advice::OfMetal(Metal::CastIron) => "Cut it dry.",
        Advice::OfMetal(Metal::Titanium) => "Run slowly, keep the feed up, flood it with coolant.",
        Advice::OfMetal(Metal::Stainless) => "Never let the teeth rub: keep the feed up, with cutting oil.",
        Advice::OfMetal(_) => "Use cutting oil.",
        Advice::LongArbor => "Feed gently: the arbor is long. Choke it up as far as the reach allows.",
        Advice::ThinWall => {
            "Thin wall: let the saw find its way, with hardly any feed where it comes in and out."
        }
    }
}

/// Why: it begins small and has no full stop.
pub fn advice_reason(advice: Advice, style: Style) -> String {
    let plain = match advice {
        Advice::PilotOut => {
            let stands = style.length(PILOT);
            return format!(
                "it stands about {stands} before the teeth and would meet the round tube off its middle"
            );
        }
        Advice::OfMetal(Metal::CastIron) => "cast iron makes its own graphite dust; oil turns that to paste",
        Advice::OfMetal(Metal::Titanium) => {
            "titanium carries heat away badly and hardens where teeth rub; hot chips burn"
        }
        Advice::OfMetal(Metal::Stainless) => "stainless steel hardens where teeth rub without cutting",
        Advice::OfMetal(_) => "it carries the chips out of the kerf and keeps the teeth",
        Advice::LongArbor => {
            "an arbor bends with the third power of its length; a fifth less makes it about twice as stiff"
        }
        Advice::ThinWall => {
            "with fewer than two teeth in the wall each tooth hooks the edge; finer teeth would be better"
        }
    };
    plain.to_owned()
}

/// Where a piece of advice comes from and how sure it is.
pub fn advice_origin(advice: Advice) -> Origin {
    let (sure, source) = match advice {
        Advice::OfMetal(Metal::Titanium) => (Sure::Quoted, "a trade journal on cutting titanium"),
        Advice::OfMetal(Metal::Stainless) | Advice::ThinWall => (Sure::Remembered, PRACTICE),
        Advice::PilotOut | Advice::OfMetal(_) => (Sure::Read, SAW_RULES),
        Advice::LongArbor => (Sure::WorkedOut, "the textbook cantilever"),
    };
    Origin::new(sure, source)
}

/// What the trade calls a part of what turns.
pub const fn turning_name(part: Turning) -> &'static str {
    match part {
        Turning::Saw => "saw",
        Turning::Collar => "saw's collar",
        Turning::Neck => "arbor's neck",
        Turning::Shank => "arbor",
        Turning::Holder => "holder",
        Turning::Nose => "spindle nose",
    }
}

/// What the trade calls something that stands about the work.
pub fn standing_name(body: Standing) -> String {
    match body {
        Standing::Post(count, hand) => format!("post {count}, {}", hand.key()),
        Standing::Bed => "bed".to_owned(),
        Standing::Block => "mounting block".to_owned(),
        Standing::Axle => "dummy axle".to_owned(),
        Standing::Stay(hand) => format!("{} stay", hand.key()),
    }
}
