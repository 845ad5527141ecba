//! The house rules that a machine can keep: which layer may use which, and where some words may stand.

use std::fs;
use std::path::{Path, PathBuf};

/// The layers and what each may use of the library.
const LAYERS: [(&str, &[&str]); 15] = [
    ("units", &[]),
    ("geometry", &["units"]),
    ("model", &["units"]),
    ("plan", &["units", "geometry", "model"]),
    ("clearance", &["units", "geometry", "model", "plan"]),
    ("placement", &["units", "geometry", "model", "plan", "clearance"]),
    ("tolerance", &["units", "geometry", "model", "plan", "placement"]),
    ("machining", &["units", "geometry", "model", "plan"]),
    ("procedure", &["units", "geometry", "model", "plan", "machining"]),
    ("findings", &["units", "model", "plan", "clearance", "tolerance", "machining", "procedure"]),
    (
        "text",
        &[
            "units",
            "model",
            "plan",
            "clearance",
            "placement",
            "tolerance",
            "machining",
            "procedure",
            "findings",
        ],
    ),
    ("files", &["units", "model", "plan", "clearance", "placement", "tolerance", "findings", "text"]),
    ("drawing", &["units", "geometry", "model", "plan", "clearance"]),
    ("link", &["units", "model"]),
    (
        "ask",
        &[
            "units",
            "model",
            "plan",
            "clearance",
            "placement",
            "tolerance",
            "machining",
            "procedure",
            "findings",
            "text",
            "drawing",
            "link",
        ],
    ),
];

/// Rooms whose files do not import each other in circles.
const WITHOUT_CIRCLES: &[&str] = &[
    "units",
    "model",
    "model/shop",
    "plan",
    "clearance",
    "placement",
    "drawing/scene",
    "link",
    "link/equipment",
];

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("src")
}

/// Every Rust file below `folder`, with its text.
fn sources(folder: &Path) -> Vec<(PathBuf, String)> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(sources(&path));
        } else if path.extension().is_some_and(|end| end == "rs") {
            let text = fs::read_to_string(&path).unwrap();
            found.push((path, text));
        }
    }
    found
}

/// The names that follow `crate::` in a text.
fn used(text: &str) -> Vec<String> {
    let word = |rest: &str| rest.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect::<String>();
    text.split("crate::").skip(1).map(word).filter(|word| !word.is_empty()).collect()
}

#[test]
fn arrows_run_down_only() {
    for (layer, allowed) in LAYERS {
        for (path, text) in sources(&root().join(layer)) {
            for name in used(&text) {
                let known = LAYERS.iter().any(|(other, _)| *other == name);
                let fine = !known || name == layer || allowed.contains(&name.as_str());
                assert!(fine, "{} uses {name}", path.display());
            }
        }
    }
}

/// A folder's files with the files beside them that each takes from: `super::x` in `folder/x.rs`.
fn imports(folder: &Path) -> Vec<(String, Vec<String>)> {
    let name = |path: &Path| path.file_stem().unwrap().to_string_lossy().into_owned();
    let files = || fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let sources = || files().filter(|path| path.extension().is_some_and(|end| end == "rs"));
    let all: Vec<String> = sources().map(|path| name(&path)).collect();
    let taken = |path: PathBuf| {
        let text = fs::read_to_string(&path).unwrap();
        // What the tests at a file's end take is no arrow between rooms.
        let product = text.split("#[cfg(test)]").next().unwrap().to_owned();
        let from = product.split("super::").skip(1).flat_map(first_names);
        (name(&path), from.filter(|other| all.contains(other)).collect())
    };
    sources().filter(|path| name(path) != "mod").map(taken).collect()
}

/// The first name of each path that begins a text: `a::b` has `a`, `{a::b, c}` has both.
fn first_names(text: &str) -> Vec<String> {
    let word = |part: &str| part.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect::<String>();
    match text.strip_prefix('{') {
        None => vec![word(text)],
        Some(list) => list.split('}').next().unwrap().split(',').map(|part| word(part.trim())).collect(),
    }
}

/// The files that are left once all that take from none of these are taken away, again and again: those of circles, and those that
/// take from them.
fn circular(mut files: Vec<(String, Vec<String>)>) -> Vec<String> {
    loop {
        let left: Vec<String> = files.iter().map(|(name, _)| name.clone()).collect();
        files.retain(|(name, from)| from.iter().any(|other| other != name && left.contains(other)));
        if files.len() == left.len() {
            return left;
        }
    }
}

#[test]
fn no_file_takes_from_one_that_takes_from_it() {
    for room in WITHOUT_CIRCLES {
        assert_eq!(circular(imports(&root().join(room))), Vec::<String>::new(), "circles in {room}");
    }
}

#[test]
fn a_circle_of_files_is_seen() {
    let files = |all: &[(&str, &[&str])]| {
        all.iter()
            .map(|(name, from)| (name.to_string(), from.iter().map(ToString::to_string).collect()))
            .collect()
    };
    assert!(circular(files(&[("a", &["b", "c"]), ("b", &["c"]), ("c", &[])])).is_empty());
    assert_eq!(circular(files(&[("a", &["b"]), ("b", &["c"]), ("c", &["b"]), ("d", &[])])), ["a", "b", "c"]);
    assert_eq!(first_names("lay::lay;"), ["lay"]);
    assert_eq!(first_names("{lay::lay, tips};"), ["lay", "tips"]);
}

#[test]
fn no_trade_word_in_the_geometry() {
    let words = [
        "stay",
        "shell",
        "tyre",
        "dropout",
        "fixture",
        "spindle of",
        "saw",
        "chainring",
        "weld",
        "braze",
        "mill",
    ];
    for (path, text) in sources(&root().join("geometry")) {
        let text = text.to_lowercase();
        for word in words {
            let stands_alone = text.split(|c: char| !c.is_alphabetic()).any(|found| found == word);
            assert!(!stands_alone, "{}: {word}", path.display());
        }
    }
}

#[test]
fn the_browser_is_spoken_to_in_one_room_only() {
    for (path, text) in sources(&root()) {
        let in_room = path.components().any(|part| part.as_os_str() == "browser");
        assert!(in_room || !text.contains("web_sys::"), "{}", path.display());
    }
}

#[test]
fn no_trigonometry_in_a_view() {
    for (path, text) in sources(&root().join("page/views")) {
        for word in [".sin()", ".cos()", ".tan()", "sin_cos", "atan2", ".asin()", ".acos()"] {
            assert!(!text.contains(word), "{}: {word}", path.display());
        }
    }
}

#[test]
fn nothing_below_the_page_reads_a_clock_a_store_or_chance() {
    for (layer, _) in LAYERS {
        for (path, text) in sources(&root().join(layer)) {
            for word in ["std::time", "SystemTime", "Instant", "std::fs", "std::env", "println!"] {
                assert!(!text.contains(word), "{}: {word}", path.display());
            }
            // Drawn errors follow from a seed that the caller states.
            for word in ["rand::random", "rand::rng", "thread_rng", "Rng::new", "Rng::default", "getrandom"] {
                assert!(!text.contains(word), "{}: {word}", path.display());
            }
        }
    }
}

#[test]
fn every_file_says_what_it_is() {
    for (path, text) in sources(&root()) {
        assert!(text.starts_with("//! "), "{}", path.display());
    }
}

#[test]
fn no_file_holds_two_ideas_worth_of_lines() {
    for (path, text) in sources(&root()) {
        assert!(text.lines().count() <= 500, "{}", path.display());
    }
}
