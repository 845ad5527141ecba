//! What the room `tolerance` knows, in words: results, verdicts and mends, budgets and sensitivities.

use super::Style;
use super::bench::setting;
use super::measure::measurand;
use crate::model::{Hand, PairName, capital};
use crate::plan::CutAt;
use crate::tolerance::{
    Agreement, AtPost, Budget, CutFigure, Distribution, Known, Limit, Measurement, Move, PairFigure,
    PlanFigure, Sample, Sensitivity, StayFigure, SystematicError, ToleranceAllocation, Trim, Verdict, What,
};
use crate::units::{Kind, show, trimmed};

/// A stay: `right chainstay`.
pub(super) fn stay(pair: PairName, hand: Hand) -> String {
    [hand.key(), pair.one()].join(" ")
}

/// What a result is called.
pub fn outcome(what: What, style: Style) -> String {
    let spoken = match what {
        What::OffCentre => style.word("Axle off center", "Axle off centre"),
        What::Square => "Wheel not square, seen at the rim",
        What::Difference => "Right chainstay less left",
        What::Lean => "Wheel leans, seen at the rim",
        What::Length => "Chainstay length off",
        What::Drop => "Bottom bracket drop off",
        What::Spacing => "Dropout spacing off",
        What::Gap(CutAt { pair, hand, at_front }) => {
            let end = if at_front { "front" } else { "rear" };
            return format!("Gap at the {end} of the {}", stay(pair, hand));
        }
        What::Tyre(pair, hand) => {
            return format!("{} to the {}", style.word("Tire", "Tyre"), stay(pair, hand));
        }
    };
    spoken.to_owned()
}

/// Where a result's starting limit comes from.
pub fn starting_limit(what: What, style: Style) -> String {
    match what {
        What::OffCentre => format!(
            "{} off {} can be seen at the brake bridge: a shop habit, unsourced",
            length(1.0, style),
            style.word("center", "centre")
        ),
        What::Spacing => {
            format!("+{} on one production drawing: hearsay, unsourced", length(1.5, style))
        }
        What::Gap(_) => format!(
            "{} is a common aim for fillet brazing: a shop habit, unsourced; follow your own process",
            length(0.25, style)
        ),
        What::Tyre(..) => format!(
            "{} in EN 14781:2005, 4.10.2, for racing bicycles, not read in the standard itself; US law asks for {}",
            length(4.0, style),
            length(1.6, style)
        ),
        What::Square | What::Difference | What::Lean | What::Length | What::Drop => {
            "a working figure; your own counts".to_owned()
        }
    }
}

fn length(mm: f64, style: Style) -> String {
    show::fine(mm, false, style.unit)
}

fn figure(value: f64, kind: Kind, style: Style) -> String {
    show::fine(value, kind == Kind::Angle, style.unit)
}

/// What may still be said of a probability: nothing is certain, and nothing that was found is impossible.
pub fn per_cent(part: f64) -> String {
    match part {
        part if part > 0.995 => "over 99 %".to_owned(),
        part if part < 0.005 => "under 1 %".to_owned(),
        part => format!("{} %", trimmed(part * 100.0, 0)),
    }
}

/// A verdict on a result; `further` are the measurements that would settle it where it is open.
pub fn verdict(verdict: Verdict, further: &[Measurement], style: Style) -> String {
    match verdict {
        Verdict::Within(part) => format!("within its limit ({})", per_cent(part)),
        Verdict::Marginal(part) => format!("marginal: {} likely within", per_cent(part)),
        Verdict::Out(part) => format!("out: {} likely within", per_cent(part)),
        Verdict::Open if further.is_empty() => "left open".to_owned(),
        Verdict::Open => {
            let names: Vec<String> = further.iter().map(|one| measurand(one, style)).collect();
            ["measure also: ", &names.join("; ")].concat()
        }
        Verdict::None => "has no value".to_owned(),
    }
}

/// A length with twice its standard uncertainty.
pub fn with_doubt(known: Known, style: Style) -> String {
    let value = show::signed_length(known.value, style.unit);
    known
        .standard
        .map_or_else(|| value.clone(), |standard| [value.clone(), length(2.0 * standard, style)].join(" ± "))
}

/// Whether the readings agree; `worst` is the measurement to read again first.
pub fn agreement(agreement: &Agreement, worst: Option<&Measurement>, style: Style) -> String {
    if agreement.freedom < 1 {
        return "No reading is checked by another yet.".to_owned();
    }
    if !agreement.contradicts() {
        return "The readings agree with each other.".to_owned();
    }
    let again = worst.map_or_else(String::new, |worst| {
        format!(" Read this one again first: {}.", measurand(worst, style))
    });
    ["The readings contradict each other.", &again].concat()
}

/// What comes off a stay, and what that puts right.
pub fn trim(trim: &Trim, style: Style) -> String {
    let why = match trim.mends {
        What::Square => "that puts the wheel square",
        What::Lean => "that stands the wheel upright",
        _ => "that brings the axle to the middle",
    };
    let amount = with_doubt(trim.amount, style);
    let end = if trim.at.at_front { "front" } else { "rear" };
    let from = stay(trim.at.pair, trim.at.hand);
    format!("Take {} off the {from}, {end} end: {why}.", amount.trim_start_matches('+'))
}

/// Where both stays of a pair go on the frame.
pub fn move_across(moved: &Move, style: Style) -> String {
    let value = moved.to_right.value;
    let side = if value > 0.0 { Hand::Right } else { Hand::Left };
    format!(
        "Set both {} {} further to the {} on the shell: that brings the axle to the middle.",
        moved.pair.name(),
        length(value.abs(), style),
        side.key()
    )
}

/// An error that the bench seems to make each time.
pub fn systematic_error(error: &SystematicError, style: Style) -> String {
    let off = error.off.value;
    let by = figure(off.abs(), error.place.kind.quantity(), style);
    let more = if off < 0.0 { "less" } else { "more" };
    format!("{}: {by} {more} than nominal", capital(&setting(&error.place, style)))
}

/// What the spreads of all settings do to a result.
pub fn totals(budget: &Budget, style: Style) -> [String; 3] {
    [
        format!("Nominal: {}.", length(budget.value, style)),
        format!(
            "Typical (root of squares): ± {} (two standard uncertainties).",
            length(2.0 * budget.standard, style)
        ),
        format!("Everything at its worst together: ± {}.", length(budget.worst, style)),
    ]
}

/// The part of simulated results that the interval holds.
const DRAWN_PART: f64 = 0.95;

/// What simulated builds come to; `None` where none has the result.
pub fn simulated(sample: &Sample, limit: Limit, style: Style) -> Option<String> {
    let (low, high) = sample.interval(DRAWN_PART)?;
    let kept = sample.part(|value| limit.keeps(value));
    Some(format!(
        "{} simulated builds (seed {}): 95 % lie from {} to {}; {} keep the limit.",
        sample.sorted.len() + sample.missing,
        sample.seed,
        length(low, style),
        length(high, style),
        per_cent(kept)
    ))
}

/// What a setting's spread gives.
pub fn share(kind: Kind, spread: Distribution, worst: f64, style: Style) -> String {
    format!("± {} gives ± {}", figure(spread.worst(), kind, style), length(worst, style))
}

/// What to hold a setting to.
pub fn allocation(kind: Kind, allocation: &ToleranceAllocation, style: Style) -> String {
    ["hold to ± ", &figure(allocation.by_squares, kind, style)].concat()
}

/// What a figure of the plan is called, with where it is.
pub fn plan_figure(one: PlanFigure, style: Style) -> String {
    let (place, what) = match one {
        PlanFigure::Pair(pair, figure) => (pair.name().to_owned(), pair_figure(figure, style)),
        PlanFigure::Stay(pair, hand, figure) => (stay(pair, hand), stay_figure(figure).to_owned()),
        PlanFigure::Cut(at, figure) => (at.name(), cut_figure(figure).to_owned()),
    };
    format!("{}, {what}", capital(&place))
}

fn pair_figure(figure: PairFigure, _style: Style) -> String {
    match figure {
        PairFigure::Slide => "slide".to_owned(),
        PairFigure::AxleHeight => "axle height".to_owned(),
        PairFigure::RoomBetween => "between the tubes".to_owned(),
        PairFigure::Post(place, what) => {
            let what = match what {
                AtPost::Inside => "inside".to_owned(),
                AtPost::Outside => "outside".to_owned(),
                AtPost::Axis(hand) => [hand.key(), " axis"].concat(),
            };
            format!("post {}, {what}", place + 1)
        }
    }
}

const fn stay_figure(figure: StayFigure) -> &'static str {
    match figure {
        StayFigure::Length => "length",
        StayFigure::Splay => "splay",
        StayFigure::TipToTip => "tip to tip",
    }
}

const fn cut_figure(figure: CutFigure) -> &'static str {
    match figure {
        CutFigure::Angle => "angle",
        CutFigure::Offset => "offset",
        CutFigure::Tilt => "tilt",
        CutFigure::ReadoutAlong => "along the table",
        CutFigure::ReadoutAcross => "across the table",
        CutFigure::AxisStation => "axes nearest at",
        CutFigure::LongPoint => "long point",
        CutFigure::ShortPoint => "short point",
        CutFigure::Gap => "gap",
        CutFigure::Push => "goes in by",
        CutFigure::SawDepth => "saw depth",
    }
}

/// How much a figure of the plan gains for one of the touched figure's unit.
pub fn sensitivity(one: &Sensitivity, touched: Kind, style: Style) -> String {
    let quantity = one.figure.quantity();
    let [unit, per] = [quantity, touched].map(|kind| kind.unit(style.unit));
    let gained = one.per_unit * unit.of_recorded(1.0) / per.of_recorded(1.0);
    let sign = if gained < 0.0 { "−" } else { "+" };
    let space = if quantity == Kind::Angle { "" } else { " " };
    format!("{sign}{}{space}{}", trimmed(gained.abs(), 3), unit.sign())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::text::{English, bench, measure};
    use crate::tolerance::{Finished, Outcome, Place, SettingKind};
    use crate::units::LengthUnit;

    fn styles() -> impl Iterator<Item = Style> {
        let units = [LengthUnit::Millimetre, LengthUnit::Inch];
        units.into_iter().flat_map(|unit| English::ALL.map(|english| Style { unit, english }))
    }

    /// Everything that is said of the starting job's bench and stays.
    fn sentences(style: Style) -> Vec<String> {
        let plan = crate::placement::solve(&crate::model::Job::default());
        let finished = Finished::new(&plan);
        let of_result = |one: &Outcome| [outcome(one.what, style), starting_limit(one.what, style)];
        let mut all: Vec<String> = finished.rear.outcomes.iter().flat_map(of_result).collect();
        for kind in SettingKind::ALL {
            all.extend([bench::setting(&Place::shared(kind), style), bench::starting_spread(kind, style)]);
        }
        for one in &finished.measurements {
            all.extend([measure::measurand(one, style), measure::method(one.method, style).to_owned()]);
        }
        for (carried, outcome) in finished.rear.carried().iter().zip(&finished.rear.outcomes) {
            let sample = Sample { sorted: vec![-0.1, 0.2], missing: 0, seed: 1 };
            all.extend(simulated(&sample, outcome.limit, style));
            all.extend(carried.budget.iter().flat_map(|budget| totals(budget, style)));
            all.extend(carried.allocations.iter().map(|one| allocation(Kind::Length, one, style)));
        }
        let known = Known { value: -0.31, standard: Some(0.1) };
        let at = CutAt::FIRST;
        for mends in [What::Square, What::Lean] {
            all.push(trim(&Trim { at, amount: known, mends, needed: true }, style));
        }
        all.push(move_across(&Move { pair: at.pair, to_right: known, needed: true }, style));
        for verdict in
            [Verdict::Within(1.0), Verdict::Marginal(0.5), Verdict::Out(0.0), Verdict::Open, Verdict::None]
        {
            all.push(super::verdict(verdict, &finished.measurements, style));
        }
        all.extend(SettingKind::ALL.map(|kind| {
            systematic_error(&SystematicError { place: Place::shared(kind), off: known }, style)
        }));
        all
    }

    #[test]
    fn no_sentence_mixes_units_or_englishes() {
        let words = |sentence: &str| -> Vec<String> {
            sentence.to_lowercase().split(|c: char| !c.is_alphabetic()).map(str::to_owned).collect()
        };
        for style in styles() {
            let (unit, english): (_, &[&str]) = match (style.unit, style.english) {
                (LengthUnit::Millimetre, English::British) => {
                    ("in", &["tire", "center", "miter", "mitered", "leveled"])
                }
                (LengthUnit::Millimetre, English::American) => {
                    ("in", &["tyre", "centre", "mitre", "mitred", "levelled"])
                }
                (LengthUnit::Inch, English::British) => {
                    ("mm", &["tire", "center", "miter", "mitered", "leveled"])
                }
                (LengthUnit::Inch, English::American) => {
                    ("mm", &["tyre", "centre", "mitre", "mitred", "levelled"])
                }
            };
            for sentence in sentences(style) {
                let figures: Vec<&str> = sentence.split(' ').collect();
                let other = figures.windows(2).any(|pair| {
                    pair[0].ends_with(|c: char| c.is_ascii_digit())
                        && pair[1].trim_end_matches(|c: char| !c.is_alphabetic()) == unit
                });
                assert!(!other, "{sentence}");
                assert!(words(&sentence).iter().all(|word| !english.contains(&word.as_str())), "{sentence}");
            }
        }
    }

    #[test]
    fn the_sign_says_the_side() {
        let moved = |value| Move {
            pair: PairName::Chainstays,
            to_right: Known { value, standard: None },
            needed: true,
        };
        assert!(move_across(&moved(-0.5), Style::FILE).contains("0.5 mm further to the left"));
        assert!(move_across(&moved(0.5), Style::FILE).contains("0.5 mm further to the right"));
        assert_eq!(per_cent(0.999), "over 99 %");
    }
}
