//! A job as a file, and the part of a pasted link that holds a job.

/// A file name made of the job's name.
pub fn name(job_name: &str) -> String {
    let kept: String =
        job_name.chars().map(|c| if c.is_ascii_alphanumeric() || !c.is_ascii() { c } else { ' ' }).collect();
    let words: Vec<&str> = kept.split_whitespace().collect();
    let stem = if words.is_empty() { "job".to_owned() } else { words.join("-").to_ascii_lowercase() };
    format!("{stem}.staywright.json")
}

/// What follows the last `#` of a link, or the whole text where there is none.
pub fn fragment_of(link: &str) -> &str {
    let link = link.trim();
    link.rsplit_once('#').map_or(link, |(_, fragment)| fragment)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn file_names_keep_to_letters_and_figures() {
        assert_eq!(name("Heron Mill: all-road / 2"), "heron-mill-all-road-2.staywright.json");
        assert_eq!(name(" / "), "job.staywright.json");
        assert_eq!(name("Blåhøj 2"), "blåhøj-2.staywright.json");
    }

    #[test]
    fn a_link_is_read_from_its_fragment() {
        assert_eq!(fragment_of(" https://example.org/page#1abc "), "1abc");
        assert_eq!(fragment_of("1abc"), "1abc");
    }
}
