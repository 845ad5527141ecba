//! The README's example and the manual's tables say what the code does.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test may fail")]

use serde_json::Value;
use staywright::model::shop::{Metal, Shop, Speeds, Sure};
use staywright::model::{
    Bend, Bends, Boss, Butt, Butts, Columns, Cope, Dropout, DropoutKind, End, EndKind, Group, Job, Member,
    Ovals, PairName, Press, Side, Slot, Surroundings, Tube, starting_job,
};
use staywright::placement::plan;
use staywright::units::{Angle, CuttingSpeed, Length, SpindleSpeed, trimmed};
use std::collections::BTreeMap;
use std::path::Path;

/// One row: key, meaning, unit, default, range.
type Row = [String; 5];

/// `chainstays.right.tube.wall_mm` as the table writes it, with the stay left out.
fn table_key(path: &str) -> String {
    let parts: Vec<&str> = path.split('.').collect();
    match parts.as_slice() {
        ["dropouts", "right", "chainstay" | "seatstay", rest @ ..] => {
            format!("DROPOUT.TAB.{}", rest.join("."))
        }
        ["dropouts", "right", rest @ ..] => format!("DROPOUT.{}", rest.join(".")),
        [_, "right", rest @ ..] => format!("SIDE.{}", rest.join(".")),
        _ => path.to_owned(),
    }
    .replace("[0]", "[]")
}

/// A job whose ends are of the given kinds, so that every figure there is gets its turn.
fn jobs() -> Vec<Job> {
    let cutter = Some(Length::from_mm(40.0));
    let rear = [End::Slot(Slot::default()), End::Boss(Boss::default())];
    rear.map(|rear_end| {
        let surroundings = Surroundings {
            measured_width: Some(Length::from_mm(0.0)),
            posts: Some(Columns::default()),
            ..Surroundings::starting()
        };
        let mut job = Job { surroundings: Some(surroundings), ..Job::default() };
        for name in PairName::ALL {
            let start = name.starting_side();
            let bends = Bends::of([Bend::default()]);
            let ovals = Ovals { list: [Press::default()].into_iter().collect() };
            let butts = Butts { list: [Butt::default()].into_iter().collect() };
            job.pair_mut(name).right = Side {
                front_end: End::Cope(Cope { onto: Member::Shell, cutter }),
                rear_end,
                tube: Tube { bends, butts, ovals, ..start.tube },
                ..start
            };
        }
        job
    })
    .into_iter()
    .chain(DropoutKind::ALL.map(|kind| starting_job().with_dropouts(kind_with_all(kind), None)))
    .collect()
}

/// A dropout with every figure that its kind may have.
fn kind_with_all(kind: DropoutKind) -> Dropout {
    let mut part = kind.plain();
    let none = Some(Angle::from_degrees(0.0));
    match &mut part {
        Dropout::Plate(part) => part.tabs = none,
        Dropout::Socket(part) => (part.tabs, part.chainstay.splay) = (none, none),
        Dropout::Round(_) => {}
    }
    part
}

/// Keys of a dropout that have no default.
const NEEDED: [&str; 7] = [
    "thickness_mm",
    "od_mm",
    "width_mm",
    "TAB.distance_mm",
    "TAB.depth_mm",
    "TAB.overhang_mm",
    "TAB.plug_od_mm",
];

/// What the code says, by key.
fn from_code() -> BTreeMap<String, Row> {
    let mut starts: BTreeMap<String, Vec<String>> = BTreeMap::new();
    let mut rows = BTreeMap::new();
    for job in jobs() {
        job.each("", &mut |path, spec, value| {
            if path.contains('[') && !path.contains("[0]") {
                return;
            }
            let key = table_key(path);
            let of_part = key.strip_prefix("DROPOUT.");
            if of_part.is_none() && path.starts_with("dropouts") == job.dropouts.is_none() {
                return;
            }
            let start = match spec.key {
                _ if of_part.is_some_and(|key| NEEDED.contains(&key)) => "needed".to_owned(),
                "cutter_mm" | "measured_width_mm" | "tabs_deg" | "splay_deg" => "none".to_owned(),
                "posts_u_mm" => "60, 330".to_owned(),
                _ => trimmed(value, 3),
            };
            let seen = starts.entry(key.clone()).or_default();
            if !seen.contains(&start) {
                seen.push(start);
            }
            let row = [
                format!("`{key}`"),
                spec.name.to_owned(),
                spec.unit().to_owned(),
                seen.join(" / "),
                spec.bounds.to_string(),
            ];
            rows.insert(key, row);
        });
    }
    rows
}

const README: &str = include_str!("../../README.md");
const JOB: &str = include_str!("../../src/manual/job.md");
const SHOP: &str = include_str!("../../src/manual/shop.md");

/// The rows of a page whose first cell is a key.
fn rows_of(text: &str) -> BTreeMap<String, Row> {
    let rows = text.lines().filter(|line| line.starts_with("| `") && line.split('|').count() == 7);
    rows.filter_map(|line| {
        let cells: Vec<String> =
            line.trim_matches('|').split('|').map(|cell| cell.trim().to_owned()).collect();
        let row: Row = cells.try_into().ok()?;
        Some((row.first()?.trim_matches('`').to_owned(), row))
    })
    .collect()
}

/// Holds the table of a manual page against the code. With `UPDATE_MANUAL` set in the environment, writes the page's table anew.
fn assert_table(page: &str, text: &str, code: &BTreeMap<String, Row>) {
    if std::env::var_os("UPDATE_MANUAL").is_some() {
        return write_table(page, text, code);
    }
    let written = rows_of(text);
    let missing = code.iter().filter(|(key, row)| written.get(*key) != Some(row));
    let missing: Vec<String> = missing.map(|(_, row)| format!("| {} |", row.join(" | "))).collect();
    assert!(missing.is_empty(), "\nsrc/manual/{page} needs:\n{}\n", missing.join("\n"));
    let extra: Vec<_> = written.keys().filter(|key| !code.contains_key(*key)).collect();
    assert!(extra.is_empty(), "not read by the code: {extra:?}");
}

fn write_table(page: &str, text: &str, code: &BTreeMap<String, Row>) {
    let head = "| key | meaning | unit | default | range |\n|---|---|---|---|---|\n";
    let (before, after) = text.split_once(head).unwrap();
    let rest = after.lines().skip_while(|line| line.starts_with('|'));
    let rows: String = code.values().map(|row| format!("| {} |\n", row.join(" | "))).collect();
    let rest: String = rest.map(|line| format!("{line}\n")).collect();
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/manual").join(page);
    std::fs::write(path, format!("{before}{head}{rows}{rest}")).unwrap();
}

#[test]
fn the_jobs_table_is_what_the_code_reads() {
    assert_table("job.md", JOB, &from_code());
}

/// The texts of a page's fenced blocks of JSON.
fn json_blocks(text: &str) -> Vec<Value> {
    let blocks = text.split("```json\n").skip(1);
    blocks.map(|block| serde_json::from_str(block.split("```").next().unwrap()).unwrap()).collect()
}

/// Everything that `part` says stands in `whole`, numbers as they are rounded to a hundredth.
fn assert_part(part: &Value, whole: &Value, at: &str) {
    match (part, whole) {
        (Value::Object(part), Value::Object(whole)) => {
            for (key, value) in part {
                assert_part(value, whole.get(key).unwrap_or(&Value::Null), &format!("{at}.{key}"));
            }
        }
        (Value::Number(part), Value::Number(whole)) => {
            let off = part.as_f64().unwrap() - whole.as_f64().unwrap();
            assert!(off.abs() <= 0.005, "{at}: {part} is written, {whole} is planned");
        }
        _ => assert_eq!(part, whole, "{at}"),
    }
}

#[test]
fn the_readmes_job_gives_the_readmes_plan() {
    let [job, said] = json_blocks(README).try_into().unwrap();
    let planned = plan(&Job::from_json(&job.to_string()).unwrap()).unwrap();
    let planned: Value = serde_json::from_str(&staywright::files::plan_text(&planned).unwrap()).unwrap();
    assert_part(&said, &planned["pairs"]["chainstays"], "chainstays");
    assert_eq!(planned["warnings"], Value::Array(Vec::new()));
}

#[test]
fn the_readme_stays_short_and_its_links_lead_somewhere() {
    assert!(README.lines().count() <= 150);
    for link in README.split("](").skip(1).filter_map(|rest| rest.split(')').next()) {
        assert!(Path::new(env!("CARGO_MANIFEST_DIR")).join(link).exists(), "{link}");
    }
}

#[test]
fn the_kinds_of_end_are_all_named() {
    for kind in EndKind::ALL {
        assert!(JOB.contains(&format!("\"kind\": \"{}\"", kind.key())), "{}", kind.key());
    }
}

/// What the code says of a shop, by key; every choice that brings figures of its own gets its turn.
fn shop_from_code() -> BTreeMap<String, Row> {
    let first = Shop::default();
    let mut other =
        Shop { own_speeds: vec![(Metal::ChromeMoly, CuttingSpeed::from_m_per_min(20.0))], ..Shop::default() };
    other.hole_saws.iter_mut().for_each(|saw| saw.cutting = Some(saw.size.nominal));
    other.mill.speeds = Speeds::Steps(vec![SpindleSpeed::from_rpm(80.0)]);
    let job_keys: Vec<String> = from_code().into_keys().collect();
    let listed = ["hole_saws[]", "slitting_saws[]", "end_mills[]", "processes[]"];
    let mut rows = BTreeMap::new();
    for shop in [other, first] {
        shop.each(&mut |path, spec, value| {
            let key = path.replace("[0]", "[]").replace(".chrome_moly", ".METAL");
            let key = key
                .replace("mill.x.", "mill.AXIS.")
                .replace(".slide.", ".LENGTH.")
                .replace(".tilt.", ".ANGLE.");
            let again = ["mill.y", "mill.z", "axle_height.", "half_spacing.", "swivel."]
                .iter()
                .any(|word| key.contains(word));
            // Later entries of a list and figures that are a job's too.
            if key.contains(|c: char| c.is_ascii_digit()) || again || job_keys.contains(&key) {
                return;
            }
            let varies = listed.iter().any(|list| key.starts_with(list));
            let optional = [".cutting_mm", "speeds_rpm[]", ".METAL"].iter().any(|end| key.ends_with(end));
            let start = if varies || optional { "—".to_owned() } else { trimmed(value, 3) };
            let unit = if spec.unit().is_empty() { "—" } else { spec.unit() };
            let row =
                [format!("`{key}`"), spec.name.to_owned(), unit.to_owned(), start, spec.bounds.to_string()];
            rows.insert(key, row);
        });
    }
    rows
}

#[test]
fn the_shops_table_is_what_the_code_reads() {
    assert_table("shop.md", SHOP, &shop_from_code());
}

#[test]
fn the_words_of_a_shop_are_all_named() {
    let metals = Metal::ALL.map(Metal::key);
    let sure = Sure::ALL.map(Sure::key);
    for word in metals.iter().chain(&sure).chain(&[
        "rises",
        "falls",
        "vertical",
        "horizontal",
        "plus",
        "minus",
        "vise",
        "table",
    ]) {
        assert!(SHOP.contains(word), "{word}");
    }
}
