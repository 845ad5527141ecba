//! Every version of everything that is kept, as it stands in somebody's store.

use super::*;
use crate::session::Limits;
use crate::session::forms::Waiting;
use crate::session::records::{Measured, Record, Records, Tick};
use staywright::ask::{Learned, MadeFor, ShopErrors};
use std::fmt::Debug;

const GOLDEN: &str = include_str!("../../../../tests/golden/kept.tsv");

/// The lines of a kind: versions with their texts.
fn lines(kind: &str) -> Vec<(u8, &'static str)> {
    let of_kind = GOLDEN.lines().filter_map(|line| {
        let mut cells = line.split('\t');
        (cells.next() == Some(kind)).then(|| (cells.next().unwrap().parse().unwrap(), cells.next().unwrap()))
    });
    of_kind.collect()
}

fn check<T: Kept + PartialEq + Debug>(kind: &str, wanted: impl Fn(u8) -> T) {
    let lines = lines(kind);
    let versions: Vec<u8> = lines.iter().map(|(version, _)| *version).collect();
    assert_eq!(versions, (0..=T::VERSION).collect::<Vec<_>>(), "{kind}: a line for each version");
    for (version, text) in &lines {
        assert_eq!(from_text::<T>(text), Some(wanted(*version)), "{kind} {version}");
    }
    // Whoever changes what is written gives it a version.
    assert_eq!(lines.last().map(|(_, text)| *text), Some(to_text(&wanted(T::VERSION)).as_str()), "{kind}");
}

fn pairs(list: &[(&str, &str)]) -> Vec<(String, String)> {
    list.iter().map(|(one, other)| ((*one).to_owned(), (*other).to_owned())).collect()
}

fn bench() -> ShopErrors {
    let mut bench = ShopErrors::default();
    bench.spread("slide", 0.2);
    bench.spread("axle-height", 0.05);
    bench.limit("off-centre", 0.75);
    let learned =
        |id: &str, name: &str, is_angle, off| Learned { id: id.into(), name: name.into(), is_angle, off };
    bench.learn(learned("tilt", "tilt of the head", true, -0.125));
    bench.learn(learned("slide", "slide", false, 0.3));
    bench
}

/// Before version 2 nothing was known of the figures that ticks and readings are of.
fn records(version: u8) -> Records {
    let knows = version > 1;
    let figures = |figures: &[f64], setting| knows.then(|| MadeFor { figures: figures.to_vec(), setting });
    let first = Record {
        ticks: vec![
            Tick { step: "chainstays.both.slide".into(), made_for: figures(&[415.0], u64::MAX) },
            Tick { step: "chainstays.right.front.cut".into(), made_for: figures(&[], 0) },
        ],
        measured: vec![Measured {
            check: "chainstays.right.length".into(),
            text: " 400,5 ".into(),
            nominal: knows.then_some(401.51),
        }],
        is_own: true,
    };
    let angle =
        Measured { check: "chainstays.left.front-angle".into(), text: "82.3°".into(), nominal: None };
    let second = Record { ticks: Vec::new(), measured: vec![angle], is_own: !knows };
    Records::of_jobs(vec![("cbf29ce484222325".into(), first), ("af63dc4c8601ec8c".into(), second)])
}

#[test]
fn every_version_opens_for_ever() {
    check("limits", |_| Limits { length_mm: 0.25, angle_deg: 1.0 });
    check("bench", |_| bench());
    // The plain shop as it was when both were kept.
    let mut shop = staywright::model::shop::Shop::default();
    shop.fixture.bed.front = staywright::units::Length::from_mm(-40.0);
    shop.fixture.bed.width = staywright::units::Length::from_mm(60.0);
    check("shop", |_| staywright::link::write_shop(&shop));
    check("pad", |_| vec![0_u8, 1, 2, 250, 255]);
    check("picked", |_| pairs(&[("chainstays.right.front", "38.1"), ("seatstays.left.rear", "ä")]));
    check("records", records);
    let typed = Typed { mark: "cbf29ce484222325".into(), texts: pairs(&[("frame.bb_drop_mm", "7o")]) };
    check("typed", |_| typed.clone());
    let waiting: Waiting = (vec![1, 2, 3], pairs(&[("name", "x")]), vec!["shop".into(), "saws".into()]);
    check("typed-shop", |_| waiting.clone());
}

#[test]
fn what_is_damaged_or_later_is_not_read() {
    for (_, text) in lines("records") {
        for at in 0..text.len() {
            let mut changed = text.to_owned();
            let other = if text.as_bytes().get(at) == Some(&b'A') { "B" } else { "A" };
            changed.replace_range(at..=at, other);
            assert_eq!(from_text::<Records>(&changed), None, "{at} of {text}");
            assert_eq!(from_text::<Records>(text.get(..at).unwrap()), None, "{at} letters of {text}");
        }
    }
    let later = |version| format!(".{}", Base64UrlUnpadded::encode_string(&seal(version, &[0])));
    assert_eq!(from_text::<Records>(&later(Records::VERSION)), Some(Records::default()));
    assert_eq!(from_text::<Records>(&later(Records::VERSION + 1)), None);
}

#[test]
fn no_text_at_all_hurts() {
    for odd in ["", ".", "..", "not kept", "{}", "[[3, {}]]", "\u{202e}😀", "AAAAAAAA", "_____w", "/////w=="]
    {
        assert_eq!(from_text::<Records>(odd), None, "{odd}");
        assert_eq!(from_text::<Vec<u8>>(odd), None, "{odd}");
    }
    // A list that claims to be longer than any memory.
    let claim = fixed_text(&u64::MAX.to_le_bytes());
    assert_eq!(from_text::<Records>(&claim), None);
}

/// A text of version 0.
fn fixed_text(body: &[u8]) -> String {
    let sum =
        body.iter().fold(0x811c_9dc5_u32, |sum, byte| (sum ^ u32::from(*byte)).wrapping_mul(0x0100_0193));
    Base64UrlUnpadded::encode_string(&[body, &sum.to_le_bytes()].concat())
}
