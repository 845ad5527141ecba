//! Figures as people type them: one reader for all of them.

use proptest::prelude::*;
use staywright::units::LengthUnit::{Inch, Millimetre};
use staywright::units::{Bounds, FigureError, Kind, LengthUnit, Unit};
use staywright::units::{
    fixed, inch_fraction, read_angle, read_figure, read_length, read_within, said, trimmed,
};

const KINDS: [Kind; 8] = [
    Kind::Length,
    Kind::Angle,
    Kind::Count,
    Kind::CuttingSpeed,
    Kind::SpindleSpeed,
    Kind::Feed,
    Kind::Force,
    Kind::Stress,
];

fn mm(text: &str) -> f64 {
    read_length(text, Millimetre).unwrap_or_else(|error| panic!("{text}: {error:?}")).value.mm()
}

fn why(text: &str, kind: Kind) -> FigureError {
    match read_figure(text, kind, Millimetre) {
        Err(error) => error,
        Ok(figure) => panic!("{text} was read as {figure:?}"),
    }
}

#[test]
fn lengths_as_people_type_them() {
    for (text, millimetres, unit) in [
        ("430", 430.0, Unit::Millimetre),
        (" 28,6 ", 28.6, Unit::Millimetre),
        ("28.6mm", 28.6, Unit::Millimetre),
        ("43 cm", 430.0, Unit::Centimetre),
        ("1 1/8 in", 28.575, Unit::Inch),
        ("1-1/8\"", 28.575, Unit::Inch),
        ("1-1/8 in.", 28.575, Unit::Inch),
        ("7/8 inch", 22.225, Unit::Inch),
        ("7 / 8 Inches", 22.225, Unit::Inch),
        ("-3/16 in", -4.7625, Unit::Inch),
        ("- 1 3/16 in", -30.1625, Unit::Inch),
        ("−12", -12.0, Unit::Millimetre),
        ("\u{2013}12", -12.0, Unit::Millimetre),
        ("+12", 12.0, Unit::Millimetre),
        (".5", 0.5, Unit::Millimetre),
        ("5.", 5.0, Unit::Millimetre),
        ("28.60\u{a0}mm", 28.6, Unit::Millimetre),
        ("⌀\u{202f}40 mm", 40.0, Unit::Millimetre),
    ] {
        let read = read_length(text, Millimetre).unwrap_or_else(|error| panic!("{text}: {error:?}"));
        assert!((read.value.mm() - millimetres).abs() < 1e-12, "{text}: {}", read.value.mm());
        assert_eq!(read.unit, unit, "{text}");
    }
}

/// Every character whose Unicode decomposition is digits, FRACTION SLASH, digits (chart U2150 and Latin-1).
#[test]
fn printed_fractions() {
    let printed = "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞↉".chars();
    let plain = "1/4 1/2 3/4 1/7 1/9 1/10 1/3 2/3 1/5 2/5 3/5 4/5 1/6 5/6 1/8 3/8 5/8 7/8 0/3".split(' ');
    for (printed, plain) in printed.zip(plain) {
        let (top, bottom) = plain.split_once('/').unwrap();
        let known = 25.4 * (top.parse::<f64>().unwrap() / bottom.parse::<f64>().unwrap());
        for (text, whole) in [
            (format!("{printed} in"), 0.0),
            (format!("{plain} in"), 0.0),
            (format!("3{printed}\""), 3.0),
            (format!("3 {printed} in"), 3.0),
            (format!("3-{printed} in"), 3.0),
            (format!("3 {plain} in"), 3.0),
        ] {
            assert!((mm(&text) - known - whole * 25.4).abs() < 1e-12, "{text}: {}", mm(&text));
        }
        assert!((mm(&format!("−3{printed} in")) + known + 76.2).abs() < 1e-12, "minus 3 and {printed}");
    }
    for text in ["⅟8 in", "¹⁄₈ in", "1\u{2044}8 in"] {
        assert!((mm(text) - 3.175).abs() < 1e-12, "{text}");
    }
    assert!((mm("1¹⁄₈ in") - 28.575).abs() < 1e-12);
    assert!((mm("1 ¹\u{2044}₁₆ in") - 26.9875).abs() < 1e-12);
}

#[test]
fn what_is_not_a_figure_is_named() {
    let not = |text: &str| FigureError::NotANumber(text.into());
    assert_eq!(why("", Kind::Length), FigureError::Empty);
    assert_eq!(why("⌀", Kind::Length), FigureError::Empty);
    for text in [
        "abc", "1e5", "1//2", "--5", "NaN", "inf", "-", ".", "1 2", "1 1 1/8", "1.1/8", "1.5½", "½½1",
        "1/2/3", "<b>", "1/",
    ] {
        assert_eq!(why(text, Kind::Length), not(text));
    }
    assert_eq!(why("1/0", Kind::Length), FigureError::ZeroDenominator);
    assert_eq!(why("1.000,5", Kind::Length), FigureError::TwoDecimalMarks("1.000,5".into()));
    assert_eq!(why("12 furlongs", Kind::Length), FigureError::UnknownUnit("furlongs".into()));
    assert!(matches!(why(&"9".repeat(400), Kind::Length), FigureError::NotANumber(_)));
    assert!(matches!(why(&format!("1/{}", "9".repeat(400)), Kind::Length), FigureError::NotANumber(_)));
}

#[test]
fn each_figure_takes_units_of_its_own_kind_only() {
    let wrong = |text: &str, wanted| FigureError::WrongUnit { text: text.into(), wanted };
    assert_eq!(why("73 mm", Kind::Angle), wrong("mm", Kind::Angle));
    assert_eq!(why("12°", Kind::Length), wrong("°", Kind::Length));
    assert_eq!(why("12°", Kind::Count), wrong("°", Kind::Count));
    assert_eq!(why("10.5", Kind::Count), FigureError::NotWhole);
    assert_eq!(why("10½", Kind::Count), FigureError::NotWhole);
    assert_eq!(read_angle("73,5°").map(|read| read.value.degrees()), Ok(73.5));
    let value = |text, kind, page| read_figure(text, kind, page).map(|read| read.value);
    assert_eq!(value("42T", Kind::Count, Inch), Ok(42.0));
    assert_eq!(value("100 sfm", Kind::CuttingSpeed, Millimetre), Ok(30.48));
    assert_eq!(value("100", Kind::CuttingSpeed, Inch), Ok(30.48));
    assert_eq!(value("30 m/min", Kind::CuttingSpeed, Inch), Ok(30.0));
    assert_eq!(value("10 ipm", Kind::Feed, Millimetre), Ok(254.0));
    assert_eq!(value("1,5 N/mm2", Kind::Stress, Millimetre), Ok(1.5));
}

#[test]
fn a_range_is_kept_in_recorded_numbers() {
    let bounds = Bounds::new(250.0, 800.0);
    let read = |text, page| read_within(text, Kind::Length, bounds, page).map(|read| read.value);
    assert_eq!(read("17", Inch), Ok(17.0 * 25.4));
    assert_eq!(read("17", Millimetre), Err(FigureError::Outside { value: 17.0, bounds }));
    assert_eq!(read("250", Millimetre), Ok(250.0));
    assert_eq!(read("-250", Millimetre), Err(FigureError::Outside { value: -250.0, bounds }));
}

fn pages() -> impl Strategy<Value = LengthUnit> {
    prop_oneof![Just(Millimetre), Just(Inch)]
}

proptest! {
    /// Written in its own unit with hyphen or minus, point or comma, close to its unit's sign or apart.
    #[test]
    fn every_figure_that_is_written_is_read_back(thousandths in -9_999_999i64..9_999_999, decimals in 0u32..=3, kind in 0usize..8, page in pages(), space: bool, comma: bool) {
        let kind = KINDS[kind];
        let step = 10i64.pow(3 - decimals);
        let value = if kind == Kind::Count { (thousandths / 1000) as f64 } else { (thousandths / step * step) as f64 / 1000.0 };
        let unit = kind.unit(page);
        for number in [fixed(value, decimals), trimmed(value, decimals), said(value, decimals)] {
            let number = if comma { number.replace('.', ",") } else { number };
            let text = format!("{number}{}{}", if space { " " } else { "" }, unit.sign());
            let read = read_figure(&text, kind, page);
            prop_assert_eq!(read.clone().map(|read| read.unit), Ok(unit), "{}", text);
            prop_assert_eq!(read.map(|read| read.value), Ok(unit.recorded(value)), "{}", text);
        }
    }

    #[test]
    fn every_fraction_of_an_inch_is_read_back(steps in -4096i32..4096, hyphen: bool) {
        let inches = f64::from(steps) / 64.0;
        let written = inch_fraction(inches, 64);
        let text = if hyphen { written.replace(' ', "-") } else { written };
        prop_assert_eq!(read_length(&text, Inch).map(|read| read.value.mm()), Ok(inches * 25.4));
    }

    #[test]
    fn any_text_at_all_is_read_or_refused(text in "\\PC*", kind in 0usize..8, page in pages()) {
        if let Ok(read) = read_figure(&text, KINDS[kind], page) {
            prop_assert!(read.value.is_finite());
        }
    }

    #[test]
    fn anything_near_a_figure_is_read_or_refused(text in "[-−+⌀ ]{0,2}[0-9.,/⁄½⅞⅟¹₈ -]{0,9}[ ]?(mm|in|\"|°|T|min|/|²)?", kind in 0usize..8, page in pages()) {
        if let Ok(read) = read_figure(&text, KINDS[kind], page) {
            prop_assert!(read.value.is_finite());
        }
    }
}
