//! Job files: there and back, and any text gives a job or its faults.

use crate::support;

use proptest::prelude::*;
use serde_json::Value;
use staywright::files::plan_json;
use staywright::model::Job;

proptest! {
    #[test]
    fn a_job_comes_back_from_its_file(job in support::any_job()) {
        let text = job.to_json().to_string();
        if job.faults().is_empty() {
            prop_assert_eq!(Job::from_json(&text), Ok(job));
        } else {
            // The same faults, read from the file.
            let read: Vec<_> = Job::from_json(&text).unwrap_err();
            prop_assert_eq!(read, job.faults());
        }
    }

    #[test]
    fn any_text_gives_json(text in "(?s).{0,200}") {
        prop_assert!(serde_json::from_str::<Value>(&plan_json(&text)).is_ok());
    }

    /// A good file with one value replaced by anything.
    #[test]
    fn a_spoilt_file_gives_a_plan_or_faults(at in 0usize..200, pick in 0usize..12) {
        let mut file = Job::default().to_json();
        let odd = [
            "null", "true", "\"x\"", "[]", "{}", "-1e308", "1e308", "1e-320", "0", "[1,2,3]", "{\"a\":1}", "99999999999999999999",
        ];
        spoil(&mut file, at, &serde_json::from_str(odd[pick]).unwrap());
        let answer: Value = serde_json::from_str(&plan_json(&file.to_string())).unwrap();
        prop_assert!(answer.get("errors").is_some() != answer.get("pairs").is_some());
        for (path, number) in support::numbers(&answer) {
            prop_assert!(number.is_finite(), "{path}");
        }
    }
}

/// Replaces the `at`th value, counted round and round.
fn spoil(file: &mut Value, at: usize, with: &Value) {
    let mut paths = Vec::new();
    pointers("", file, &mut paths);
    let path = &paths[at % paths.len()];
    *file.pointer_mut(path).unwrap() = with.clone();
}

fn pointers(at: &str, value: &Value, found: &mut Vec<String>) {
    found.push(at.to_owned());
    match value {
        Value::Object(map) => {
            map.iter().for_each(|(key, item)| pointers(&format!("{at}/{key}"), item, found))
        }
        Value::Array(items) => {
            items.iter().enumerate().for_each(|(i, item)| pointers(&format!("{at}/{i}"), item, found))
        }
        _ => {}
    }
}

#[test]
fn a_file_with_nothing_but_its_format_is_the_starting_job() {
    assert_eq!(Job::from_json(r#"{"format":1}"#), Ok(Job::default()));
}

#[test]
fn a_left_stay_takes_from_the_right_what_it_leaves_out() {
    let job = Job::from_json(
        r#"{"format":1,"chainstays":{"right":{"tube":{"wall_mm":0.9},"front":{"end":{"kind":"cope","cutter_mm":38}}},
            "left":{"front":{"half_spacing_mm":23}}}}"#,
    )
    .unwrap();
    let left = job.chainstays.left.unwrap();
    assert_eq!(left.front.half_spacing.mm(), 23.0);
    assert_eq!(left.tube.wall.mm(), 0.9);
    assert_eq!(left.front_end, job.chainstays.right.front_end);
}

fn check(file: &str, expected: &[&str]) {
    let found: Vec<String> = Job::from_json(file)
        .unwrap_err()
        .iter()
        .map(|one| staywright::text::fault(one, staywright::text::Style::FILE))
        .collect();
    assert_eq!(found, expected);
}

/// A reader of values would keep the last one in silence.
#[test]
fn a_key_that_stands_twice_is_named() {
    check(
        r#"{"format":1,"chainstays":{"right":{"tube":{"wall_mm":0.9,"wall_mm":1.2}}},"name":"a","name":"a"}"#,
        &[
            "chainstays.right.tube.wall_mm: this key stands more than once here: leave one of them out",
            "name: this key stands more than once here: leave one of them out",
        ],
    );
}

#[test]
fn two_posts_in_one_place_are_named() {
    check(
        r#"{"format":1,"fixture":{"posts_u_mm":[60,330,60]}}"#,
        &["fixture.posts_u_mm[2]: another post stands at the same place"],
    );
}

#[test]
fn a_straight_tube_has_nothing_to_find() {
    let at =
        |find: &str| format!(r#"{{"format":1,"chainstays":{{"right":{{"tube":{{"find":"{find}"}}}}}}}}"#);
    check(&at("both"), &["chainstays.right.tube.find: a straight tube has nothing to find: leave it out"]);
    assert_eq!(Job::from_json(&at("nothing")), Ok(Job::default()));
    // A left stay that is straight beside a bent one takes over no wish either.
    let file = r#"{"format":1,"chainstays":{"right":{"tube":{"bends":[{}],"find":"both"}},"left":{"tube":{"bends":[]}}}}"#;
    assert!(Job::from_json(file).is_ok());
}
