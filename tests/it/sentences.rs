//! What a person reads when something is wrong: all faults at once, each with its field, its value and what would do.

use staywright::ask::{Answer, Question, Responder, Response};
use staywright::files::plan_json;
use staywright::link;
use staywright::model::Job;
use staywright::placement::plan;
use staywright::text::{English, Style, fault};
use staywright::units::LengthUnit;

fn faults(file: &str) -> Vec<String> {
    match Job::from_json(file).and_then(|job| plan(&job)) {
        Ok(_) => Vec::new(),
        Err(faults) => faults.iter().map(|one| fault(one, Style::FILE)).collect(),
    }
}

/// A sentence has lengths in the reader's unit alone, in its English, and no number that nobody reads.
pub fn check_style(sentence: &str, style: Style) {
    let words = || sentence.split(|c: char| !c.is_alphanumeric() && c != '/');
    // The preposition is no unit: an inch follows a number.
    let pairs: Vec<(&str, &str)> = words().zip(words().skip(1)).collect();
    let is_number = |word: &str| word.chars().all(|c| c.is_ascii_digit()) && !word.is_empty();
    let has = |unit: &str| pairs.iter().any(|(number, word)| is_number(number) && *word == unit);
    match style.unit {
        LengthUnit::Inch => assert!(!words().any(|word| word == "mm"), "millimetres in inches: {sentence}"),
        LengthUnit::Millimetre => assert!(!has("in"), "inches in millimetres: {sentence}"),
    }
    let foreign: &[&str] = match style.english {
        English::American => &["tyre", "mitre", "mitred", "centre", "centred", "metre", "colour"],
        English::British => &["tire", "miter", "mitered", "center", "centered", "meter", "color"],
    };
    let lower = sentence.to_lowercase();
    let found = lower.split(|c: char| !c.is_alphabetic()).find(|word| foreign.contains(word));
    assert_eq!(found, None, "{:?}: {sentence}", style.english);
    assert!(!sentence.contains("NaN") && !sentence.contains("inf "), "{sentence}");
}

fn check(file: &str, expected: &[&str]) {
    assert_eq!(faults(file), expected, "{file}");
}

#[test]
fn figures_outside_their_range() {
    check(
        r#"{"format":1,"frame":{"chainstay_length_mm":1200,"seat_angle_deg":12.5},"edge_finder_mm":-1}"#,
        &[
            "frame.chainstay_length_mm: chainstay length 1200 mm is outside 250 to 800 mm",
            "frame.seat_angle_deg: seat angle 12.5° is outside 45 to 90°",
            "edge_finder_mm: edge finder diameter −1 mm is outside 0 to 50 mm",
        ],
    );
}

#[test]
fn figures_and_ranges_are_said_in_the_unit_of_the_reader() {
    let style = Style { unit: LengthUnit::Inch, english: English::American };
    let file = r#"{"format":1,"frame":{"chainstay_length_mm":1270,"seat_angle_deg":12.5},"wheel":{"tyre_width_mm":1},
        "fixture":{"slide_min_mm":508,"slide_max_mm":254}}"#;
    let faults = Job::from_json(file).unwrap_err();
    let said: Vec<String> = faults.iter().map(|one| fault(one, style)).collect();
    // 250 / 25.4 = 9.84252, 800 / 25.4 = 31.49606, 10 / 25.4 = 0.39370, 150 / 25.4 = 5.90551; rounded inwards.
    assert_eq!(
        said,
        [
            "frame.chainstay_length_mm: chainstay length 50 in is outside 9.843 to 31.496 in",
            "frame.seat_angle_deg: seat angle 12.5° is outside 45 to 90°",
            "wheel.tyre_width_mm: tire width 0.0394 in is outside 0.394 to 5.905 in",
            "fixture.slide_max_mm: slide maximum 10 in must be at least slide minimum 20 in",
        ]
    );
}

#[test]
fn keys_that_are_not_known_and_values_of_the_wrong_kind() {
    check(
        r#"{"format":1,"frame":{"chainstay_lenght_mm":430,"bb_drop_mm":"70"},"wheel":[],"colour":"red"}"#,
        &[
            "frame.bb_drop_mm: a number from −200 to 200 mm belongs here, not “70”",
            "frame.chainstay_lenght_mm: unknown key; known here: chainstay_length_mm, bb_drop_mm, seat_angle_deg, \
             seat_tube_setback_mm, seat_tube_od_mm, shell_od_mm, shell_width_mm, axle_spacing_mm, axle_offset_mm",
            "wheel: an object { … } belongs here, not a list of 0",
            "colour: unknown key; known here: format, name, notes, frame, wheel, fixture, edge_finder_mm, \
             surroundings, dropouts, chainstays, seatstays",
        ],
    );
}

#[test]
fn figures_that_do_not_go_together() {
    check(
        r#"{"format":1,"chainstays":{"right":{"tube":{"taper_start_mm":300,"taper_end_mm":200,"wall_mm":9}}},
            "fixture":{"slide_min_mm":400,"slide_max_mm":300}}"#,
        &[
            "fixture.slide_max_mm: slide maximum 300 mm must be at least slide minimum 400 mm",
            "chainstays.right.tube.taper_end_mm: taper end 200 mm must lie behind taper start 300 mm",
            "chainstays.right.tube.wall_mm: wall 9 mm leaves no bore in a tube of 16 mm: less than 8 mm is needed",
        ],
    );
}

#[test]
fn a_figure_out_of_its_range_is_set_against_no_other() {
    check(
        r#"{"format":1,"frame":{"chainstay_length_mm":-1e308},"fixture":{"slide_min_mm":1e20,"slide_max_mm":300},
            "chainstays":{"right":{"tube":{"od_front_mm":-5,"wall_mm":9,"taper_end_mm":-2}}}}"#,
        &[
            "frame.chainstay_length_mm: chainstay length −1e308 mm is outside 250 to 800 mm",
            "chainstays.right.tube.od_front_mm: front diameter −5 mm is outside 4 to 100 mm",
            "chainstays.right.tube.taper_end_mm: taper end −2 mm is outside 0 to 1200 mm",
            "fixture.slide_min_mm: slide minimum 1e20 mm is outside 0 to 2000 mm",
        ],
    );
}

#[test]
fn ends_that_make_no_sense() {
    check(
        r#"{"format":1,"chainstays":{"right":{"front":{"end":{"kind":"slot"}},"rear":{"end":{"kind":"cope","onto":"shell"}}}}}"#,
        &[
            "chainstays.right.front.end.kind: a slot holds a dropout plate, at the rear end only: a front end can be cope or square",
            "chainstays.right.rear.end.kind: a rear end meets no shell or seat tube: it can be boss, slot or square",
        ],
    );
    check(
        r#"{"format":1,"seatstays":{"right":{"front":{"end":{"kind":"glue"}}}}}"#,
        &["seatstays.right.front.end.kind: must be one of: cope, boss, slot, square; “glue” is none of them"],
    );
}

#[test]
fn stays_that_are_too_short_to_lay() {
    check(
        r#"{"format":1,"frame":{"chainstay_length_mm":250,"bb_drop_mm":200},"chainstays":{"right":{"rear":{"reach_mm":200}}},
            "seatstays":{"right":{"rear":{"reach_mm":180}}}}"#,
        &[],
    );
    check(
        r#"{"format":1,"frame":{"chainstay_length_mm":250,"bb_drop_mm":0,"seat_angle_deg":90,"seat_tube_setback_mm":150},
            "seatstays":{"front_station_mm":50,"right":{"rear":{"reach_mm":110}}}}"#,
        &[
            "seatstays.right.rear.reach_mm: the way from axle to stay end leaves 1.8 mm of stay: at least 20 mm is needed",
        ],
    );
}

#[test]
fn texts_that_are_no_job() {
    check("", &["it is empty"]);
    check("[]", &["an object { … } belongs here, not a list of 0"]);
    check("{}", &["format: the format is missing; write \"format\": 1"]);
    check(r#"{"format":2}"#, &["format: this version reads job format 1, not 2"]);
    check(r#"{"format":1.0}"#, &[]);
    check(r#"{"format":"1"}"#, &["format: this version reads job format 1, not “1”"]);
    let answer: serde_json::Value = serde_json::from_str(&plan_json("{")).unwrap();
    assert_eq!(answer["errors"][0]["value"], "{");
}

/// Read after “This link cannot be opened: ”.
#[test]
fn texts_that_are_no_link() {
    let why = |text: &str| link::decode(text).map(|_| ()).unwrap_err().to_string();
    assert_eq!(why(""), "there is no job in it");
    assert_eq!(why("AAAA"), "part of it is missing or changed; copy it again from where it was sent");
    assert_eq!(why(&"A".repeat(1_000_000)), "it is too long to hold a job");
}

#[test]
fn files_that_are_not_opened() {
    let why = |text: &str| match ask(&Question::Open(text.to_owned())) {
        Answer::Refused(why) => why,
        other => panic!("{other:?}"),
    };
    assert_eq!(
        why(r#"{"format":1,"frame":{"chainstay_length_mm":1200,"seat_angle_deg":12.5},"edge_finder_mm":-1}"#),
        "The job file was not opened: it has 3 faults. Nothing was changed.\n\
         frame.chainstay_length_mm: chainstay length 1200 mm is outside 250 to 800 mm.\n\
         frame.seat_angle_deg: seat angle 12.5° is outside 45 to 90°.\n\
         edge_finder_mm: edge finder diameter −1 mm is outside 0 to 50 mm."
    );
    assert_eq!(
        why(r#"{"format":1,"frame":{"chainstay_length_mm":1200},"wheel":[]}"#),
        "The job file was not opened: it has 2 faults. Nothing was changed.\n\
         wheel: an object { … } belongs here, not a list of 0.\n\
         frame.chainstay_length_mm: chainstay length 1200 mm is outside 250 to 800 mm."
    );
    let refused = |words: &str| format!("The job file was not opened: {words}. Nothing was changed.");
    assert_eq!(
        why("["),
        refused("it is not a job file: it cannot be read as JSON from line 1, character 1 on")
    );
    assert_eq!(why(" \n"), refused("it is empty"));
    assert_eq!(why(r#"{"format":1,"name":7}"#), refused("at name, a text belongs here, not 7"));
    let many = format!(
        r#"{{"format":1,"frame":{{{}}}}}"#,
        (0..20).map(|i| format!(r#""k{i}":0"#)).collect::<Vec<_>>().join(",")
    );
    assert!(why(&many).ends_with("\nAnd 8 more."), "{}", why(&many));
}

fn ask(question: &Question) -> Answer {
    Response::from_bytes(&Responder::default().respond(&question.to_bytes())).unwrap().answer
}
