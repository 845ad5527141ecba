//! What clears what, as it is read: the tightest place first.

use crate::clearance::{Gap, Neighbour, StayRoom, rooms};
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
    let rooms = rooms(plan);
    let mut found: Vec<(f64, RoomLine)> = Vec::new();
    for room in &rooms {
        for gap in gaps_of(&rooms, room) {
            found.push((gap.spare().mm(), line(plan, room, gap, both_sides(&rooms, room, gap), unit)));
        }
    }
    found.sort_by(|a, b| a.0.total_cmp(&b.0));
    found.into_iter().map(|(_, line)| line).collect()
}

/// The rooms that a stay's own lines tell: what the right side says already for both, the left does not say again.
fn gaps_of<'a>(rooms: &'a [StayRoom], room: &'a StayRoom) -> impl Iterator<Item = &'a Gap> {
    room.gaps.iter().filter(move |gap| room.hand == Hand::Right || !both_sides(rooms, room, gap))
}

/// Whether both stays of the pair have the same room to the same neighbour.
fn both_sides(rooms: &[StayRoom], room: &StayRoom, gap: &Gap) -> bool {
    let other = rooms.iter().find(|other| other.pair == room.pair && other.hand != room.hand);
    let mut gaps = other.iter().flat_map(|other| &other.gaps);
    gaps.any(|there| there.to == gap.to && (there.gap.mm() - gap.gap.mm()).abs() < SAME)
}

fn line(plan: &Plan, room: &StayRoom, gap: &Gap, both: bool, unit: LengthUnit) -> RoomLine {
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
        mm: [gap.gap.mm(), gap.limit.mm()],
        gap: show::length(gap.gap, unit),
        verdict,
        words,
        place: format!("At {} behind the front point", show::length(gap.station, unit)),
        source: source(gap, unit),
        from: gap.here.into(),
        there: gap.there.into(),
    }
}

/// The topic of a room in drawings.
pub(super) fn topic(pair: PairName, to: Neighbour) -> String {
    format!("{}.room.{}", pair.key(), to.key())
}

/// What a neighbour is called; rings and posts by number where there are several.
pub(super) fn name(plan: &Plan, to: Neighbour) -> String {
    let rings = plan.job.surroundings.map_or(0, |all| all.rings.len());
    match to {
        Neighbour::Chainring(i) if rings > 1 => format!("{} {}", to.name(), i + 1),
        Neighbour::Post(i) => format!("{} {}", to.name(), i + 1),
        _ => to.name().to_owned(),
    }
}

fn verdict(gap: &Gap, unit: LengthUnit) -> (Verdict, String) {
    let write = |length: Length| show::length(length, unit);
    let spare = gap.spare();
    let limit = write(gap.limit);
    if gap.gap.mm() < 0.0 {
        return (Verdict::Into, format!("Runs {} into it, where {limit} is wanted", write(-gap.gap)));
    }
    if spare.mm() < 0.0 {
        return (Verdict::Short, format!("{} short of the {limit} wanted", write(-spare)));
    }
    (Verdict::Enough, format!("{} over the {limit} wanted", write(spare)))
}

/// The published figures that a limit is one of, or whose it is.
fn source(gap: &Gap, unit: LengthUnit) -> String {
    let key = limit_key(gap.to);
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

const fn limit_key(to: Neighbour) -> &'static str {
    match to {
        Neighbour::Tyre => "limits.tyre_mm",
        Neighbour::Chainring(_) => "limits.chainring_mm",
        Neighbour::Crank => "limits.crank_mm",
        Neighbour::Heel => "limits.heel_mm",
        Neighbour::Chain => "limits.chain_mm",
        Neighbour::Rotor => "limits.rotor_mm",
        Neighbour::Caliper => "limits.caliper_mm",
        Neighbour::Other => "limits.other_mm",
        Neighbour::Post(_) => "limits.post_mm",
    }
}
