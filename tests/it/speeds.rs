//! Speeds and feeds against published tables and worked examples.

use staywright::machining::{
    Cutter, Tool, feed, feed_per_tooth, nearest_not_above, published_speed, rim_speed, running, spindle_speed,
};
use staywright::model::shop::{Metal, Shop, Speeds, Sure, ToothMaterial, demo_shop};
use staywright::units::{CuttingSpeed, Length, SpindleSpeed};

/// A hole-saw maker's table for bi-metal saws (read in the source): diameter in sixteenths of an inch; rpm in mild
/// steel, tool and stainless steel, cast iron, brass, aluminium.
const TABLE: [[u32; 6]; 29] = [
    [9, 580, 300, 400, 790, 900],
    [10, 550, 275, 365, 730, 825],
    [11, 500, 250, 330, 665, 750],
    [12, 460, 230, 300, 600, 690],
    [13, 425, 210, 290, 580, 660],
    [14, 390, 195, 260, 520, 585],
    [16, 350, 175, 235, 470, 525],
    [17, 325, 160, 215, 435, 480],
    [18, 300, 150, 200, 400, 450],
    [19, 285, 145, 190, 380, 425],
    [20, 275, 140, 180, 360, 410],
    [21, 260, 135, 175, 345, 390],
    [22, 250, 125, 165, 330, 375],
    [23, 240, 120, 160, 315, 360],
    [24, 230, 115, 150, 300, 345],
    [25, 220, 110, 145, 290, 330],
    [26, 210, 105, 140, 280, 315],
    [27, 205, 100, 135, 270, 305],
    [28, 195, 95, 130, 260, 295],
    [29, 190, 95, 125, 250, 285],
    [30, 180, 90, 120, 240, 275],
    [32, 170, 85, 115, 230, 255],
    [33, 165, 80, 110, 220, 245],
    [34, 160, 80, 105, 210, 240],
    [36, 150, 75, 100, 200, 225],
    [37, 145, 75, 95, 195, 225],
    [38, 140, 70, 90, 190, 220],
    [40, 135, 65, 85, 180, 205],
    [41, 130, 65, 85, 175, 200],
];

/// The table is rounded to 5 rpm and not quite even; one surface speed a metal fits its rows within this share.
const COLUMNS: [(Metal, f64); 5] = [
    (Metal::MildSteel, 0.054),
    (Metal::Stainless, 0.058),
    (Metal::CastIron, 0.070),
    (Metal::Brass, 0.040),
    (Metal::Aluminium, 0.039),
];

#[test]
fn every_row_of_the_published_hole_saw_table() {
    for row in TABLE {
        let diameter = Length::from_inches(f64::from(row[0]) / 16.0);
        for ((metal, tolerance), rpm) in COLUMNS.into_iter().zip(&row[1..]) {
            let ours = spindle_speed(published_speed(metal, Tool::HoleSaw).start, diameter).rpm();
            let off = ours / f64::from(*rpm) - 1.0;
            assert!(off.abs() < tolerance + 5e-4, "{}/16 in {}: {ours} against {rpm}", row[0], metal.key());
        }
    }
}

/// The starting list has a saw for each row.
#[test]
fn the_inch_list_is_the_tables() {
    let sizes: Vec<f64> = staywright::model::shop::inch_hole_saws()
        .iter()
        .map(|saw| saw.size.nominal.inches() * 16.0)
        .collect();
    assert_eq!(sizes.len(), TABLE.len());
    for (ours, row) in sizes.iter().zip(TABLE) {
        assert!((ours - f64::from(row[0])).abs() < 1e-9);
    }
}

/// A page on cutting door frames (quoted): 80 ft/min at 3/4 in is 410 rpm, by the rule ft/min over 0.26 D. Exact: 407.4.
#[test]
fn a_worked_speed() {
    let rpm = spindle_speed(CuttingSpeed::from_feet_per_min(80.0), Length::from_inches(0.75)).rpm();
    assert!((rpm / 410.0 - 1.0).abs() < 0.01, "{rpm}");
    assert!((rpm - 407.437).abs() < 1e-3, "{rpm}");
}

/// A shop table (quoted) of drill sizes: 70 ft/min at 1, 2, 3 in; 300 and 30 ft/min at 1 in. Rounded there to 10 rpm.
#[test]
fn a_shop_table_of_speeds() {
    for (feet, inches, rpm) in
        [(70.0, 1.0, 260.0), (70.0, 2.0, 130.0), (70.0, 3.0, 90.0), (300.0, 1.0, 1140.0), (30.0, 1.0, 110.0)]
    {
        let ours = spindle_speed(CuttingSpeed::from_feet_per_min(feet), Length::from_inches(inches)).rpm();
        assert!((ours / rpm - 1.0).abs() < 0.05, "{feet} {inches}: {ours}");
    }
}

/// A cutter maker's handbook of 1973 (read): 0.004 in × 32 teeth × 88 rpm is 11.2 in/min; exact 11.264.
#[test]
fn a_worked_feed() {
    let feed = feed(Length::from_inches(0.004), 32.0, SpindleSpeed::from_rpm(88.0)).mm_per_min() / 25.4;
    assert!((feed - 11.2).abs() < 0.1, "{feed}");
    assert!((feed - 11.264).abs() < 1e-12, "{feed}");
}

/// The same milling table's two columns (read, columns matched by order): 1/4 in and 1 in.
#[test]
fn feed_per_tooth_meets_the_tables_columns() {
    let inches = |metal, size| feed_per_tooth(metal, Tool::EndMill, Length::from_inches(size)).0.inches();
    for (metal, slim, stout) in [
        (Metal::Aluminium, 0.003, 0.009),
        (Metal::MildSteel, 0.001, 0.004),
        (Metal::ChromeMoly, 0.0005, 0.003),
    ] {
        assert!((inches(metal, 0.25) - slim).abs() < 1e-12);
        assert!((inches(metal, 1.0) - stout).abs() < 1e-12);
        assert!((inches(metal, 2.0) - stout).abs() < 1e-12);
        assert!(inches(metal, 0.125) < slim);
    }
}

#[test]
fn the_mills_nearest_speed_is_never_above() {
    let steps = Speeds::Steps([700.0, 80.0, 210.0, 135.0].map(SpindleSpeed::from_rpm).to_vec());
    let set = |wanted| nearest_not_above(&steps, SpindleSpeed::from_rpm(wanted)).map(SpindleSpeed::rpm);
    for (wanted, known) in [(79.9, None), (80.0, Some(80.0)), (209.0, Some(135.0)), (5000.0, Some(700.0))] {
        assert_eq!(set(wanted), known, "{wanted}");
    }
    let range = Speeds::Range(SpindleSpeed::from_rpm(100.0), SpindleSpeed::from_rpm(900.0));
    let set = |wanted| nearest_not_above(&range, SpindleSpeed::from_rpm(wanted)).map(SpindleSpeed::rpm);
    for (wanted, known) in [(99.0, None), (333.3, Some(333.3)), (2000.0, Some(900.0))] {
        assert_eq!(set(wanted), known, "{wanted}");
    }
}

const SAW: Cutter = Cutter {
    tool: Tool::HoleSaw,
    diameter: Length::from_mm(38.1),
    teeth: 28.0,
    tooth: ToothMaterial::HighSpeedSteel,
};

#[test]
fn a_saw_in_the_demonstration_shop() {
    let shop = demo_shop();
    let run = running(&shop, Metal::ChromeMoly, SAW);
    // 45 ft/min over a rim of 38.1 mm: 114.6 rpm; the mill has 80 and 135.
    assert!((run.wanted.rpm() - 45.0 * 304.8 / (std::f64::consts::PI * 38.1)).abs() < 1e-9);
    assert_eq!(run.set.map(SpindleSpeed::rpm), Some(80.0));
    assert_eq!((run.too_fast, run.origin.sure), (None, Sure::WorkedOut));
    let biting = run.feed.unwrap().mm_per_min() / (28.0 * 80.0);
    assert!((biting - run.per_tooth.mm()).abs() < 1e-12);
}

#[test]
fn a_mill_that_is_too_fast_says_by_how_much() {
    let mut shop = demo_shop();
    shop.mill.speeds = Speeds::Range(SpindleSpeed::from_rpm(500.0), SpindleSpeed::from_rpm(4000.0));
    let run = running(&shop, Metal::Titanium, SAW);
    assert_eq!(run.set, None);
    assert!((run.too_fast.unwrap() - 500.0 / run.wanted.rpm()).abs() < 1e-12);
}

#[test]
fn the_builders_own_speed_wins_and_carbide_goes_twice_as_fast() {
    let mut shop = Shop::default();
    let carbide = Cutter { tooth: ToothMaterial::Carbide, ..SAW };
    let of = |shop: &Shop, cutter| running(shop, Metal::Stainless, cutter).cutting.m_per_min();
    assert!((of(&shop, carbide) / of(&shop, SAW) - 2.0).abs() < 1e-12);
    shop.own_speeds = vec![(Metal::Stainless, CuttingSpeed::from_m_per_min(11.0))];
    assert_eq!((of(&shop, SAW), of(&shop, carbide)), (11.0, 11.0));
    assert_eq!(running(&shop, Metal::Stainless, SAW).origin.sure, Sure::Own);
    let back = rim_speed(spindle_speed(CuttingSpeed::from_m_per_min(11.0), SAW.diameter), SAW.diameter);
    assert!((back.m_per_min() - 11.0).abs() < 1e-12);
}

#[test]
fn published_speeds_run_from_slow_to_fast() {
    for metal in Metal::ALL {
        for tool in [Tool::HoleSaw, Tool::SlittingSaw, Tool::EndMill] {
            let speed = published_speed(metal, tool);
            assert!(speed.low <= speed.start && speed.start <= speed.high, "{metal:?} {tool:?}");
            assert!(!speed.origin.source.is_empty());
        }
    }
}

/// The table's own two columns of sizes, inches and whole millimetres, go together.
#[test]
fn the_metric_list_is_the_inch_list_to_the_millimetre() {
    use staywright::model::shop::{inch_hole_saws, metric_hole_saws};
    let (inch, metric) = (inch_hole_saws(), metric_hole_saws());
    assert_eq!(inch.len(), metric.len());
    for (a, b) in inch.iter().zip(&metric) {
        assert!((a.size.nominal.mm() - b.size.nominal.mm()).abs() < 0.75, "{:?} {:?}", a.size, b.size);
    }
}

#[test]
fn advice_comes_with_its_reason_where_it_applies() {
    use staywright::machining::advice;
    use staywright::model::Tube;
    use staywright::text::{Style, machining as text};
    let saw = |reach: f64, teeth: f64| {
        let mut saw = demo_shop().hole_saws[4];
        saw.arbor.reach = Length::from_mm(reach);
        saw.size.teeth = staywright::units::Count::of(teeth);
        saw
    };
    let tube = |wall: f64| Tube { wall: Length::from_mm(wall), ..Tube::default() };
    let says = |metal, saw, tube: &Tube, word: &str| {
        let all = advice(metal, &saw, tube);
        for style in Style::ALL {
            assert!(all.iter().all(|one| !text::advice_reason(*one, style).is_empty()));
        }
        assert!(all.iter().all(|one| !text::advice_origin(*one).source.is_empty()));
        all.iter().any(|one| text::advice(*one).contains(word))
    };
    for metal in Metal::ALL {
        assert_eq!(says(metal, saw(30.0, 28.0), &tube(0.8), "dry"), metal == Metal::CastIron);
        assert_eq!(says(metal, saw(30.0, 28.0), &tube(0.8), "coolant"), metal == Metal::Titanium);
        assert!(says(metal, saw(30.0, 28.0), &tube(0.8), "pilot"));
    }
    // Four diameters of a 19.05 mm arbor are 76.2 mm.
    assert!(says(Metal::ChromeMoly, saw(77.0, 28.0), &tube(0.8), "arbor is long"));
    assert!(!says(Metal::ChromeMoly, saw(76.0, 28.0), &tube(0.8), "arbor is long"));
    // π · 38.4 mm over 200 teeth is a pitch of 0.603 mm.
    assert!(says(Metal::ChromeMoly, saw(30.0, 200.0), &tube(1.2), "Thin wall"));
    assert!(!says(Metal::ChromeMoly, saw(30.0, 200.0), &tube(1.3), "Thin wall"));
}
