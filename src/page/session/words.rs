//! Words for people.

/// The words with a capital letter. The page's words are written in plain letters, so no table of all the world's is
/// needed, which would be a tenth of the download.
pub fn capital(words: &str) -> String {
    let mut words = words.to_owned();
    if let Some(first) = words.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    words
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
}
