//! The checker's answer in the words and units of the page.

use super::bench::Learned;
use super::pick::place_name;
use super::show;
use super::words::capital;
use serde_json::Value;
use staywright::drawing::Differs;
use staywright::quantity::{LengthUnit, trimmed};
use staywright::trade::{Hand, PairName, json_number};

/// A result and what was found of it.
#[derive(Clone, Debug, PartialEq)]
pub struct ResultLine {
    /// What it is.
    pub name: String,
    /// Its value with its doubt; empty where it does not exist.
    pub value: String,
    /// `within`, `marginal`, `out`, `open` or `none`.
    pub verdict: String,
    /// The verdict in words.
    pub words: String,
}

/// A correction of the bench that the readings suggest.
#[derive(Clone, Debug, PartialEq)]
pub struct HabitLine {
    /// A sentence.
    pub words: String,
    /// What is kept if it is taken as a correction.
    pub learned: Learned,
}

/// What the readings say.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FoundView {
    /// Whether they agree, and what to look at if not.
    pub agreement: String,
    /// Whether they contradict each other.
    pub contradicts: bool,
    /// The results.
    pub results: Vec<ResultLine>,
    /// What brings the wheel straight.
    pub mends: Vec<String>,
    /// What the bench seems to do again and again.
    pub habits: Vec<HabitLine>,
}

/// A setting's part in a result.
#[derive(Clone, Debug, PartialEq)]
pub struct ShareLine {
    /// What it is called.
    pub name: String,
    /// Its part of the variance, 0 to 1.
    pub part: f64,
    /// How far it can be off, and what that gives.
    pub gives: String,
    /// What to hold it to.
    pub hold: String,
}

/// The stays of a pair as found, right then left; `None` without readings.
pub fn differs(answer: &Value, pair: PairName) -> Option<[Differs; 2]> {
    let found = answer.get("found").filter(|found| found.is_object())?;
    let of = |hand: Hand, part: &str| {
        let id = format!("{}.{}.{part}", pair.key(), hand.key());
        named(found, "stays", &id).and_then(|one| number(one, "value")).unwrap_or(0.0)
    };
    Some(Hand::ALL.map(|hand| Differs {
        length: of(hand, "length"),
        front_angle: of(hand, "front.angle"),
        dropout: of(hand, "dropout"),
    }))
}

/// How far errors carry to one result.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CarryView {
    /// Its limit, mm.
    pub limit: f64,
    /// Where the starting limit comes from.
    pub source: String,
    /// Sentences on the whole.
    pub totals: Vec<String>,
    /// One for each setting that moves it, the largest first.
    pub shares: Vec<ShareLine>,
}

/// A setting that can be off.
#[derive(Clone, Debug, PartialEq)]
pub struct SettingLine {
    /// Its name for the checker.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// `mm` or `°`.
    pub unit: String,
    /// Its largest error.
    pub half_width: f64,
    /// Where that comes from.
    pub source: String,
}

/// What lies under several keys.
fn deep<'a>(value: &'a Value, keys: &[&str]) -> Option<&'a Value> {
    keys.iter().try_fold(value, |value, key| value.get(key))
}

fn list<'a>(value: &'a Value, key: &str) -> impl Iterator<Item = &'a Value> + use<'a> {
    value.get(key).and_then(Value::as_array).into_iter().flatten()
}

fn text<'a>(value: &'a Value, key: &str) -> &'a str {
    value.get(key).and_then(Value::as_str).unwrap_or_default()
}

fn number(value: &Value, key: &str) -> Option<f64> {
    value.get(key).and_then(json_number)
}

fn named<'a>(answer: &'a Value, key: &str, id: &str) -> Option<&'a Value> {
    list(answer, key).find(|one| text(one, "id") == id)
}

/// A small figure: as fine as it needs to be read, in mm, inches or degrees.
fn small(value: f64, of: &str, unit: LengthUnit) -> String {
    let trimmed = |value, decimals| trimmed(value, decimals).replacen('-', "−", 1);
    if of == "°" {
        return format!("{}°", trimmed(value, if value.abs() < 0.1 { 3 } else { 2 }));
    }
    let decimals = if unit == LengthUnit::Inch {
        4
    } else if value.abs() < 0.1 {
        3
    } else {
        2
    };
    format!("{} {}", trimmed(show::in_unit(value, unit), decimals), show::sign(unit))
}

fn per_cent(part: f64) -> String {
    // Nothing is certain, and nothing that was found is impossible.
    match part {
        part if part > 0.995 => "over 99 %".to_owned(),
        part if part < 0.005 => "under 1 %".to_owned(),
        part => format!("{} %", trimmed(part * 100.0, 0)),
    }
}

fn with_doubt(known: &Value, unit: LengthUnit) -> String {
    let Some(value) = number(known, "value") else { return String::new() };
    let doubt = number(known, "standard").map(|standard| format!(" ± {}", small(2.0 * standard, "mm", unit)));
    format!("{}{}", show::signed_length(value, unit), doubt.unwrap_or_default())
}

/// Every result that can be chosen, with its name for the checker.
pub fn results(answer: &Value) -> Vec<(String, String)> {
    list(answer, "results").map(|one| (text(one, "id").to_owned(), text(one, "name").to_owned())).collect()
}

/// What the readings say; `None` without any, and where no stays fit them.
pub fn found(answer: &Value, unit: LengthUnit) -> Option<FoundView> {
    let found = answer.get("found").filter(|found| found.is_object())?;
    let contradicts = deep(found, &["agreement", "contradicts"]) == Some(&Value::Bool(true));
    Some(FoundView {
        agreement: agreement(answer, found, contradicts),
        contradicts,
        results: list(found, "results").filter_map(|one| result(answer, one, unit)).collect(),
        mends: mends(found, unit),
        habits: list(found, "habits")
            .filter(|one| one.get("clear") == Some(&Value::Bool(true)))
            .map(|one| habit(one, unit))
            .collect(),
    })
}

fn agreement(answer: &Value, found: &Value, contradicts: bool) -> String {
    let freedom = deep(found, &["agreement", "freedom"]).and_then(json_number).unwrap_or(0.0);
    if freedom < 1.0 {
        return "No reading is checked by another yet.".to_owned();
    }
    if !contradicts {
        return "The readings agree with each other.".to_owned();
    }
    let worst = deep(found, &["agreement", "worst", "figure"]).and_then(Value::as_str).unwrap_or_default();
    let name = named(answer, "figures", worst).map_or(worst, |figure| text(figure, "name"));
    format!("The readings contradict each other. Read this one again first: {name}.")
}

fn result(answer: &Value, one: &Value, unit: LengthUnit) -> Option<ResultLine> {
    let told = named(answer, "results", text(one, "id"))?;
    let verdict = text(one, "verdict").to_owned();
    // What hangs on a single joint is told once it is known.
    if verdict == "open" && text(one, "id").contains('.') {
        return None;
    }
    let likely = number(one, "probability").map(per_cent).unwrap_or_default();
    let words = match verdict.as_str() {
        "within" => format!("within its limit ({likely})"),
        "marginal" => format!("marginal: {likely} likely within"),
        "out" => format!("out: {likely} likely within"),
        "open" => open(answer, one),
        _ => "has no value".to_owned(),
    };
    let value = if verdict == "open" { String::new() } else { with_doubt(one, unit) };
    Some(ResultLine { name: text(told, "name").to_owned(), value, verdict, words })
}

/// What to read besides.
fn open(answer: &Value, one: &Value) -> String {
    let asks = list(one, "asks").filter_map(Value::as_str);
    let names: Vec<&str> =
        asks.map(|id| named(answer, "figures", id).map_or(id, |figure| text(figure, "name"))).collect();
    if names.is_empty() { "left open".to_owned() } else { format!("measure also: {}", names.join("; ")) }
}

fn mends(found: &Value, unit: LengthUnit) -> Vec<String> {
    let needed = |one: &&Value| one.get("needed") == Some(&Value::Bool(true));
    let trims = list(found, "trims").filter(needed).filter_map(|trim| {
        let amount = trim.get("amount")?;
        number(amount, "standard")?;
        let place =
            place_name(&format!("{}.{}.{}", text(trim, "pair"), text(trim, "hand"), text(trim, "end")));
        let why = match text(trim, "mends") {
            "square" => "that puts the wheel square",
            "lean" => "that stands the wheel upright",
            _ => "that brings the axle to the middle",
        };
        Some(format!("Take {} off the {place}: {why}.", with_doubt(amount, unit).trim_start_matches('+')))
    });
    let moved = found.get("moved").filter(needed).and_then(|moved| {
        let by = moved.get("to_right")?;
        let value = number(by, "value")?;
        number(by, "standard")?;
        let side = if value > 0.0 { "right" } else { "left" };
        Some(format!(
            "Set both chainstays {} further to the {side} on the shell: that brings the axle to the middle.",
            small(value.abs(), "mm", unit)
        ))
    });
    trims.chain(moved).collect()
}

fn habit(habit: &Value, unit: LengthUnit) -> HabitLine {
    let off = deep(habit, &["off", "value"]).and_then(json_number).unwrap_or(0.0);
    let name = capital(text(habit, "name"));
    let words = off_words(&name, off, text(habit, "unit"), unit);
    let [id, name, of] = ["id", "name", "unit"].map(|key| text(habit, key).to_owned());
    HabitLine { words, learned: Learned { id, name, unit: of, off } }
}

/// `Slide, chainstays: 0.3 mm more than told`.
fn off_words(name: &str, off: f64, of: &str, unit: LengthUnit) -> String {
    let more = if off < 0.0 { "less" } else { "more" };
    format!("{name}: {} {more} than told", small(off.abs(), of, unit))
}

/// What the builder has kept of the bench, in words: `Slide, chainstays: set 0.3 mm less than told`.
pub fn correction(Learned { name, unit: of, off, .. }: &Learned, unit: LengthUnit) -> String {
    let way = if *off < 0.0 { "more" } else { "less" };
    format!("{}: set it {} {way} than the page tells", capital(name), small(off.abs(), of, unit))
}

/// How far errors carry to the result of that name.
pub fn carry(answer: &Value, id: &str, unit: LengthUnit) -> Option<CarryView> {
    let result = named(answer, "results", id)?;
    Some(CarryView {
        limit: number(result, "limit")?,
        source: text(result, "source").to_owned(),
        totals: totals(answer, result, unit),
        shares: list(result, "shares").filter_map(|share| share_line(answer, share, unit)).collect(),
    })
}

fn totals(answer: &Value, result: &Value, unit: LengthUnit) -> Vec<String> {
    let (Some(value), Some(standard), Some(worst)) =
        (number(result, "value"), number(result, "standard"), number(result, "worst"))
    else {
        return vec!["This result does not exist for this job.".to_owned()];
    };
    let mm = |value| small(value, "mm", unit);
    let mut all = vec![
        format!("As told: {}.", mm(value)),
        format!("Root of squares: ± {} (two standard uncertainties).", mm(2.0 * standard)),
        format!("Everything at its worst together: ± {}.", mm(worst)),
    ];
    if let Some(drawn) = result.get("drawn").filter(|drawn| drawn.is_object()) {
        let (low, high) = (number(drawn, "low").unwrap_or(0.0), number(drawn, "high").unwrap_or(0.0));
        all.push(format!(
            "Drawn {} times (seed {}): 95 % lie from {} to {}; {} keep the limit.",
            trimmed(number(answer, "runs").unwrap_or(0.0), 0),
            trimmed(number(answer, "seed").unwrap_or(0.0), 0),
            mm(low),
            mm(high),
            per_cent(number(drawn, "kept").unwrap_or(0.0)),
        ));
    }
    all
}

fn share_line(answer: &Value, share: &Value, unit: LengthUnit) -> Option<ShareLine> {
    let setting = named(answer, "settings", text(share, "setting"))?;
    let of = text(setting, "unit");
    let (half, worst) = (number(setting, "half_width")?, number(share, "worst")?);
    let alone = deep(share, &["hold", "by_squares"]).and_then(json_number);
    Some(ShareLine {
        name: capital(text(setting, "name")),
        part: number(share, "part")?,
        gives: format!("± {} gives ± {}", small(half, of, unit), small(worst, "mm", unit)),
        hold: alone.map_or_else(String::new, |hold| format!("hold to ± {}", small(hold, of, unit))),
    })
}

/// Every setting that can be off.
pub fn settings(answer: &Value) -> Vec<SettingLine> {
    let line = |one: &Value| SettingLine {
        id: text(one, "id").to_owned(),
        name: capital(text(one, "name")),
        unit: text(one, "unit").to_owned(),
        half_width: number(one, "half_width").unwrap_or(0.0),
        source: text(one, "source").to_owned(),
    };
    list(answer, "settings").map(line).collect()
}

/// What moves when the touched figure grows by one of its unit: names, and by how much.
pub fn moves(answer: &Value, touched_is_angle: bool, unit: LengthUnit) -> Vec<(String, String)> {
    let of_inch = show::in_unit(1.0, unit);
    let line = |one: &Value| {
        let id = text(one, "id");
        let per_unit = number(one, "per_unit").unwrap_or(0.0);
        let is_angle = id.ends_with("_deg");
        let (grown, touched) =
            (if is_angle { 1.0 } else { of_inch }, if touched_is_angle { 1.0 } else { of_inch });
        let per_unit = per_unit * grown / touched;
        let sign = if per_unit < 0.0 { "−" } else { "+" };
        let amount = trimmed(per_unit.abs(), 3);
        (
            moved_name(id),
            if is_angle {
                format!("{sign}{amount}°")
            } else {
                format!("{sign}{amount} {}", show::sign(unit))
            },
        )
    };
    list(answer, "moves").map(line).collect()
}

/// `chainstays.right.front.dro_along_mm` as the trade says it.
fn moved_name(id: &str) -> String {
    let (place, key) = id.rsplit_once('.').unwrap_or(("", id));
    let what = match key.strip_suffix("_mm").or_else(|| key.strip_suffix("_deg")).unwrap_or(key) {
        "dro_along" => "along the table",
        "dro_across" => "across the table",
        "axis_station" => "axes nearest at",
        "right" => "right axis",
        "left" => "left axis",
        other => return format!("{}, {}", capital(&place_name(place)), other.replace('_', " ")),
    };
    format!("{}, {what}", capital(&place_name(place)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;
    use staywright::check::check_json;

    fn answer(more: &Value) -> Value {
        let mut question = json!({ "job": { "format": 1 }, "runs": 200 });
        for (key, value) in more.as_object().into_iter().flatten() {
            if let Some(keys) = question.as_object_mut() {
                keys.insert(key.clone(), value.clone());
            }
        }
        serde_json::from_str(&check_json(&question.to_string())).unwrap_or_default()
    }

    #[test]
    fn without_readings_nothing_is_found_but_errors_carry() {
        let answer = answer(&json!({}));
        assert_eq!(found(&answer, LengthUnit::Millimetre), None);
        let carry = carry(&answer, "off-centre", LengthUnit::Millimetre).unwrap_or_default();
        assert_eq!(carry.totals.len(), 4);
        assert!(carry.shares.len() > 4 && carry.shares.iter().all(|share| share.gives.contains("gives ±")));
        assert!(settings(&answer).len() > 10);
        assert!(results(&answer).len() > 6);
    }

    #[test]
    fn a_long_stay_is_told_to_be_trimmed() {
        let plain = answer(&json!({}));
        let mut readings = serde_json::Map::new();
        for figure in list(&plain, "figures") {
            let long =
                text(figure, "id").starts_with("chainstays.right.") && !text(figure, "id").contains("angle");
            let more = if long && !text(figure, "id").contains("dropout") { 3.0 } else { 0.0 };
            readings.insert(
                text(figure, "id").to_owned(),
                json!(number(figure, "nominal").unwrap_or(0.0) + more),
            );
        }
        let answer = answer(&json!({ "readings": readings }));
        let found = found(&answer, LengthUnit::Millimetre).unwrap_or_default();
        assert!(
            found.mends.iter().any(|mend| mend.contains("off the right chainstay, front end")),
            "{:?}",
            found.mends
        );
        assert!(found.results.iter().any(|one| one.verdict == "out"));
    }

    #[test]
    fn what_moves_is_named_in_the_trades_words() {
        assert_eq!(
            moved_name("chainstays.right.front.dro_along_mm"),
            "Right chainstay, front end, along the table"
        );
        assert_eq!(moved_name("seatstays.slide_mm"), "Seat stays, slide");
        let answer = answer(&json!({ "touched": "frame.bb_drop_mm" }));
        let by_mm = moves(&answer, false, LengthUnit::Millimetre);
        let by_inch = moves(&answer, false, LengthUnit::Inch);
        let slide = |list: &[(String, String)]| {
            list.iter()
                .find(|(name, _)| name == "Seat stays, slide")
                .map(|(_, by)| by.replace(" mm", "").replace(" in", ""))
        };
        assert!(slide(&by_mm).is_some());
        assert_eq!(slide(&by_mm), slide(&by_inch));
    }
}
