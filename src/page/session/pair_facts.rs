//! The figures of a pair that answer while its stays are changed.

use staywright::model::Hand;
use staywright::plan::Pair;
use staywright::procedure::{Named, Reading};

/// What each side is, then what the pair has in common.
pub fn pair_facts(pair: &Pair) -> Vec<Named> {
    let mut facts = Vec::new();
    for hand in Hand::ALL {
        let stay = pair.stay(hand);
        let mut add =
            |name: &str, reading| facts.push(Named::new(format!("{name}, {}", hand.key()), reading));
        add("Splay", Reading::Angle(stay.splay));
        add("Length", Reading::Length(stay.length));
        add("Tip to tip", stay.tip_to_tip.map_or(Reading::Word("—"), Reading::Length));
    }
    facts.push(Named::new("Slide", Reading::Length(pair.slide)));
    facts.push(Named::new("Axle above the stay plane", Reading::Length(pair.axle_height)));
    facts.push(Named::new("Room between the tubes", Reading::Length(pair.room_between)));
    facts
}
