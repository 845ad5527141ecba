//! Links: there and back, for ever, short, and unhurt by anything that is pasted.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    reason = "a test may fail"
)]

mod support;

use proptest::prelude::*;
use staywright::link::{LinkError, decode, encode, encode_measured, open};
use staywright::trade::{Group, Job, starters};

/// Any job that links carry: they do not know of plates that splay yet.
fn carried_job() -> impl Strategy<Value = Job> {
    support::any_job().prop_map(|job| {
        job.map("", &mut |path, _, value| if path.ends_with("plate_splay_deg") { 0.0 } else { value })
    })
}

proptest! {
    #[test]
    fn every_job_comes_back_to_the_last_bit(job in carried_job()) {
        let link = encode(&job);
        prop_assert!(link.bytes().all(|b| b.is_ascii_alphanumeric() || b == b'-' || b == b'_'));
        prop_assert_eq!(decode(&link), Ok(job));
    }

    #[test]
    fn readings_come_back_with_the_job(job in carried_job(), id in ".{0,40}", typed in ".{0,12}", count in 0usize..8) {
        let readings: Vec<(String, String)> = (0..count).map(|i| (format!("{id}{i}"), typed.clone())).collect();
        let linked = open(&encode_measured(&job, &readings));
        prop_assert_eq!(linked.map(|linked| (linked.job, linked.readings)), Ok((job, readings)));
    }

    #[test]
    fn names_and_notes_are_carried_as_they_are(name in ".{0,120}", notes in "(?s).{0,300}") {
        let job = Job { name, notes, ..Job::default() };
        prop_assert_eq!(decode(&encode(&job)), Ok(job));
    }

    #[test]
    fn any_text_is_a_job_or_an_error(text in "(?s).{0,400}") {
        let _ = decode(&text);
    }

    /// Bytes that pass the checksum but were made by nobody.
    #[test]
    fn any_sealed_bytes_are_a_job_or_an_error(format in 1u8..4, bytes in proptest::collection::vec(any::<u8>(), 0..200)) {
        let mut sealed = vec![format];
        sealed.extend(bytes);
        let check = crc::Crc::<u32>::new(&crc::CRC_32_ISO_HDLC).checksum(&sealed);
        sealed.extend(check.to_le_bytes());
        if let Ok(job) = decode(&data_encoding::BASE64URL_NOPAD.encode(&sealed)) {
            let _ = staywright::plan::plan(&job);
        }
    }

    #[test]
    fn a_changed_letter_is_noticed(job in support::any_job(), place in any::<prop::sample::Index>(), to in "[A-Za-z0-9_-]") {
        let link = encode(&job);
        let at = place.index(link.len());
        let mut changed = link.clone();
        changed.replace_range(at..=at, &to);
        if changed != link {
            // The last letter can carry idle bits, which are refused too.
            prop_assert!(decode(&changed).is_err());
        }
    }

    #[test]
    fn a_link_cut_short_is_noticed(job in support::any_job(), place in any::<prop::sample::Index>()) {
        let link = encode(&job);
        prop_assert!(decode(&link[..place.index(link.len())]).is_err());
    }
}

#[test]
fn the_starting_jobs_make_short_links() {
    for starter in starters() {
        let link = encode(&starter.job);
        assert!(link.len() < 300, "{}: {}", starter.key, link.len());
    }
}

/// Each line: a link as it was once given out, a tab, and the job file that it must open as. Lines are only added.
#[test]
fn golden_links_open_as_ever() {
    let golden = include_str!("golden/links.tsv");
    let mut count = 0;
    for line in golden.lines() {
        let (link, file) = line.split_once('\t').unwrap();
        let job = Job::from_json(file).unwrap();
        assert_eq!(decode(link), Ok(job), "{link}");
        count += 1;
    }
    assert!(count >= 8, "{count} golden links");
}

#[test]
fn what_is_no_link_says_so() {
    let why = |text: &str| decode(text).map(|_| ()).unwrap_err();
    assert_eq!(why(""), LinkError::Empty);
    assert_eq!(why("  #  "), LinkError::Empty);
    assert_eq!(why("not a link"), LinkError::Damaged);
    assert_eq!(why(&"A".repeat(20_000)), LinkError::TooLong);
    let mut later = vec![9, 0];
    let check = crc::Crc::<u32>::new(&crc::CRC_32_ISO_HDLC).checksum(&later);
    later.extend(check.to_le_bytes());
    assert_eq!(why(&data_encoding::BASE64URL_NOPAD.encode(&later)), LinkError::Later(9));
}
