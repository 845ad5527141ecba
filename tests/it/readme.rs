//! The README's table of job keys says what the code does.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test may fail")]

use staywright::model::shop::{Metal, Shop, Speeds, Sure};
use staywright::model::{
    Bend, Bends, Boss, Butt, Butts, Columns, Cope, End, EndKind, Group, Job, Member, Ovals, PairName, Press,
    Side, Slot, Surroundings, Tube,
};
use staywright::units::{CuttingSpeed, Length, SpindleSpeed, trimmed};
use std::collections::BTreeMap;

/// One row: key, meaning, unit, default, range.
type Row = [String; 5];

/// `chainstays.right.tube.wall_mm` as the table writes it, with the stay left out.
fn table_key(path: &str) -> String {
    let parts: Vec<&str> = path.split('.').collect();
    match parts.as_slice() {
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
    .to_vec()
}

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
            let start = match spec.key {
                "cutter_mm" | "measured_width_mm" => "none".to_owned(),
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
                spec.unit.to_owned(),
                seen.join(" / "),
                spec.bounds.to_string(),
            ];
            rows.insert(key, row);
        });
    }
    rows
}

/// The rows of the README whose first cell is a key with a unit in its name.
fn from_readme() -> BTreeMap<String, Row> {
    rows_of(&README[..README.find(SHOP).unwrap()])
}

const README: &str = include_str!("../../README.md");

/// Where the README turns from the job to the shop.
const SHOP: &str = "\n## The shop\n";

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

#[test]
fn the_key_table_is_what_the_code_reads() {
    let (code, readme) = (from_code(), from_readme());
    let missing = code.iter().filter(|(key, row)| readme.get(*key) != Some(row));
    let missing: Vec<String> = missing.map(|(_, row)| format!("| {} |", row.join(" | "))).collect();
    assert!(missing.is_empty(), "\nthe README needs:\n{}\n", missing.join("\n"));
    let extra: Vec<_> = readme.keys().filter(|key| !code.contains_key(*key)).collect();
    assert!(extra.is_empty(), "not read by the code: {extra:?}");
}

#[test]
fn the_kinds_of_end_are_all_named() {
    let text = include_str!("../../README.md");
    for kind in EndKind::ALL {
        assert!(text.contains(&format!("\"kind\": \"{}\"", kind.key())), "{}", kind.key());
    }
}

/// What the code says of a shop, by key; every choice that brings figures of its own gets its turn.
fn shop_from_code() -> BTreeMap<String, Row> {
    let first = Shop::default();
    let mut other =
        Shop { own_speeds: vec![(Metal::ChromeMoly, CuttingSpeed::from_m_per_min(20.0))], ..Shop::default() };
    other.hole_saws.iter_mut().for_each(|saw| saw.cutting = Some(saw.size.nominal));
    other.mill.speeds = Speeds::Steps(vec![SpindleSpeed::from_rpm(80.0)]);
    let job_keys: Vec<String> = from_readme().into_keys().collect();
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
            let unit = if spec.unit.is_empty() { "—" } else { spec.unit };
            let row =
                [format!("`{key}`"), spec.name.to_owned(), unit.to_owned(), start, spec.bounds.to_string()];
            rows.insert(key, row);
        });
    }
    rows
}

#[test]
fn the_shops_key_table_is_what_the_code_reads() {
    let (code, readme) = (shop_from_code(), rows_of(&README[README.find(SHOP).unwrap()..]));
    let missing: Vec<String> = code
        .iter()
        .filter(|(key, row)| readme.get(*key) != Some(row))
        .map(|(_, row)| format!("| {} |", row.join(" | ")))
        .collect();
    assert!(missing.is_empty(), "the README needs:\n{}", missing.join("\n"));
    let extra: Vec<_> = readme.keys().filter(|key| !code.contains_key(*key)).collect();
    assert!(extra.is_empty(), "not read by the code: {extra:?}");
}

#[test]
fn the_words_of_a_shop_are_all_named() {
    let shop = &README[README.find(SHOP).unwrap()..];
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
        assert!(shop.contains(word), "{word}");
    }
}
