//! Shop files: there and back, every fault at once, and what a job and a shop say together.

use crate::support;

use proptest::prelude::*;
use serde_json::{Value, json};
use staywright::model::shop::{Axis, Metal, Mounting, Sense, Shop, Speeds, SpindleWay, Sure, demo_shop};
use staywright::model::{Hand, Job};
use staywright::units::{CuttingSpeed, SpindleSpeed};

/// Shops in which every choice has been made otherwise than it starts.
fn odd_shop() -> Shop {
    let mut shop = demo_shop();
    shop.mill.spindle = SpindleWay::Horizontal;
    shop.mill.lies_along = Axis::Y;
    shop.mill.mounting = Mounting::Table;
    shop.mill.block_side = Hand::Right;
    shop.mill.senses = [Sense::Falls; 3];
    shop.mill.speeds = Speeds::Range(SpindleSpeed::from_rpm(50.0), SpindleSpeed::from_rpm(900.0));
    shop.metal = Metal::Titanium;
    shop.joined_by = 2;
    shop.processes[1].origin.sure = Sure::Own;
    shop.own_speeds = vec![
        (Metal::Titanium, CuttingSpeed::from_m_per_min(9.0)),
        (Metal::Brass, CuttingSpeed::from_m_per_min(40.0)),
    ];
    shop.hole_saws[0].cutting = None;
    shop
}

#[test]
fn a_shop_comes_back_from_its_file() {
    for shop in [Shop::default(), demo_shop(), odd_shop()] {
        assert_eq!(Shop::from_json(&shop.to_json().to_string()), Ok(shop));
    }
}

#[test]
fn a_file_with_nothing_but_its_format_is_the_starting_shop() {
    assert_eq!(Shop::from_json(r#"{"format":1}"#), Ok(Shop::default()));
}

#[test]
fn a_new_job_takes_the_shops_fixture_and_keeps_it() {
    let shop = demo_shop();
    let job = shop.starting(Job::default());
    assert_eq!(job.fixture, shop.fixture.figures);
    assert_eq!(job.frame, Job::default().frame);
}

fn faults(file: &str) -> Vec<String> {
    Shop::from_json(file).map_or_else(
        |faults| {
            faults.iter().map(|one| staywright::text::fault(one, staywright::text::Style::FILE)).collect()
        },
        |_| Vec::new(),
    )
}

#[test]
fn every_fault_is_named_at_once() {
    let file = r#"{"format":1,
        "hole_saws":[{"nominal_mm":38,"cutting_mm":"38","depht_mm":40},{"nominal_mm":900}],
        "slitting_saws":{},
        "fixture":{"clamp_height_mm":-3,"bed":{"front_u_mm":500,"rear_u_mm":400},"scales":{"slide":{"sense":"up"}}},
        "mill":{"speeds_rpm":[100],"slowest_rpm":50,"x":{"travel_mm":0}},
        "joined_by":"glue","own_speeds_m_min":{"wood":3}}"#;
    assert_eq!(
        faults(file),
        [
            "hole_saws[0].cutting_mm: a number belongs here, not “38”",
            "hole_saws[0].depht_mm: unknown key; known here: nominal_mm, depth_mm, kerf_mm, teeth, cutting_mm, tooth, \
             arbor_mm, reach_mm, neck_mm, neck_length_mm",
            "slitting_saws: a list [ … ] belongs here, not an object of 0 keys",
            "fixture.scales.slide.sense: must be one of: rises, falls; “up” is none of them",
            "mill.slowest_rpm: give either a list of speeds or their range, not both",
            "own_speeds_m_min.wood: unknown key; known here: chrome_moly, mild_steel, stainless, titanium, aluminium, \
             brass, cast_iron",
            "joined_by: must be the name of one of the processes: fillet brazing, TIG welding, silver brazing, copper \
             brazing in a furnace, nickel brazing",
            "hole_saws[1].nominal_mm: nominal diameter 900 mm is outside 4 to 200 mm",
            "fixture.clamp_height_mm: clamp height −3 mm is outside 0 to 500 mm",
            "mill.x.travel_mm: travel 0 mm is outside 1 to 3000 mm",
            "fixture.bed.front_u_mm: bed front end 500 mm must not be more than bed rear end 400 mm",
        ]
    );
}

#[test]
fn figures_that_do_not_go_together() {
    let file = r#"{"format":1,
        "hole_saws":[{"reach_mm":10,"neck_length_mm":12,"nominal_mm":10,"kerf_mm":6}],
        "fixture":{"slide_min_mm":400,"slide_max_mm":300,"limits":{"tilt_min_deg":50,"tilt_max_deg":40}},
        "mill":{"slowest_rpm":900,"fastest_rpm":80},
        "processes":[{"name":"a","best_mm":0.3,"most_mm":0.2},{"name":"a"},{"name":""}]}"#;
    assert_eq!(
        faults(file),
        [
            "hole_saws[0].neck_length_mm: neck length 12 mm must not be more than arbor reach 10 mm",
            "hole_saws[0].kerf_mm: kerf 6 mm must not be more than half the saw's diameter 5 mm",
            "fixture.slide_max_mm: slide maximum 300 mm must be at least slide minimum 400 mm",
            "fixture.limits.tilt_min_deg: least tilt 50° must not be more than largest tilt 40°",
            "mill.slowest_rpm: slowest speed 900 rpm must not be more than fastest speed 80 rpm",
            "processes[0].best_mm: best gap 0.3 mm must not be more than largest gap 0.2 mm",
            "processes[1].name: another way of joining has the same name",
            "processes[2].name: a way of joining needs a name",
        ]
    );
}

#[test]
fn texts_that_are_no_shop() {
    assert_eq!(faults("{}"), ["format: the format is missing; write \"format\": 1"]);
    assert_eq!(faults(r#"{"format":7}"#), ["format: this version reads shop format 1, not 7"]);
    assert_eq!(faults("[]"), ["an object { … } belongs here, not a list of 0"]);
    assert_eq!(
        faults(r#"{"format":1,"mill":{"speeds_rpm":[]}}"#),
        ["mill.speeds_rpm: at least one spindle speed is needed"]
    );
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

proptest! {
    /// A good file with one value replaced by anything: a shop that comes back from its own file, or faults.
    #[test]
    fn a_spoilt_file_gives_a_shop_or_faults(at in 0usize..900, pick in 0usize..12) {
        let odd = [
            json!(null), json!(true), json!("x"), json!([]), json!({}), json!(-1e308), json!(1e308), json!(0),
            json!([1, 2, 3]), json!({"a": 1}), json!(12.5), json!(""),
        ];
        let mut file = odd_shop().to_json();
        let mut paths = Vec::new();
        pointers("", &file, &mut paths);
        *file.pointer_mut(&paths[at % paths.len()]).unwrap() = odd[pick].clone();
        if let Ok(shop) = Shop::from_json(&file.to_string()) {
            for (path, number) in support::numbers(&shop.to_json()) {
                prop_assert!(number.is_finite(), "{path}");
            }
            prop_assert_eq!(Shop::from_json(&shop.to_json().to_string()), Ok(shop));
        }
    }

    #[test]
    fn any_text_gives_a_shop_or_faults(text in "(?s).{0,200}") {
        prop_assert!(Shop::from_json(&text).is_err());
    }
}
