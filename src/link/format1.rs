//! Format 1. Nothing in this file may change: links made with it are in people's messages.
//!
//! The body is the postcard form of [`Body`]. A figure is named by its place in [`FIGURES`]; one that is left out stands
//! at its starting value there, or in a left stay at the right stay's value. When a job figure is renamed or moved later,
//! [`paths`] is where the old name is led to the new one.

use super::number::Number;
use crate::model::{Cope, End, EndKind, Group, Hand, Job, Member, PairName, Side, TouchSide};
use crate::units::Length;
use serde::{Deserialize, Serialize};
use std::sync::LazyLock;

pub(super) const FORMAT: u8 = 1;

/// The figures outside the stays, with what they start at.
const FIGURES: [(&str, f64); 21] = [
    ("frame.chainstay_length_mm", 430.0),
    ("frame.bb_drop_mm", 70.0),
    ("frame.seat_angle_deg", 73.0),
    ("frame.seat_tube_setback_mm", 0.0),
    ("frame.seat_tube_od_mm", 28.6),
    ("frame.shell_od_mm", 40.0),
    ("frame.shell_width_mm", 73.0),
    ("frame.axle_spacing_mm", 142.0),
    ("wheel.bead_seat_mm", 622.0),
    ("wheel.tyre_width_mm", 40.0),
    ("wheel.tyre_height_mm", 40.0),
    ("seatstays.front_station_mm", 500.0),
    ("fixture.block_width_mm", 70.0),
    ("fixture.clamp_height_mm", 40.0),
    ("fixture.touch_u_mm", -60.0),
    ("fixture.touch_w_mm", 0.0),
    ("fixture.slide_min_mm", 380.0),
    ("fixture.slide_max_mm", 480.0),
    ("fixture.axle_height_min_mm", -30.0),
    ("fixture.axle_height_max_mm", 30.0),
    ("edge_finder_mm", 10.0),
];

/// The figures of a stay, with what a chainstay and a seat stay start at. A cutter has no start: it is there or not.
const STAY_FIGURES: [(&str, f64, f64); 17] = [
    ("front.half_spacing_mm", 21.0, 7.0),
    ("front.rise_mm", 0.0, 0.0),
    ("front.end.cutter_mm", f64::NAN, f64::NAN),
    ("rear.half_spacing_mm", 74.0, 74.0),
    ("rear.rise_mm", 0.0, 0.0),
    ("rear.reach_mm", 32.0, 32.0),
    ("rear.end.boss_mm", 24.0, 24.0),
    ("rear.end.plate_mm", 5.0, 5.0),
    ("rear.end.depth_mm", 16.0, 16.0),
    ("rear.end.overhang_mm", 4.0, 4.0),
    ("tube.od_front_mm", 22.2, 12.7),
    ("tube.od_rear_mm", 16.0, 11.0),
    ("tube.taper_start_mm", 150.0, 250.0),
    ("tube.taper_end_mm", 380.0, 480.0),
    ("tube.wall_mm", 0.8, 0.7),
    ("tube.length_mm", 430.0, 560.0),
    ("tube.front_trim_mm", 10.0, 30.0),
];

/// Stations of the clamp posts at the start.
const POSTS: [f64; 2] = [60.0, 330.0];

/// The four stays, in the order of their figures.
const STAYS: [(PairName, Hand); 4] = [
    (PairName::Chainstays, Hand::Right),
    (PairName::Chainstays, Hand::Left),
    (PairName::Seatstays, Hand::Right),
    (PairName::Seatstays, Hand::Left),
];

/// What is written.
#[derive(Serialize, Deserialize)]
struct Body {
    name: String,
    notes: String,
    /// Bit 0: chainstays differ left and right; bit 1: seat stays do; bit 2: the datum edge is touched from the rear.
    flags: u8,
    /// `None` at the start's posts.
    posts: Option<Vec<Number>>,
    /// Ends of another kind than they start with: stay · 2, + 1 at the rear; then the kind's own number.
    ends: Vec<(u8, u8)>,
    /// Figures that differ: place in the list, number.
    figures: Vec<(u8, Number)>,
}

/// Every figure's path and start, by its number.
fn paths() -> impl Iterator<Item = (String, f64)> {
    let plain = FIGURES.iter().map(|(path, start)| ((*path).to_owned(), *start));
    let stays = STAYS.iter().flat_map(|(pair, hand)| {
        STAY_FIGURES.iter().map(move |(path, chainstay, seatstay)| {
            let start = if *pair == PairName::Chainstays { *chainstay } else { *seatstay };
            (format!("{}.{}.{path}", pair.key(), hand.key()), start)
        })
    });
    plain.chain(stays)
}

/// Path and start of every figure, in the order of their numbers.
static NUMBERS: LazyLock<Vec<(String, f64)>> = LazyLock::new(|| paths().collect());

/// Number and start of the figure at `path`.
fn number(path: &str) -> Option<(u8, f64)> {
    let found = (0u8..=255).zip(NUMBERS.iter()).find(|(_, (known, _))| known == path);
    found.map(|(number, (_, start))| (number, *start))
}

/// The job that a link with nothing in it stands for.
fn start() -> Job {
    let mut job = Job::default();
    for name in PairName::ALL {
        let pair = job.pair_mut(name);
        pair.left = None;
        let onto = if name == PairName::Chainstays { Member::Shell } else { Member::SeatTube };
        pair.right.front_end = EndKind::Cope.plain(onto);
        pair.right.rear_end = EndKind::Slot.plain(onto);
    }
    job.fixture.posts = POSTS.map(Length::from_mm).to_vec();
    job.fixture.touch_from = TouchSide::Front;
    at_start(&job)
}

/// The same job with every figure that this format knows at its start.
fn at_start(job: &Job) -> Job {
    job.map("", &mut |path, _, value| number(path).map_or(value, |(_, start)| start))
}

const fn kind_number(end: &End) -> u8 {
    match end {
        End::Cope(Cope { onto: Member::Shell, .. }) => 0,
        End::Cope(Cope { onto: Member::SeatTube, .. }) => 1,
        End::Boss(_) => 2,
        End::Slot(_) => 3,
        End::Square => 4,
    }
}

fn end_of_kind(number: u8) -> Option<End> {
    Some(match number {
        0 => EndKind::Cope.plain(Member::Shell),
        1 => EndKind::Cope.plain(Member::SeatTube),
        2 => EndKind::Boss.plain(Member::Shell),
        3 => EndKind::Slot.plain(Member::Shell),
        4 => End::Square,
        _ => return None,
    })
}

fn ends_mut(side: &mut Side) -> [&mut End; 2] {
    [&mut side.front_end, &mut side.rear_end]
}

/// The body of `job`.
pub(super) fn write(job: &Job) -> Vec<u8> {
    let (frame, ends) = skeleton(job);
    let mut figures = Vec::new();
    let stands = frame.figures();
    for (path, _, value) in job.figures() {
        let stand = stands.iter().find(|(known, ..)| *known == path);
        let same = stand.is_some_and(|(.., stand)| stand.to_bits() == value.to_bits());
        if let Some((number, _)) = number(&path).filter(|_| !same) {
            figures.push((number, Number::of(value)));
        }
    }
    let start_posts = job.fixture.posts.iter().map(|post| post.mm()).eq(POSTS);
    let posts = job.fixture.posts.iter().map(|post| Number::of(post.mm())).collect();
    let bit = |on: bool, place: u8| u8::from(on) << place;
    let body = Body {
        name: job.name.clone(),
        notes: job.notes.clone(),
        flags: bit(job.chainstays.left.is_some(), 0)
            | bit(job.seatstays.left.is_some(), 1)
            | bit(job.fixture.touch_from == TouchSide::Rear, 2),
        posts: (!start_posts).then_some(posts),
        ends,
        figures,
    };
    // Writing to memory cannot fail; an empty body would be refused on the way back.
    postcard::to_allocvec(&body).unwrap_or_default()
}

/// What the reader makes of the parts of `job` that are no figures, and the list of ends that it needs for that.
fn skeleton(job: &Job) -> (Job, Vec<(u8, u8)>) {
    let mut frame = start();
    let mut ends = Vec::new();
    for ((pair, hand), stay) in STAYS.into_iter().zip(0u8..) {
        let wanted = job.pair(pair).side(hand);
        let at = frame.pair_mut(pair);
        if hand == Hand::Left {
            if job.pair(pair).left.is_none() {
                continue;
            }
            // The reader copies the finished right stay.
            at.left = Some(job.pair(pair).right);
        }
        let side = if let (Hand::Left, Some(left)) = (hand, &mut at.left) { left } else { &mut at.right };
        let wanted = [wanted.front_end, wanted.rear_end];
        for ((end, wanted), rear) in ends_mut(side).into_iter().zip(wanted).zip(0u8..) {
            if kind_number(end) != kind_number(&wanted) || loses_cutter(end, &wanted) {
                *end = fresh(kind_number(&wanted));
                ends.push((stay * 2 + rear, kind_number(&wanted)));
            }
        }
    }
    (frame, ends)
}

/// A cutter that is there in the one and not in the other can only go by starting that end anew.
fn loses_cutter(from: &End, to: &End) -> bool {
    matches!((from, to), (End::Cope(Cope { cutter: Some(_), .. }), End::Cope(Cope { cutter: None, .. })))
}

/// An end of that kind with this format's starting figures.
fn fresh(kind: u8) -> End {
    let end = end_of_kind(kind).unwrap_or(End::Square);
    end.map("chainstays.right.rear.end", &mut |path, _, value| number(path).map_or(value, |(_, start)| start))
}

/// The job that a body stands for; `None` where it stands for none.
pub(super) fn read(body: &[u8]) -> Option<Job> {
    let (body, rest) = postcard::take_from_bytes::<Body>(body).ok()?;
    if !rest.is_empty() || body.flags > 7 {
        return None;
    }
    let mut job = start();
    (job.name, job.notes) = (body.name, body.notes);
    if body.flags & 4 != 0 {
        job.fixture.touch_from = TouchSide::Rear;
    }
    if let Some(posts) = body.posts {
        job.fixture.posts =
            posts.into_iter().map(|post| post.value().map(Length::from_mm)).collect::<Option<_>>()?;
    }
    let figures = body.figures.into_iter().map(|(number, value)| Some((number, value.value()?)));
    let mut figures: Vec<(u8, f64)> = figures.collect::<Option<_>>()?;
    for ((pair, hand), stay) in STAYS.into_iter().zip(0u8..) {
        let at = job.pair_mut(pair);
        if hand == Hand::Left {
            at.left = (body.flags & (1 << (stay / 2)) != 0).then_some(at.right);
        }
        let side = match (hand, &mut at.left) {
            (Hand::Left, Some(left)) => left,
            (Hand::Left, None) => continue,
            _ => &mut at.right,
        };
        for (end, rear) in ends_mut(side).into_iter().zip(0u8..) {
            let changed = body.ends.iter().find(|(place, _)| *place == stay * 2 + rear);
            if let Some((_, kind)) = changed {
                end_of_kind(*kind)?;
                *end = fresh(*kind);
            }
        }
        let at = format!("{}.{}", pair.key(), hand.key());
        *side = with_figures(side, &at, &mut figures)?;
    }
    let job = job.map("", &mut |path, _, value| take(&mut figures, path).unwrap_or(value));
    // A figure that found no place is not this job's.
    figures.is_empty().then_some(job)
}

/// The side with its figures taken from the list.
fn with_figures(side: &Side, at: &str, figures: &mut Vec<(u8, f64)>) -> Option<Side> {
    let mut side = *side;
    if let Some(cutter) = take(figures, &format!("{at}.front.end.cutter_mm")) {
        let End::Cope(cope) = &mut side.front_end else { return None };
        cope.cutter = Some(Length::from_mm(cutter));
    }
    Some(side.map(at, &mut |path, _, value| take(figures, path).unwrap_or(value)))
}

fn take(figures: &mut Vec<(u8, f64)>, path: &str) -> Option<f64> {
    let (number, _) = number(path)?;
    let at = figures.iter().position(|(known, _)| *known == number)?;
    Some(figures.remove(at).1)
}
