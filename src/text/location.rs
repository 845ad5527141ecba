//! Where a finding belongs, in words.

use crate::model::{Location, PairName, Stays};

/// `right chainstay, front end`; `chainstays`; for the job as a whole `this job`.
pub fn location(location: Location) -> String {
    let stay = |pair: PairName, stays: Stays| match stays {
        Stays::One(hand) => format!("{} {}", hand.key(), pair.one()),
        Stays::Both => format!("both {}", pair.name()),
    };
    match location {
        Location::Whole => "this job".to_owned(),
        Location::Pair(pair) => pair.name().to_owned(),
        Location::Stay(pair, stays) => stay(pair, stays),
        Location::End(pair, stays, at_front) => {
            format!("{}, {} end", stay(pair, stays), if at_front { "front" } else { "rear" })
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::Hand;

    #[test]
    fn locations_read_as_the_trade_says_them() {
        let end = Location::End(PairName::Seatstays, Stays::One(Hand::Left), false);
        assert_eq!(location(end), "left seat stay, rear end");
        assert_eq!(location(end.of(Stays::Both)), "both seat stays, rear end");
        assert_eq!(location(Location::Stay(PairName::Chainstays, Stays::Both)), "both chainstays");
        assert_eq!(location(Location::Pair(PairName::Chainstays)), "chainstays");
    }
}
