//! What is read at the clamp posts.

use super::notices::{Notices, length};
use super::problem::Problem;
use super::result::{Post, Stay};
use super::stay_geometry::{Bent, StayGeometry};
use crate::geometry::Outline;
use crate::model::Hand;
use crate::units::{Length, Real};

/// Both stays of a pair, as laid and as cut.
pub(super) struct Both<'a, T: Real> {
    pub(super) laid: [&'a StayGeometry<T>; 2],
    pub(super) cut: [&'a Stay<T>; 2],
    pub(super) one_plane: bool,
}

/// Where a stay crosses a post, from the centre line outwards.
#[derive(Clone, Copy)]
struct Crossing<T> {
    axis: T,
    inner: T,
    outer: T,
    /// Straight tube before and behind, on a bent stay.
    straight: Option<[T; 2]>,
    on_bend: bool,
    /// Whether a caliper's jaw touches a bend: inboard, outboard.
    jaws_on_bend: [bool; 2],
}

/// The readings at every post.
pub(super) fn posts<T: Real>(
    stations: &[Length<T>],
    both: &Both<'_, T>,
    notices: &mut Notices<'_>,
) -> Vec<Post<T>> {
    for (i, u) in stations.iter().enumerate() {
        if stations.iter().take(i).any(|before| length(*before) == length(*u)) {
            notices.warn(Problem::PostsTogether { post: length(*u) });
        }
    }
    stations.iter().map(|u| post(*u, both, notices)).collect()
}

fn post<T: Real>(u: Length<T>, both: &Both<'_, T>, notices: &mut Notices<'_>) -> Post<T> {
    let [right, left] = [0, 1].map(|i| {
        let (laid, cut) = (both.laid.get(i)?, both.cut.get(i)?);
        match &laid.bent {
            Some(bent) => bent_crossing(laid, bent, cut, u.mm()),
            None => reaches(laid, cut, u).then(|| crossing(laid, u.mm())),
        }
    });
    if right.is_none() || left.is_none() {
        let hand = match (right, left) {
            (None, None) => None,
            (None, _) => Some(Hand::Right),
            _ => Some(Hand::Left),
        };
        notices.warn(Problem::PostOffStay { post: length(u), hand });
    }
    for (hand, crossing) in [(Hand::Right, &right), (Hand::Left, &left)] {
        if crossing.as_ref().is_some_and(|crossing| crossing.on_bend) {
            notices.warn(Problem::PostOnBend { post: length(u), hand });
        }
    }
    let both_there = right.zip(left).filter(|_| both.one_plane);
    let jaw_on_bend = |side: usize| {
        both_there.is_some_and(|(right, left)| {
            [right, left].iter().any(|crossing| crossing.jaws_on_bend.get(side).is_some_and(|on| *on))
        })
    };
    let straight = |crossing: Option<Crossing<T>>| Some(crossing?.straight?.map(Length::from_mm));
    let over = |edge: fn(&Crossing<T>) -> T| match (right, left) {
        (Some(right), Some(left)) if both.one_plane => Some(Length::from_mm(edge(&right) + edge(&left))),
        _ => None,
    };
    Post {
        u,
        right: right.map(|crossing| Length::from_mm(crossing.axis)),
        left: left.map(|crossing| Length::from_mm(crossing.axis)),
        inside: over(|crossing| crossing.inner),
        outside: over(|crossing| crossing.outer),
        inside_on_bend: jaw_on_bend(0),
        outside_on_bend: jaw_on_bend(1),
        right_straight: straight(right),
        left_straight: straight(left),
    }
}

/// Whether the finished stay, between its long points, lies at the post.
fn reaches<T: Real>(laid: &StayGeometry<T>, cut: &Stay<T>, u: Length<T>) -> bool {
    let station = u.mm().value() / laid.axis.direction.dot(&laid.clamp.u).value();
    let front = cut.front.long_point().map_or(0.0, |s| s.mm().value());
    let rear = cut.rear.long_point().map_or(laid.length.value(), |s| s.mm().value());
    front <= station && station <= rear
}

fn crossing<T: Real>(laid: &StayGeometry<T>, u: T) -> Crossing<T> {
    let outline = laid.above(u);
    Crossing {
        axis: edge_at(laid, &outline, u, T::zero()),
        inner: edge_at(laid, &outline, u, -T::one()),
        outer: edge_at(laid, &outline, u, T::one()),
        straight: None,
        on_bend: false,
        jaws_on_bend: [false; 2],
    }
}

/// Where a bent stay crosses the post. Its edges are those of the straight stay that it is part of there, seen square to the
/// clamp plane: exact where the post holds a straight and level stretch.
fn bent_crossing<T: Real>(
    laid: &StayGeometry<T>,
    bent: &Bent<T>,
    cut: &Stay<T>,
    u: T,
) -> Option<Crossing<T>> {
    let front = cut.front.long_point().map_or(T::zero(), Length::mm);
    let rear = cut.rear.long_point().map_or(laid.length, Length::mm);
    let within = (front.value(), rear.value());
    let station = bent.line.level(within, &laid.clamp.origin, &laid.clamp.u, u)?;
    let stretch = bent.line.stretch(station.value())?;
    let here = stretch.at(station);
    let (along, across) = (here.tangent.dot(&laid.clamp.u), here.tangent.y);
    if along.value().abs() < 1e-6 {
        return None;
    }
    let middle = here.point.y * T::of(laid.hand.sign());
    let edge = |side: f64| bent_edge(laid, station, (along, across * T::of(laid.hand.sign())), T::of(side));
    let on_bend = stretch.radius.is_some();
    let [inner, outer] = [edge(-1.0), edge(1.0)];
    let jaw = |at: T| on_bend || at.value() < stretch.from.value() || stretch.to.value() < at.value();
    let jaws_on_bend = [jaw(inner.0), jaw(outer.0)];
    let left = |end: T, tip: T, way: f64| {
        let end = if (end - tip).value() * way > 0.0 { tip } else { end };
        (end - station) * T::of(way)
    };
    let straight = [left(stretch.from, front, -1.0), left(stretch.to, rear, 1.0)];
    let straight = Some(if on_bend { [T::zero(); 2] } else { straight });
    let (inner, outer) = (middle + inner.1, middle + outer.1);
    Some(Crossing { axis: middle, inner, outer, straight, on_bend, jaws_on_bend })
}

/// The station at which the edge of a bent stay crosses a post, and how far outboard of its middle line. The
/// middle line crosses the post at `station`, running `along` the fixture and `out` from its centre line there.
fn bent_edge<T: Real>(laid: &StayGeometry<T>, station: T, (along, out): (T, T), side: T) -> (T, T) {
    let flat = (along * along + out * out).sqrt();
    // Square to the middle line as it is seen from above, outboard.
    let (square_along, square_out) = (-out * side / flat, along * side / flat);
    let outline = laid.above(station);
    let pieces = outline.pieces().iter().map(|piece| {
        let step = -piece.radius(station) * square_along / (along + piece.slope * square_along);
        let at = station + step;
        let off = at.value() - at.value().max(piece.from.value()).min(piece.to.value());
        (at, step * out + piece.radius(at) * square_out, off.abs())
    });
    let nearest = pieces.min_by(|a, b| a.2.total_cmp(&b.2));
    nearest.map_or((station, T::zero()), |(at, edge, _)| (at, edge))
}

/// How far from the centre line the tube's edge in the clamp plane crosses the post: its outboard edge for `side` 1, its
/// inboard edge for −1, its axis for 0.
fn edge_at<T: Real>(laid: &StayGeometry<T>, outline: &Outline<T>, u: T, side: T) -> T {
    let sign = T::of(laid.hand.sign());
    let (along, out) = (laid.axis.direction.dot(&laid.clamp.u), laid.axis.direction.y * sign);
    let start = laid.axis.point.y * sign;
    // Square to the axis, outboard, in the clamp plane.
    let (square_along, square_out) = (-out * side, along * side);
    let pieces = outline.pieces().iter().map(|piece| {
        let station = (u - piece.at_zero * square_along) / (along + piece.slope * square_along);
        (
            station,
            piece.radius(station),
            station.value().max(piece.from.value()).min(piece.to.value()) - station.value(),
        )
    });
    let best = pieces.min_by(|a, b| a.2.abs().total_cmp(&b.2.abs()));
    best.map_or(start, |(station, radius, _)| start + station * out + radius * square_out)
}
