//! Both directions: what the stays of a job have room for, and what would give the room.

use super::rooms::name;
use crate::clearance::{self, CAUTION, Dimple, Obstacle, StayClearances, clearances, dimple, widest_tyre};
use crate::model::{Hand, PairName, Wheel};
use crate::plan::Plan;
use crate::text::Style;
use crate::text::clearance::effect;
use crate::units::{Angle, Length, LengthUnit, show};
use serde::{Deserialize, Serialize};

/// A change of one figure.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Way {
    /// What it would be, in a sentence.
    pub words: String,
    /// The figures' paths, and what to set them to.
    pub figures: Vec<(String, f64)>,
}

/// The answer.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Ways {
    /// The widest tyre that these stays have room for.
    pub tyre: Option<Way>,
    /// By neighbour, what would give it just the room that is wanted.
    pub ways: Vec<(String, Vec<Way>)>,
    /// How deep the tube would have to be pressed in, and where.
    pub dimples: Vec<String>,
    /// What goes with that.
    pub caution: String,
}

pub(super) fn ways(plan: &Plan, stay: (PairName, Hand), unit: LengthUnit) -> Option<Ways> {
    let room = clearances(plan).into_iter().find(|room| (room.pair, room.hand) == stay)?;
    let short: Vec<Obstacle> =
        room.clearances.iter().filter(|gap| gap.margin().mm() < 0.0).map(|gap| gap.to).collect();
    let press = |to: &Obstacle| dimple(plan, stay.0, stay.1, *to).map(|it| pressed(plan, &it, unit));
    Some(Ways {
        tyre: widest_tyre(plan).map(|tyre| tyre_way(plan, &tyre, unit)),
        ways: wanted(&room, &short)
            .into_iter()
            .map(|to| (name(plan, to), for_room(plan, stay, to, unit)))
            .filter(|(_, ways)| !ways.is_empty())
            .collect(),
        dimples: short.iter().filter_map(press).collect(),
        caution: CAUTION.to_owned(),
    })
}

fn tyre_way(plan: &Plan, tyre: &Wheel, unit: LengthUnit) -> Way {
    let (width, height) = (tyre.tyre_width, tyre.tyre_height);
    let words = format!("{} wide and {} high", show::length(width, unit), show::length(height, unit));
    let mut figures = vec![
        ("wheel.tyre_width_mm".to_owned(), floor(width.mm())),
        ("wheel.tyre_height_mm".to_owned(), floor(height.mm())),
    ];
    // A tyre that was measured is taken as that.
    if plan.job.surroundings.is_some_and(|all| all.measured_width.is_some()) {
        figures.push(("surroundings.measured_width_mm".to_owned(), floor(width.mm())));
    }
    Way { words, figures }
}

/// What is looked at: whatever wants room, and the tyre where all have enough.
fn wanted(room: &StayClearances, short: &[Obstacle]) -> Vec<Obstacle> {
    let has_tyre = room.clearances.iter().any(|gap| gap.to == Obstacle::Tyre);
    if short.is_empty() && has_tyre { vec![Obstacle::Tyre] } else { short.to_vec() }
}

/// Rounded to what can be entered, to the side that leaves more room.
fn floor(mm: f64) -> f64 {
    (mm * 10.0).floor() / 10.0
}

fn for_room(plan: &Plan, stay: (PairName, Hand), to: Obstacle, unit: LengthUnit) -> Vec<Way> {
    clearance::ways(plan, stay, to).into_iter().map(|way| told(way, unit)).collect()
}

/// A change, and what else it changes.
fn told(way: clearance::Way, unit: LengthUnit) -> Way {
    let style = Style { unit, ..Style::default() };
    let mut words = format!("{}: {}", figure_name(&way.path), change(way.from, way.to, &way.path, unit));
    let effects: Vec<String> = way.effects.iter().map(|(hand, it)| effect((*hand, it), style)).collect();
    if !effects.is_empty() {
        words = format!("{words}. It also changes {}", effects.join("; "));
    }
    Way { words, figures: vec![(way.path, way.to)] }
}

fn figure_name(path: &str) -> String {
    let number = path.split(['[', ']']).nth(1).and_then(|index| index.parse::<usize>().ok());
    match number {
        Some(index) => format!("Angle of bend {}", index + 1),
        None if path.contains(".front.") => "Front half spacing".to_owned(),
        None => "Rear half spacing".to_owned(),
    }
}

fn change(from: f64, to: f64, path: &str, unit: LengthUnit) -> String {
    let is_angle = path.ends_with("_deg");
    let write = |value: f64| {
        if is_angle {
            show::angle(Angle::from_degrees(value))
        } else {
            show::length(Length::from_mm(value), unit)
        }
    };
    format!("{} instead of {}", write(to), write(from))
}

fn pressed(plan: &Plan, dimple: &Dimple, unit: LengthUnit) -> String {
    let write = |length: Length| show::length(length, unit);
    format!(
        "For the {}: {} deep, deepest {} behind the front point, from {} to {}",
        name(plan, dimple.to),
        write(dimple.depth),
        write(dimple.deepest),
        write(dimple.from),
        write(dimple.to_station)
    )
}
