//! Questions and answers about errors and finished stays: what is asked comes back, and any text gives an answer.

use proptest::prelude::*;
use serde_json::{Value, json};
use staywright::files::{check_json, worked_json};
use staywright::model::{Hand, PairName};
use staywright::tolerance::{Place, SettingKind};

fn ask(question: &Value) -> Value {
    serde_json::from_str(&check_json(&question.to_string())).unwrap()
}

fn by_id<'a>(list: &'a Value, id: &str) -> &'a Value {
    list.as_array().unwrap().iter().find(|one| one["id"] == id).unwrap_or_else(|| panic!("no {id}"))
}

#[test]
fn a_question_about_errors_names_settings_and_results() {
    let answer = ask(&json!({ "job": { "format": 1 }, "runs": 500, "seed": 7 }));
    let centre = by_id(&answer["results"], "off-centre");
    assert_eq!(centre["value"], 0.0);
    let shares = centre["shares"].as_array().unwrap();
    let parts: f64 = shares.iter().map(|share| share["part"].as_f64().unwrap()).sum();
    assert!((parts - 1.0).abs() < 1e-9, "{parts}");
    for share in shares {
        by_id(&answer["settings"], share["setting"].as_str().unwrap());
    }
    let (standard, worst) = (centre["standard"].as_f64().unwrap(), centre["worst"].as_f64().unwrap());
    assert!(0.0 < standard && standard < worst);
    let width = (centre["drawn"]["high"].as_f64().unwrap() - centre["drawn"]["low"].as_f64().unwrap()) / 2.0;
    // A sum of many like errors is nearly normal: 95 of 100 lie within 1.96 of its standard deviations (JCGM 100, G.1.3).
    assert!((width / standard - 1.96).abs() < 0.25, "{width} {standard}");
}

#[test]
fn what_the_builder_tells_is_taken() {
    let plain = ask(&json!({ "job": { "format": 1 } }));
    let largest = plain["results"][0]["shares"][0]["setting"].as_str().unwrap().to_owned();
    let told = json!({ "job": { "format": 1 }, "spreads": { &largest: 0.0 }, "limits": { "off-centre": 0.25 },
                       "learned": { &largest: 0.3 } });
    let told = ask(&told);
    assert_eq!(by_id(&told["settings"], &largest)["half_width"], 0.0);
    assert_eq!(by_id(&told["settings"], &largest)["off"], 0.3);
    assert_eq!(told["results"][0]["limit"], 0.25);
    let slope = plain["results"][0]["shares"][0]["per_unit"].as_f64().unwrap();
    let value = told["results"][0]["value"].as_f64().unwrap();
    assert!((value - 0.3 * slope).abs() < 0.01 * value.abs(), "{value} {slope}");
}

#[test]
fn readings_give_a_verdict_and_a_mend() {
    let plain = ask(&json!({ "job": { "format": 1 } }));
    assert_eq!(plain["found"], Value::Null);
    let mut readings = serde_json::Map::new();
    for figure in plain["figures"].as_array().unwrap() {
        readings.insert(figure["id"].as_str().unwrap().to_owned(), figure["nominal"].clone());
    }
    let good = ask(&json!({ "job": { "format": 1 }, "readings": readings }));
    for result in good["found"]["results"].as_array().unwrap().iter().take(7) {
        assert!(result["value"].as_f64().unwrap().abs() < 1e-9, "{result}");
        // Readings as good as a shop's leave some doubt about what hangs on angles.
        assert!(result["verdict"] == "within" || result["verdict"] == "marginal", "{result}");
    }
    for id in ["tip-to-tip", "length"] {
        let id = format!("chainstays.right.{id}");
        let longer = readings[&id].as_f64().unwrap() + 2.0;
        readings.insert(id, json!(longer));
    }
    let long = ask(&json!({ "job": { "format": 1 }, "readings": readings }));
    assert_eq!(by_id(&long["found"]["results"], "difference")["verdict"], "out");
    let trim = &long["found"]["trims"][0];
    assert_eq!(
        (&trim["pair"], &trim["hand"], &trim["needed"]),
        (&json!("chainstays"), &json!("right"), &json!(true))
    );
    assert!((trim["amount"]["value"].as_f64().unwrap() - 2.0).abs() < 0.1, "{trim}");
}

#[test]
fn a_touched_figure_says_what_moves() {
    let answer = ask(&json!({ "job": { "format": 1 }, "touched": "chainstays.right.rear.half_spacing_mm" }));
    let splay = by_id(&answer["moves"], "chainstays.right.splay_deg")["per_unit"].as_f64().unwrap();
    // sin splay = gain / length, and the length grows with the gain: d splay = cos splay / length, in degrees.
    let length = 401.505_f64;
    let expected = (53.0 / length).asin().cos() / length * 180.0 / std::f64::consts::PI;
    assert!((splay - expected).abs() < 1e-4, "{splay} {expected}");
}

#[test]
fn every_place_is_found_by_its_name() {
    for kind in SettingKind::ALL {
        for pair in [None, Some(PairName::Chainstays), Some(PairName::Seatstays)] {
            for (hand, at_front) in
                [(None, None), (Some(Hand::Left), Some(true)), (Some(Hand::Right), Some(false))]
            {
                let place = Place { kind, pair, hand, at_front };
                assert_eq!(Place::from_id(&place.id()), Some(place));
            }
        }
    }
    assert_eq!(Place::from_id("nonsense"), None);
}

#[test]
fn faulty_questions_are_told_what_is_wrong() {
    for (question, field) in [
        (json!({}), ""),
        (json!({ "job": { "format": 1 }, "odd": 1 }), "odd"),
        (json!({ "job": { "format": 1, "frame": { "bb_drop_mm": 9999 } } }), "frame.bb_drop_mm"),
        (json!({ "job": { "format": 1 }, "spreads": { "slide": -1 } }), "spreads.slide"),
        (json!({ "job": { "format": 1 }, "readings": [1] }), "readings"),
        (json!({ "job": { "format": 1 }, "runs": 1e9 }), "runs"),
    ] {
        assert_eq!(ask(&question)["errors"][0]["field"], field, "{question}");
    }
    let odd = ask(&json!({ "job": { "format": 1 }, "readings": { "no.such": 1.0 } }));
    assert_eq!(odd["found"]["refused"][0]["id"], "no.such");
}

#[test]
fn the_self_check_agrees_with_what_is_published() {
    let worked: Value = serde_json::from_str(&worked_json()).unwrap();
    let figures = worked.as_array().unwrap().iter().flat_map(|one| one["figures"].as_array().unwrap());
    assert!(figures.clone().count() > 5);
    for figure in figures {
        assert_eq!(figure["agrees"], true, "{figure}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]
    #[test]
    fn any_text_gives_an_answer(text in ".{0,80}", value in -1e12..1e12_f64) {
        let _: Value = serde_json::from_str(&check_json(&text)).unwrap();
        let question = json!({ "job": { "format": 1 }, "runs": 10, "readings": { "chainstays.right.length": value },
                               "learned": { "slide": value }, "spreads": { "edge-finder": value.abs() } });
        let answer = check_json(&question.to_string());
        prop_assert!(serde_json::from_str::<Value>(&answer).unwrap().get("results").is_some());
    }
}
