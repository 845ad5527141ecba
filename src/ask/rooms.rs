//! What clears what, as it is read: the tightest place first.

use crate::clearance::{Clearance, Obstacle, StayClearances, clearances};
use crate::model::{Hand, PairName, SOURCES, Sourced, capital};
use crate::plan::Plan;
use crate::units::{Length, LengthUnit, show};
use serde::{Deserialize, Serialize};

/// Rooms that differ by less, mm, are the same on both sides.
const SAME: f64 = 1e-6;

/// How a room stands to its limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Verdict {
    /// There is as much as is wanted.
    Enough,
    /// There is less.
    Short,
    /// The two run into each other.
    Into,
}

impl Verdict {
    /// In a word or two.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Enough => "enough",
            Self::Short => "too little",
            Self::Into => "runs into it",
        }
    }
}

/// The room from one stay, or from both of a pair alike, to one neighbour.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct RoomLine {
    /// The pair.
    pub pair: PairName,
    /// To what: `tyre`.
    pub to: String,
    /// From which stay.
    pub stay: String,
    /// Topic of its marks in drawings.
    pub topic: String,
    /// The room, and the room that is wanted, mm.
    pub mm: [f64; 2],
    /// The room.
    pub gap: String,
    /// How it stands to its limit.
    pub verdict: Verdict,
    /// The same in a sentence.
    pub words: String,
    /// Where along the stay.
    pub place: String,
    /// Where the limit comes from and how sure it is.
    pub source: String,
    /// The point on the stay, frame axes, mm.
    pub from: [f64; 3],
    /// The point on the neighbour.
    pub there: [f64; 3],
}

pub(super) fn lines(plan: &Plan, unit: LengthUnit) -> Vec<RoomLine> {
    let rooms = clearances(plan);
    let mut found: Vec<(f64, RoomLine)> = Vec::new();
    for room in &rooms {
        for gap in gaps_of(&rooms, room) {
            found.push((gap.margin().mm(), line(plan, room, gap, both_sides(&rooms, room, gap), unit)));
        }
    }
    found.sort_by(|a, b| a.0.total_cmp(&b.0));
    found.into_iter().map(|(_, line)| line).collect()
}

/// The rooms that a stay's own lines tell: what the right side says already for both, the left does not say again.
fn gaps_of<'a>(rooms: &'a [StayClearances], room: &'a StayClearances) -> impl Iterator<Item = &'a Clearance> {
    room.clearances.iter().filter(move |gap| room.hand == Hand::Right || !both_sides(rooms, room, gap))
}

/// Whether both stays of the pair have the same room to the same neighbour.
fn both_sides(rooms: &[StayClearances], room: &StayClearances, gap: &Clearance) -> bool {
    let other = rooms.iter().find(|other| other.pair == room.pair && other.hand != room.hand);
    let mut gaps = other.iter().flat_map(|other| &other.clearances);
    gaps.any(|there| there.to == gap.to && (there.distance.mm() - gap.distance.mm()).abs() < SAME)
}

fn line(plan: &Plan, room: &StayClearances, gap: &Clearance, both: bool, unit: LengthUnit) -> RoomLine {
    let stay = if both {
        format!("both {}", room.pair.name())
    } else {
        format!("{} {}", room.hand.key(), room.pair.one())
    };
    let (verdict, words) = verdict(gap, unit);
    RoomLine {
        pair: room.pair,
        to: capital(&name(plan, gap.to)),
        stay,
        topic: topic(room.pair, gap.to),
        mm: [gap.distance.mm(), gap.limit.mm()],
        gap: show::length(gap.distance, unit),
        verdict,
        words,
        place: format!("At {} behind the front point", show::length(gap.station, unit)),
        source: source(gap, unit),
        from: gap.here.into(),
        there: gap.there.into(),
    }
}

/// The topic of a room in drawings.
pub(super) fn topic(pair: PairName, to: Obstacle) -> String {
    format!("{}.room.{}", pair.key(), to.key())
}

/// What a neighbour is called; rings and posts by number where there are several.
pub(super) fn name(plan: &Plan, to: Obstacle) -> String {
    let rings = plan.job.surroundings.map_or(0, |all| all.rings.len());
    match to {
        Obstacle::Chainring(i) if rings > 1 => format!("{} {}", to.name(), i + 1),
        Obstacle::Post(i) => format!("{} {}", to.name(), i + 1),
        _ => to.name().to_owned(),
    }
}

fn verdict(gap: &Clearance, unit: LengthUnit) -> (Verdict, String) {
    let write = |length: Length| show::length(length, unit);
    let spare = gap.margin();
    let limit = write(gap.limit);
    if gap.distance.mm() < 0.0 {
        return (Verdict::Into, format!("Runs {} into it, where {limit} is wanted", write(-gap.distance)));
    }
    if spare.mm() < 0.0 {
        return (Verdict::Short, format!("{} short of the {limit} wanted", write(-spare)));
    }
    (Verdict::Enough, format!("{} over the {limit} wanted", write(spare)))
}

/// The published figures that a limit is one of, or whose it is.
fn source(gap: &Clearance, unit: LengthUnit) -> String {
    let key = gap.to.limit_key();
    let known = SOURCES.iter().filter(|known| known.key == key);
    let here: Vec<String> = known
        .filter(|known| (known.value - gap.limit.mm()).abs() < SAME)
        .map(|known| sourced(known, unit))
        .collect();
    if here.is_empty() {
        "yours, or a start to be tried, without a source".to_owned()
    } else {
        here.join("; ")
    }
}

pub(super) fn sourced(known: &Sourced, unit: LengthUnit) -> String {
    let value = show::length(Length::from_mm(known.value), unit);
    format!("{value}, {} ({})", known.source, known.sure.words())
}
