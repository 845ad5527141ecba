//! One pair of stays.

use super::axes::Axes;
use super::body::{mirrored_straight_apart, stays_apart};
use super::hub::{RearEnd, hub_warnings};
use super::notices::{Notices, length};
use super::posts::{Both, posts};
use super::problem::{OutOfRange, Problem, Warning};
use super::result::{Cut, Pair, Stay};
use super::stay::{Spans, stay};
use super::stay_geometry::StayGeometry;
use super::which::Which;
use crate::geometry::Pipe;
use crate::model::{FixtureDatum, Hand, Job, PairName};
use crate::units::{Length, Real};

/// A pair, from its two laid stays, right first.
pub(super) fn pair<T: Real>(
    axes: &Axes<T>,
    job: &Job<T>,
    name: PairName,
    laid: &[StayGeometry<T>; 2],
    warnings: &mut Vec<Warning>,
) -> Pair<T> {
    let mut notices = Notices::new(warnings, name);
    let one_plane = shares_plane(job, name);
    if !one_plane {
        notices.warn(Problem::SidesApart(name));
    }
    let [(right, right_spans), (left, left_spans)] =
        laid.each_ref().map(|laid| stay(axes, job, name, laid, &mut notices));
    let [right_laid, left_laid] = laid;
    let both = Both { laid: [right_laid, left_laid], cut: [&right, &left], one_plane };
    let posts = posts(&job.fixture.posts, &both, &mut notices);
    let room_between = room_between(&both, Cut::long_point);
    if room_between.mm().value() < 0.0 {
        collision_warning(room_between, &both, &mut notices);
    }
    let [right_end, left_end] =
        [(right_laid, &right, &right_spans), (left_laid, &left, &left_spans)].map(|(laid, stay, spans)| {
            RearEnd { laid, stay, side: job.pair(name).side(stay.hand), span: spans.at(Which::Rear) }
        });
    hub_warnings(job, name, [right_end, left_end], &mut notices);
    range_warnings(&right, &left, one_plane, &job.fixture.bench, &mut notices);
    let saw = |which| if one_plane { shared_depth(&right_spans, &left_spans, which) } else { None };
    Pair {
        slide: right.slide,
        axle_height: right.axle_height,
        one_plane,
        posts,
        front_saw_depth: saw(Which::Front),
        rear_saw_depth: saw(Which::Rear),
        room_between,
        right,
        left,
    }
}

/// Between a long and a short point a cut has taken part of the tube away: what meets only there need not.
fn collision_warning<T: Real>(room: Length<T>, both: &Both<'_, T>, notices: &mut Notices<'_>) {
    let at_cut_ends = room_between(both, Cut::short_point).mm().value() >= 0.0;
    notices.warn(Problem::StaysCollide { depth: -length(room), at_cut_ends });
}

/// Left and right lie in one plane when their rises and reaches agree.
fn shares_plane<T: Real>(job: &Job<T>, name: PairName) -> bool {
    let pair = job.pair(name);
    pair.left.as_ref().is_none_or(|left| {
        let right = &pair.right;
        left.front.rise == right.front.rise
            && left.rear.rise == right.rear.rise
            && left.rear.reach == right.rear.reach
    })
}

/// What the saw must reach to cut both ends in one pass: they share its axis and its size.
fn shared_depth<T: Real>(right: &Spans<T>, left: &Spans<T>, which: Which) -> Option<Length<T>> {
    let (a, b) = (right.at(which)?, left.at(which)?);
    let apart =
        (a.axis.point - b.axis.point).norm_squared() + (a.axis.direction - b.axis.direction).norm_squared();
    if apart.value() > 0.0 || a.radius.value() != b.radius.value() {
        return None;
    }
    let low = if a.low.value() < b.low.value() { a.low } else { b.low };
    let high = if a.high.value() > b.high.value() { a.high } else { b.high };
    Some(Length::from_mm(high - low))
}

/// Which point of a cut counts as the stay's end.
type EndPoint<T> = fn(&Cut<T>) -> Option<Length<T>>;

fn room_between<T: Real>(both: &Both<'_, T>, end: EndPoint<T>) -> Length<T> {
    let [right, left] = both.laid;
    let [right_ends, left_ends] = [0, 1].map(|i| kept(both, i, end));
    let lines = both.laid.map(StayGeometry::line);
    let [one, other] = [(right, &lines[0], right_ends), (left, &lines[1], left_ends)]
        .map(|(laid, line, (from, to))| Pipe { line, outline: &laid.outer, from, to });
    let straight = right.bent.is_none() && left.bent.is_none();
    let simple = straight && !right.outer.is_oval() && !left.outer.is_oval();
    let told = simple.then(|| mirrored_straight_apart(&one, &other)).flatten();
    let apart = || stays_apart(&one, &other).map_or(T::zero(), |(closest, _)| closest.distance);
    Length::from_mm(told.unwrap_or_else(apart))
}

/// What the two cuts leave of a stay, from its one end to the other.
fn kept<T: Real>(both: &Both<'_, T>, i: usize, end: EndPoint<T>) -> (T, T) {
    let (Some(laid), Some(cut)) = (both.laid.get(i), both.cut.get(i)) else { return (T::zero(), T::zero()) };
    let from = end(&cut.front).map_or(T::zero(), Length::mm);
    let to = end(&cut.rear).map_or(laid.length, Length::mm);
    // Cuts that overlap leave no stay; its axis still says how near the tubes come.
    if from.value() < to.value() { (from, to) } else { (T::zero(), laid.length) }
}

/// Readings that the fixture cannot be set to; where each side has its own, both are looked at.
fn range_warnings<T: Real>(
    right: &Stay<T>,
    left: &Stay<T>,
    one_plane: bool,
    bench: &FixtureDatum<T>,
    notices: &mut Notices<'_>,
) {
    let sides: &[(Option<Hand>, &Stay<T>)] =
        if one_plane { &[(None, right)] } else { &[(Some(Hand::Right), right), (Some(Hand::Left), left)] };
    for (hand, stay) in sides {
        let outside = |reading: Length<T>, min: Length<T>, max: Length<T>| {
            let (reading, min, max) = (length(reading), length(min), length(max));
            (reading < min || max < reading).then_some(OutOfRange { hand: *hand, reading, min, max })
        };
        let slide = outside(stay.slide, bench.slide_min, bench.slide_max).map(Problem::SlideOutOfRange);
        let height = outside(stay.axle_height, bench.axle_height_min, bench.axle_height_max);
        slide.into_iter().chain(height.map(Problem::AxleHeightOutOfRange)).for_each(|one| notices.warn(one));
    }
}
