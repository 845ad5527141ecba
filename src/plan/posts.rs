//! What is read at the clamp posts.

use super::lay::Laid;
use super::notices::{Notices, mm};
use super::result::{Post, Stay};
use super::warn::Code;
use crate::quantity::{Length, Real};

/// Both stays of a pair, as laid and as cut.
pub(super) struct Both<'a, T: Real> {
    pub(super) laid: [&'a Laid<T>; 2],
    pub(super) cut: [&'a Stay<T>; 2],
    pub(super) one_plane: bool,
}

/// Where a stay crosses a post, from the centre line outwards.
#[derive(Clone, Copy)]
struct Crossing<T> {
    axis: T,
    inner: T,
    outer: T,
}

/// The readings at every post.
pub(super) fn posts<T: Real>(
    stations: &[Length<T>],
    both: &Both<'_, T>,
    notices: &mut Notices<'_>,
) -> Vec<Post<T>> {
    stations.iter().map(|u| post(*u, both, notices)).collect()
}

fn post<T: Real>(u: Length<T>, both: &Both<'_, T>, notices: &mut Notices<'_>) -> Post<T> {
    let [right, left] = [0, 1].map(|i| {
        let (laid, cut) = (both.laid.get(i)?, both.cut.get(i)?);
        reaches(laid, cut, u).then(|| crossing(laid, u.mm()))
    });
    if right.is_none() || left.is_none() {
        let which = match (right, left) {
            (None, None) => "neither stay reaches",
            (None, _) => "the right stay does not reach",
            _ => "the left stay does not reach",
        };
        notices.warn(Code::PostOffStay, format!("{which} the post at {} mm", mm(u)));
    }
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
    }
}

/// Whether the finished stay, between its long points, lies at the post.
fn reaches<T: Real>(laid: &Laid<T>, cut: &Stay<T>, u: Length<T>) -> bool {
    let station = u.mm().value() / laid.axis.direction.dot(&laid.clamp.u).value();
    let front = cut.front.long_point().map_or(0.0, |s| s.mm().value());
    let rear = cut.rear.long_point().map_or(laid.length.value(), |s| s.mm().value());
    front <= station && station <= rear
}

fn crossing<T: Real>(laid: &Laid<T>, u: T) -> Crossing<T> {
    Crossing {
        axis: edge_at(laid, u, T::zero()),
        inner: edge_at(laid, u, -T::one()),
        outer: edge_at(laid, u, T::one()),
    }
}

/// How far from the centre line the tube's edge in the clamp plane crosses the post: its outboard edge for `side` 1, its
/// inboard edge for −1, its axis for 0.
fn edge_at<T: Real>(laid: &Laid<T>, u: T, side: T) -> T {
    let sign = T::of(laid.hand.sign());
    let (along, out) = (laid.axis.direction.dot(&laid.clamp.u), laid.axis.direction.y * sign);
    let start = laid.axis.point.y * sign;
    // Square to the axis, outboard, in the clamp plane.
    let (square_along, square_out) = (-out * side, along * side);
    let pieces = laid.outer.pieces().iter().map(|piece| {
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
