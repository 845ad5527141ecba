//! Every sentence of the catalogue, each variant of what can be wrong, in both units and both Englishes.

use staywright::model::{
    DropoutKind, EndMisfit, Fault, FileKind, Hand, Job, Level, LongList, LongText, PairName, RejectedValue,
    Wanted, Wrong,
};
use staywright::plan::{Mate, OutOfRange, Problem, SectionChange};
use staywright::text::{English, Style, fault_message, plan_problem};
use staywright::units::{Angle, Bounds, Length, LengthUnit};

/// One value for each pattern; a variant without a pattern does not compile.
macro_rules! one_of_each {
    ($name:ident: $Type:ty; $($pattern:pat => $value:expr,)+) => {
        fn $name() -> Vec<$Type> {
            fn seen(one: &$Type) {
                match one { $($pattern => {})+ }
            }
            let all: Vec<$Type> = vec![$($value),+];
            all.iter().for_each(seen);
            all
        }
    };
}

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

fn reading(hand: Option<Hand>) -> OutOfRange {
    OutOfRange { hand, reading: mm(493.88), min: mm(380.0), max: mm(480.0) }
}

one_of_each! { plan_problems: Problem;
    Problem::SidesApart(_) => Problem::SidesApart(PairName::Seatstays),
    Problem::AxesParallel(_) => Problem::AxesParallel(Mate::SeatTube),
    Problem::MissesMate(_) => Problem::MissesMate(Mate::Shell),
    Problem::MissesSaw { .. } => Problem::MissesSaw { saw: mm(4.0) },
    Problem::SeatsNowhere(_) => Problem::SeatsNowhere(Mate::RoundDropout),
    Problem::TouchesMate(_) => Problem::TouchesMate(Mate::Shell),
    Problem::TouchesSaw => Problem::TouchesSaw,
    Problem::PartlyMissesMate { .. } => Problem::PartlyMissesMate {
        mate: Mate::Shell,
        saw_fits: false,
        missed: vec![[20.0, 40.0], [300.0, 380.0]].into_iter().map(|ends| ends.map(Angle::from_degrees)).collect(),
    },
    Problem::PartlyMissesSaw => Problem::PartlyMissesSaw,
    Problem::GrazingCut => Problem::GrazingCut,
    Problem::SawUnderStay { .. } => Problem::SawUnderStay { saw: mm(20.0), stay: mm(22.2) },
    Problem::SawUnderMate { .. } => {
        Problem::SawUnderMate { saw: mm(38.0), mate: Mate::Shell, diameter: mm(40.0) }
    },
    Problem::StaysCollide { .. } => Problem::StaysCollide { depth: mm(3.03), at_cut_ends: true },
    Problem::CutPastTubeEnd { .. } => Problem::CutPastTubeEnd { by: mm(12.5) },
    Problem::SectionChangesInCut { .. } => {
        Problem::SectionChangesInCut { change: SectionChange::Oval, station: mm(-10.0) }
    },
    Problem::SlideOutOfRange(_) => Problem::SlideOutOfRange(reading(None)),
    Problem::AxleHeightOutOfRange(_) => Problem::AxleHeightOutOfRange(reading(Some(Hand::Left))),
    Problem::PostOffStay { .. } => Problem::PostOffStay { post: mm(330.0), hand: None },
    Problem::PostOnBend { .. } => Problem::PostOnBend { post: mm(330.0), hand: Hand::Right },
    Problem::SlotOutsideTube { .. } => Problem::SlotOutsideTube { at_mouth: true, outboard: false },
    Problem::SlotTooDeep { .. } => Problem::SlotTooDeep { past: mm(60.0) },
    Problem::CutsOverlap => Problem::CutsOverlap,
    Problem::BendBeginsInCut { .. } => Problem::BendBeginsInCut { by: mm(1.25) },
    Problem::BendEndsInCut { .. } => Problem::BendEndsInCut { by: mm(1.25) },
    Problem::TightBend { .. } => Problem::TightBend { number: 2, radius: mm(40.0), diameter: mm(22.2) },
    Problem::TaperInBends(_) => Problem::TaperInBends(vec![1, 2]),
    Problem::BendPastTubeEnd { .. } => Problem::BendPastTubeEnd { number: 1 },
    Problem::TubeCannotSpan => Problem::TubeCannotSpan,
    Problem::DropoutsOffHub { .. } => Problem::DropoutsOffHub { between: mm(141.0), hub: mm(142.0) },
    Problem::DropoutOffHubFace { .. } => Problem::DropoutOffHubFace { by: mm(-0.5) },
    Problem::RoundDropoutInsideHub { .. } => Problem::RoundDropoutInsideHub { by: mm(4.5) },
    Problem::EndBesideHubFace { .. } => Problem::EndBesideHubFace { by: mm(18.0) },
    Problem::PastMateEnd { .. } => Problem::PastMateEnd { mate: Mate::Shell, by: mm(26.6) },
    Problem::SawOverMate { .. } => {
        Problem::SawOverMate { saw: mm(200.0), mate: Mate::Shell, diameter: mm(40.0), gap: mm(2.5) }
    },
    Problem::NothingToFind => Problem::NothingToFind,
    Problem::WallUnused { .. } => Problem::WallUnused { wall: mm(1.2) },
    Problem::PostsTogether { .. } => Problem::PostsTogether { post: mm(60.0) },
    Problem::TabsOffStays { .. } => Problem::TabsOffStays { by: Angle::from_degrees(-2.0) },
    Problem::RoundDropoutApart { .. } => Problem::RoundDropoutApart { by: mm(0.4) },
    Problem::PlugTooLarge { .. } => Problem::PlugTooLarge { by: mm(0.2) },
}

fn out_of(bounds: Bounds) -> Wrong {
    Wrong::Outside { name: "tyre width", value: 1.5, unit: "mm", bounds }
}

/// A fault of a figure that does not go with another, as the job makes it.
fn against() -> Wrong {
    let mut job = Job::default();
    job.fixture.bench.slide_max = mm(100.0);
    job.faults().remove(0).what
}

one_of_each! { wrongs: Wrong;
    Wrong::Empty => Wrong::Empty,
    Wrong::NoJson { .. } => Wrong::NoJson { line: 3, character: 14 },
    Wrong::Wanted(_) => Wrong::Wanted(Wanted::NumberWithin(Bounds::new(250.0, 800.0), "mm")),
    Wrong::UnknownKey { .. } => Wrong::UnknownKey { known: vec!["name", "notes"] },
    Wrong::NoneOf { .. } => Wrong::NoneOf { allowed: vec!["front", "rear"] },
    Wrong::NoSuchProcess { .. } => Wrong::NoSuchProcess { known: vec!["brazed".to_owned()] },
    Wrong::OtherFormat { .. } => Wrong::OtherFormat { file: FileKind::Shop, version: 1 },
    Wrong::NoFormat { .. } => Wrong::NoFormat { version: 1 },
    Wrong::TooMany { .. } => Wrong::TooMany { list: LongList::Posts, count: 9, most: 8 },
    Wrong::TooLong { .. } => Wrong::TooLong { text: LongText::Notes, count: 3000, most: 2000 },
    Wrong::Outside { .. } => out_of(Bounds::new(10.0, 150.0)),
    Wrong::Against(_) => against(),
    Wrong::NoBore { .. } => Wrong::NoBore { wall: 9.0, diameter: 16.0 },
    Wrong::EndMisfit(_) => Wrong::EndMisfit(EndMisfit::MiterAtRear),
    Wrong::StraightWithRoll => Wrong::StraightWithRoll,
    Wrong::StraightWithFind => Wrong::StraightWithFind,
    Wrong::PostTwice => Wrong::PostTwice,
    Wrong::KeyTwice => Wrong::KeyTwice,
    Wrong::SeatStaysTooShort { .. } => Wrong::SeatStaysTooShort { way: 12.0, least: 20.0 },
    Wrong::StayTooShort { .. } => Wrong::StayTooShort { left: 12.0, least: 20.0 },
    Wrong::SpeedsTwice => Wrong::SpeedsTwice,
    Wrong::NoSpeed => Wrong::NoSpeed,
    Wrong::FixtureAlongSpindle => Wrong::FixtureAlongSpindle,
    Wrong::SameName => Wrong::SameName,
    Wrong::NoName => Wrong::NoName,
    Wrong::Missing => Wrong::Missing,
    Wrong::EndNotOfDropout { .. } => Wrong::EndNotOfDropout { dropout: DropoutKind::Round },
    Wrong::NotWritten(_) => Wrong::NotWritten("of the writer".to_owned()),
}

/// Words that the two Englishes spell each in their own way: American, British.
const SPELLED: [(&str, &str); 15] = [
    ("tire", "tyre"),
    ("tires", "tyres"),
    ("miter", "mitre"),
    ("miters", "mitres"),
    ("mitered", "mitred"),
    ("center", "centre"),
    ("centers", "centres"),
    ("centerline", "centreline"),
    ("color", "colour"),
    ("aluminum", "aluminium"),
    ("gray", "grey"),
    ("meter", "metre"),
    ("millimeters", "millimetres"),
    ("mold", "mould"),
    ("labeled", "labelled"),
];

fn styles() -> impl Iterator<Item = Style> {
    let units = [LengthUnit::Millimetre, LengthUnit::Inch];
    units.into_iter().flat_map(|unit| English::ALL.map(|english| Style { unit, english }))
}

fn words(sentence: &str) -> Vec<&str> {
    sentence
        .split([' ', '\u{202f}'])
        .map(|word| word.trim_matches(['.', ',', ':', ';', '(', ')', '“', '”']))
        .collect()
}

fn is_number(word: &str) -> bool {
    let bare = word.trim_start_matches(['−', '+']);
    bare.starts_with(|c: char| c.is_ascii_digit()) && bare.chars().all(|c| c.is_ascii_digit() || c == '.')
}

/// What stands before a number that counts something, or names one of several.
const BEFORE_COUNTS: [&str; 8] =
    ["bend", "bends", "line", "character", "format", "\"format\"", "most", "times"];

/// What follows a number that counts something.
const AFTER_COUNTS: [&str; 6] = ["characters", "posts", "entries", "are", "fit", "times"];

/// A number with neither a unit nor anything that it counts.
fn bare_number(sentence: &str) -> Option<&str> {
    let words = words(sentence);
    let word = |i: usize| words.get(i).copied().unwrap_or_default();
    let has_unit = |i: usize| matches!(word(i + 1), "mm" | "in" | "rpm" | "m/min" | "ft/min");
    let counts = |i: usize| {
        i > 0 && (BEFORE_COUNTS.contains(&word(i - 1)) || is_number(word(i - 1)))
            || AFTER_COUNTS.contains(&word(i + 1))
    };
    let in_range = |i: usize| {
        word(i + 1) == "to"
            && (has_unit(i + 2) || word(i + 2).ends_with('°') || AFTER_COUNTS.contains(&word(i + 3)))
    };
    (0..words.len()).find(|i| is_number(word(*i)) && !has_unit(*i) && !counts(*i) && !in_range(*i)).map(word)
}

/// Words that say no. Two in one clause leave the reader to work out which is meant.
const NEGATIVES: [&str; 9] =
    ["no", "not", "nothing", "nowhere", "neither", "none", "cannot", "without", "never"];

/// What is wrong with a sentence as the reader of a style would see it.
fn blemish(sentence: &str, style: Style) -> Option<String> {
    let words = words(sentence);
    let lower: Vec<String> = words.iter().map(|word| word.to_lowercase()).collect();
    let after_number = |unit: &str| words.windows(2).any(|two| is_number(two[0]) && two[1] == unit);
    let foreign = if style.unit == LengthUnit::Inch { "mm" } else { "in" };
    if after_number(foreign) {
        return Some(format!("speaks of {foreign}"));
    }
    for (american, british) in SPELLED {
        let other = if style.english == English::American { british } else { american };
        if lower.iter().any(|word| word == other) {
            return Some(format!("spells {other}"));
        }
    }
    let denied =
        |clause: &&str| self::words(clause).iter().filter(|word| NEGATIVES.contains(word)).count() > 1;
    if let Some(clause) = sentence.split([':', ';', ',']).find(denied) {
        return Some(format!("denies twice: {clause}"));
    }
    bare_number(sentence).map(|number| format!("has {number} without a unit"))
}

fn all_sentences(style: Style) -> Vec<String> {
    let faults =
        wrongs().into_iter().map(|what| Fault { field: "at".into(), value: RejectedValue::Nothing, what });
    let faults = faults.map(|fault| fault_message(&fault, style));
    plan_problems().iter().map(|problem| plan_problem(problem, style)).chain(faults).collect()
}

#[test]
fn every_sentence_keeps_to_the_unit_and_the_english_of_its_reader() {
    for style in styles() {
        for sentence in all_sentences(style) {
            assert_eq!(blemish(&sentence, style), None, "{style:?}: {sentence}");
        }
    }
}

#[test]
fn the_check_of_sentences_sees_what_it_is_for() {
    let british = Style::FILE;
    let american = Style { unit: LengthUnit::Inch, english: English::American };
    assert!(blemish("it goes from 380 mm to 400: nothing is left", british).is_some());
    assert!(blemish("it goes from 380 to 400 mm", british).is_none());
    assert!(blemish("it goes from 380 to 400 mm", american).is_some());
    assert!(blemish("the tyre is hit by 3 in", american).is_some());
    assert!(blemish("the tire is hit by 3 mm", british).is_some());
    assert!(blemish("there is no saw that does not fit", british).is_some());
    assert!(blemish("bend 2 of 40 mm radius", british).is_none());
}

/// By hand: a place 10 mm before the reference point lies ahead of it, and a reader sees no sign.
#[test]
fn a_place_before_the_reference_point_is_ahead_of_it() {
    let at = |station| {
        let change = SectionChange::Taper;
        plan_problem(&Problem::SectionChangesInCut { change, station: mm(station) }, Style::FILE)
    };
    assert!(at(-10.0).ends_with("10 mm ahead of the front reference point"), "{}", at(-10.0));
    assert!(at(10.0).ends_with("10 mm behind the front reference point"), "{}", at(10.0));
    for problem in plan_problems() {
        for style in styles() {
            assert!(!plan_problem(&problem, style).contains('−'), "{problem:?}");
        }
    }
}

const PLAN: &str = include_str!("../../src/manual/plan.md");

/// The manual's row of each code says its level, or its levels where they depend on the figures.
#[test]
fn the_manual_lists_the_level_of_every_code() {
    for problem in plan_problems() {
        let code = serde_json::to_value(problem.code()).unwrap();
        let code = code.as_str().unwrap().to_owned();
        let row = PLAN.lines().find(|line| line.starts_with(&format!("| `{code}` |")));
        let row = row.unwrap_or_else(|| panic!("{code} is not in the manual"));
        assert!(row.contains(problem.level().key()), "{row}: {}", problem.level().key());
    }
    for level in Level::ALL {
        assert!(PLAN.contains(&format!("`{}`", level.key())), "{level:?}");
    }
}
