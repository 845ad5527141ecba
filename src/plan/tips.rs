//! Which straight piece of a bent stay an end is cut on, and where along it the cut lies.

use super::axes::Axes;
use super::cut::edge;
use super::member::Round;
use super::stay_geometry::StayGeometry;
use super::which::Which;
use crate::geometry::Stretch;
use crate::model::{End, Frame, Side};
use crate::units::{Length, Real, ranked};

/// An end's cut along its stay.
#[derive(Clone, Copy)]
pub(crate) struct Tips<T> {
    /// Station at which the straight piece is taken that is cut.
    pub(crate) on: T,
    /// Where the end sticks out most; `None` where there is nothing to cut.
    pub(crate) long: Option<T>,
    /// Smallest and largest station of the cut; the reference point's where there is nothing to cut.
    pub(crate) extent: (f64, f64),
    /// By how much the cut clears the bends about its piece; negative where it does not.
    pub(crate) clear: f64,
}

/// The cut of an end. It lies on the straight piece that holds the whole of it, the nearest to the reference point if there
/// are several: what lies beyond is sawn off, be it bent. Where none holds it, `clear` and the extent are those of the piece
/// that comes nearest to it, and the end counts as running on as it does at its reference point.
pub(crate) fn tips<T: Real>(
    laid: &StayGeometry<T>,
    (axes, frame): (&Axes<T>, &Frame<T>),
    side: &Side<T>,
    which: Which,
) -> Tips<T> {
    let reference = laid.reference(which);
    let on = |at: T, (from, to): (f64, f64)| {
        let (long, extent) = cut_on(laid, (axes, frame), side, which, at);
        Tips { on: at, long, extent, clear: (extent.0 - from).min(to - extent.1) }
    };
    let Some(bent) = &laid.bent else { return on(reference, (f64::NEG_INFINITY, f64::INFINITY)) };
    let mut best: Option<Tips<T>> = None;
    for (at, piece) in straights(bent.line.stretches(), reference) {
        let tips = on(at, (piece.from.value(), piece.to.value()));
        if tips.clear >= 0.0 {
            return tips;
        }
        if best.is_none_or(|best| tips.clear > best.clear) {
            best = Some(tips);
        }
    }
    // A line always has straight pieces: it starts and ends with one.
    best.map_or_else(|| on(reference, (0.0, 0.0)), |best| Tips { on: reference, ..best })
}

/// The straight pieces, each with its station next to `reference`, the nearest first.
fn straights<T: Real>(stretches: &[Stretch<T>], reference: T) -> Vec<(T, &Stretch<T>)> {
    let next = |piece: &Stretch<T>| {
        if reference.value() < piece.from.value() {
            piece.from
        } else if piece.to.value() < reference.value() {
            piece.to
        } else {
            reference
        }
    };
    let all = stretches.iter().filter(|stretch| stretch.radius.is_none());
    let away = |at: T| (at - reference).value().abs();
    ranked(all.map(|piece| (next(piece), piece)), |a, b| away(a.0) <= away(b.0))
}

/// The long point and the extent of a cut on the straight piece at `at`.
fn cut_on<T: Real>(
    laid: &StayGeometry<T>,
    (axes, frame): (&Axes<T>, &Frame<T>),
    side: &Side<T>,
    which: Which,
    at: T,
) -> (Option<T>, (f64, f64)) {
    let reference = laid.reference(which);
    let end = if which == Which::Front { &side.front_end } else { &side.rear_end };
    let straight = laid.straight_at(at);
    let plain = reference.value();
    if let Some(member) = Round::of(end, frame, axes, &straight) {
        let met = edge(&straight, which, &member).and_then(|edge| edge.extreme_stations());
        let Some(((_, low), (_, high))) = met else { return (None, (plain, plain)) };
        let long = if which == Which::Front { low } else { high };
        return (Some(long), (low.value(), high.value()));
    }
    match end {
        End::Slot(slot) if which == Which::Rear => {
            let mouth = reference + slot.overhang.mm();
            (Some(mouth), ((mouth - slot.depth.mm()).value(), mouth.value()))
        }
        _ => (Some(reference), (plain, plain)),
    }
}

/// From where to where a stay of `length` reaches between its long points, where these are known and in order.
pub(crate) fn reach<T: Real>(long: [Option<T>; 2], length: T) -> (T, T) {
    let [front, rear] = long;
    let (from, to) = (front.unwrap_or(T::zero()), rear.unwrap_or(length));
    if from.value() < to.value() { (from, to) } else { (T::zero(), length) }
}

/// The same as lengths, from a plan.
pub(crate) fn reach_of<T: Real>(long: [Option<Length<T>>; 2], length: Length<T>) -> (T, T) {
    reach(long.map(|tip| tip.map(Length::mm)), length.mm())
}
