//! The trade's words as sentences take them.

use super::{Hand, PairName};

/// The words with a capital letter. They are written in plain letters, so no table of all the world's is needed, which
/// would be a tenth of the page's download.
pub fn capital(words: &str) -> String {
    let mut words = words.to_owned();
    if let Some(first) = words.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    words
}

/// Stands in a path for the right and the left hand together.
pub const BOTH_HANDS: &str = "both";

/// A path of the plan or the job in the trade's words, as far as it names a pair, a side and an end.
pub fn place_name(path: &str) -> String {
    let mut parts = path.split('.');
    let Some(pair) = parts.next().and_then(|key| PairName::ALL.into_iter().find(|pair| pair.key() == key))
    else {
        return path.split('.').next().unwrap_or_default().to_owned();
    };
    let stay = match parts.next() {
        Some(BOTH_HANDS) => format!("{BOTH_HANDS} {}", pair.name()),
        Some(hand) if Hand::ALL.iter().any(|one| one.key() == hand) => format!("{hand} {}", pair.one()),
        _ => return pair.name().to_owned(),
    };
    match parts.next() {
        Some(end @ ("front" | "rear")) => format!("{stay}, {end} end"),
        _ => stay,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_letter_becomes_a_capital() {
        assert_eq!(capital("seat tube"), "Seat tube");
        assert_eq!(capital("°"), "°");
        assert_eq!(capital(""), "");
    }

    #[test]
    fn paths_read_as_the_trade_says_them() {
        assert_eq!(place_name("seatstays.left.rear.end.plate_mm"), "left seat stay, rear end");
        assert_eq!(place_name("chainstays"), "chainstays");
        assert_eq!(place_name("chainstays.right.tube"), "right chainstay");
        assert_eq!(place_name("chainstays.both"), "both chainstays");
        assert_eq!(place_name("seatstays.both.front"), "both seat stays, front end");
        assert_eq!(place_name("fixture.slide_min_mm"), "fixture");
    }
}
