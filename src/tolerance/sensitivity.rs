//! Touch a kind, see what moves: the slope of every figure of the plan by one figure of the job, by dual numbers
//! through the whole solver.

use super::measurand::AtPost;
use crate::model::{Group, Hand, Job, PairName};
use crate::placement::solve;
use crate::plan::{CutAt, Pair, Plan, RoundCut, Stay};
use crate::units::{Angle, Kind, Length, Real, ranked};
use num_dual::Dual64;

/// A figure of a plan that a builder sets or reads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PlanFigure {
    /// Of both stays together.
    Pair(PairName, PairFigure),
    /// Of a stay.
    Stay(PairName, Hand, StayFigure),
    /// Of a round cut.
    Cut(CutAt, CutFigure),
}

/// A figure of a pair.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PairFigure {
    /// Where the dummy axle sits along the fixture.
    Slide,
    /// How far it sits above the stay plane.
    AxleHeight,
    /// Between the two tubes.
    RoomBetween,
    /// Across the fixture at a post, by its place from 0.
    Post(usize, AtPost),
}

/// A figure of a stay.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StayFigure {
    /// From reference point to reference point.
    Length,
    /// Between the stay and the centre plane.
    Splay,
    /// From long point to long point.
    TipToTip,
}

/// A figure of a round cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CutFigure {
    /// Between the stay and the member.
    Angle,
    /// Between their axes.
    Offset,
    /// Between the clamp plane and the spindle.
    Tilt,
    /// The table's readout along the fixture.
    ReadoutAlong,
    /// The table's other readout.
    ReadoutAcross,
    /// Where the axes come nearest.
    AxisStation,
    /// The long point's station.
    LongPoint,
    /// The short point's station.
    ShortPoint,
    /// What the saw's size leaves open.
    Gap,
    /// How far the stay then goes home.
    Push,
    /// What the saw must reach.
    SawDepth,
}

impl PlanFigure {
    /// The plan's keys, joined: `chainstays.right.front.dro_along_mm`.
    pub fn id(self) -> String {
        match self {
            Self::Pair(pair, figure) => [pair.key(), &figure.key()].join("."),
            Self::Stay(pair, hand, figure) => [pair.key(), hand.key(), figure.key()].join("."),
            Self::Cut(at, figure) => [&at.key(), figure.key()].join("."),
        }
    }

    /// Whether it is a length or an angle.
    pub const fn quantity(self) -> Kind {
        match self {
            Self::Stay(_, _, StayFigure::Splay) | Self::Cut(_, CutFigure::Angle | CutFigure::Tilt) => {
                Kind::Angle
            }
            _ => Kind::Length,
        }
    }
}

impl PairFigure {
    fn key(self) -> String {
        match self {
            Self::Slide => "slide_mm".to_owned(),
            Self::AxleHeight => "axle_height_mm".to_owned(),
            Self::RoomBetween => "room_between_mm".to_owned(),
            Self::Post(place, what) => format!("posts[{place}].{}_mm", what.key()),
        }
    }
}

impl StayFigure {
    const fn key(self) -> &'static str {
        match self {
            Self::Length => "length_mm",
            Self::Splay => "splay_deg",
            Self::TipToTip => "tip_to_tip_mm",
        }
    }
}

impl CutFigure {
    const fn key(self) -> &'static str {
        match self {
            Self::Angle => "angle_deg",
            Self::Offset => "offset_mm",
            Self::Tilt => "tilt_deg",
            Self::ReadoutAlong => "dro_along_mm",
            Self::ReadoutAcross => "dro_across_mm",
            Self::AxisStation => "axis_station_mm",
            Self::LongPoint => "long_point_mm",
            Self::ShortPoint => "short_point_mm",
            Self::Gap => "gap_mm",
            Self::Push => "push_mm",
            Self::SawDepth => "saw_depth_mm",
        }
    }
}

/// How a figure of the plan moves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sensitivity {
    /// Which figure.
    pub figure: PlanFigure,
    /// What it is, mm or degrees.
    pub value: f64,
    /// How much it gains per unit of the touched figure.
    pub per_unit: f64,
}

/// A figure that moves by less than this per unit stands still.
const STILL: f64 = 1e-9;

/// What moves when the figure at `path` does, those that move most first. Empty for a job with faults, which has no plan,
/// and for a path that the job lacks.
pub fn sensitivities(job: &Job, path: &str) -> Vec<Sensitivity> {
    if job.figure(path).is_none() || !crate::plan::faults(job).is_empty() {
        return Vec::new();
    }
    let job = apart(job, path);
    let touched = job.map("", &mut |at, _, value| Dual64::new(value, if at == path { 1.0 } else { 0.0 }));
    let moves =
        |(figure, moved): (PlanFigure, Dual64)| Sensitivity { figure, value: moved.re, per_unit: moved.eps };
    let finite = |one: &Sensitivity| one.per_unit.is_finite() && one.per_unit.abs() > STILL;
    let all = figures(&solve(&touched)).into_iter().map(moves).filter(finite);
    ranked(all, |a, b| a.per_unit.abs() >= b.per_unit.abs())
}

/// The figure that moves the two dropouts to one side: stays that mirror each other no longer do.
const TO_ONE_SIDE: &str = "frame.axle_offset_mm";

/// The job with left stays of their own where the figure at `path` moves right and left unlike.
fn apart(job: &Job, path: &str) -> Job {
    let mut job = job.clone();
    if path == TO_ONE_SIDE && job.dropouts.is_some() {
        for name in PairName::ALL {
            let pair = job.pair_mut(name);
            pair.left = pair.left.or(Some(pair.right));
        }
    }
    job
}

/// The figures that a builder sets or reads, mm and degrees; those that do not exist are left out.
fn figures<T: Real>(plan: &Plan<T>) -> Vec<(PlanFigure, T)> {
    let of_pair = |name| {
        let pair = plan.pair(name);
        let stays = Hand::ALL.into_iter().flat_map(move |hand| of_stay(name, pair.stay(hand)));
        of_pair(name, pair).into_iter().chain(stays)
    };
    PairName::ALL.into_iter().flat_map(of_pair).collect()
}

fn of_pair<T: Real>(name: PairName, pair: &Pair<T>) -> Vec<(PlanFigure, T)> {
    let of_all = [
        (PairFigure::Slide, Some(pair.slide)),
        (PairFigure::AxleHeight, Some(pair.axle_height)),
        (PairFigure::RoomBetween, Some(pair.room_between)),
    ];
    let at_posts = pair.posts.iter().enumerate().flat_map(|(place, post)| {
        [
            (AtPost::Axis(Hand::Right), post.right),
            (AtPost::Axis(Hand::Left), post.left),
            (AtPost::Inside, post.inside),
            (AtPost::Outside, post.outside),
        ]
        .map(|(what, reading)| (PairFigure::Post(place, what), reading))
    });
    let known = |(figure, length): (PairFigure, Option<Length<T>>)| {
        Some((PlanFigure::Pair(name, figure), length?.mm()))
    };
    of_all.into_iter().chain(at_posts).filter_map(known).collect()
}

fn of_stay<T: Real>(pair: PairName, stay: &Stay<T>) -> Vec<(PlanFigure, T)> {
    let own = [
        (StayFigure::Length, Some(stay.length.mm())),
        (StayFigure::Splay, Some(stay.splay.degrees())),
        (StayFigure::TipToTip, stay.tip_to_tip.map(Length::mm)),
    ];
    let known =
        |(figure, value): (StayFigure, Option<T>)| Some((PlanFigure::Stay(pair, stay.hand, figure), value?));
    let ends = [(true, &stay.front), (false, &stay.rear)];
    let cuts = ends
        .into_iter()
        .filter_map(|(at_front, cut)| Some(of_cut(CutAt { pair, hand: stay.hand, at_front }, cut.round()?)));
    own.into_iter().filter_map(known).chain(cuts.flatten()).collect()
}

fn of_cut<T: Real>(at: CutAt, cut: &RoundCut<T>) -> Vec<(PlanFigure, T)> {
    let degrees = |angle: Angle<T>| Some(angle.degrees());
    let all = [
        (CutFigure::Angle, degrees(cut.angle)),
        (CutFigure::Offset, Some(cut.offset.mm())),
        (CutFigure::Tilt, degrees(cut.setting.tilt)),
        (CutFigure::ReadoutAlong, Some(cut.setting.dro_along.mm())),
        (CutFigure::ReadoutAcross, Some(cut.setting.dro_across.mm())),
        (CutFigure::AxisStation, cut.axis_station.map(Length::mm)),
        (CutFigure::LongPoint, cut.long_point.map(Length::mm)),
        (CutFigure::ShortPoint, cut.short_point.map(Length::mm)),
        (CutFigure::Gap, cut.gap.map(Length::mm)),
        (CutFigure::Push, cut.push.map(Length::mm)),
        (CutFigure::SawDepth, cut.saw_depth.map(Length::mm)),
    ];
    all.into_iter().filter_map(|(figure, value)| Some((PlanFigure::Cut(at, figure), value?))).collect()
}
