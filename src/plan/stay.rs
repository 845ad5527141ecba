//! One stay with both its ends.

use super::axes::Axes;
use super::bent_stay::{bend_warnings, bent_stay, raw_tube};
use super::cut::{Coped, cope};
use super::member::Round;
use super::notices::{Notices, length};
use super::problem::{Problem, SectionChange};
use super::result::{Cut, SquareCut, Stay};
use super::setting::Found;
use super::slot::slot;
use super::stay_geometry::StayGeometry;
use super::which::Which;
use crate::geometry::Line;
use crate::model::{End, EndKind, Job, PairName, SolveFor, Tube};
use crate::units::{Angle, Length, Real};

/// The stretch of a cutter's axis that one cut takes, from the axis' own point.
pub(super) struct Span<T: Real> {
    pub(super) axis: Line<T>,
    pub(super) radius: T,
    pub(super) low: T,
    pub(super) high: T,
}

/// The stretches of a stay's two cuts, where they are round.
pub(super) struct Spans<T: Real> {
    front: Option<Span<T>>,
    rear: Option<Span<T>>,
}

impl<T: Real> Spans<T> {
    pub(super) const fn at(&self, which: Which) -> Option<&Span<T>> {
        match which {
            Which::Front => self.front.as_ref(),
            Which::Rear => self.rear.as_ref(),
        }
    }
}

/// One stay of a pair.
pub(super) fn stay<T: Real>(
    axes: &Axes<T>,
    job: &Job<T>,
    name: PairName,
    laid: &StayGeometry<T>,
    notices: &mut Notices<'_>,
) -> (Stay<T>, Spans<T>) {
    let mut notices = notices.at_stay(laid.hand);
    let mut end = |which: Which| end(axes, job, name, laid, which, &mut notices.at_end(which));
    let ((front, front_span), (rear, rear_span)) = (end(Which::Front), end(Which::Rear));
    let axle = laid.clamp.local(&axes.axle);
    let (front_point, rear_point) = laid.reference_points();
    let (front_tip, rear_tip) = (front.long_point(), rear.long_point());
    let stay = Stay {
        length: Length::from_mm(laid.length),
        splay: laid.splay(),
        tip_to_tip: front_tip.zip(rear_tip).map(|(front, rear)| rear - front),
        slide: Length::from_mm(axle.x),
        axle_height: Length::from_mm(axle.z),
        front_point,
        rear_point,
        front_waste: front_tip.map(|tip| tip - Length::from_mm(laid.raw.0)),
        rear_waste: rear_tip.map(|tip| Length::from_mm(laid.raw.1) - tip),
        raw: raw_tube(&job.pair(name).side(laid.hand).tube, laid, [front_tip, rear_tip]),
        bent: bent_stay(laid),
        hand: laid.hand,
        clamp: laid.clamp,
        front,
        rear,
    };
    let tube = &job.pair(name).side(laid.hand).tube;
    tube_warnings(&stay, laid, tube, &mut notices);
    unused_warnings(tube, &mut notices);
    bend_warnings(&stay, laid, &mut notices);
    (stay, Spans { front: front_span, rear: rear_span })
}

fn end<T: Real>(
    axes: &Axes<T>,
    job: &Job<T>,
    name: PairName,
    laid: &StayGeometry<T>,
    which: Which,
    notices: &mut Notices<'_>,
) -> (Cut<T>, Option<Span<T>>) {
    let side = job.pair(name).side(laid.hand);
    let end = if which == Which::Front { &side.front_end } else { &side.rear_end };
    let laid = &*laid.straight_at(laid.cut_at(which));
    let found = Found { clamp: laid.clamp, fixture: &job.fixture, touch: &job.touch };
    if let Some(member) = Round::of(end, &job.frame, axes, laid) {
        let Coped { cut, span } = cope(laid, which, &member, &found, notices);
        let span =
            span.map(|(low, high)| Span { axis: member.cut.axis, radius: member.cut.radius, low, high });
        let kind = if end.kind() == EndKind::Boss { Cut::Boss } else { Cut::Cope };
        return (kind(cut), span);
    }
    let cut = match end {
        End::Slot(figures) => {
            let middle = side.rear.half_spacing - job.stay_offset(name, laid.hand);
            Cut::Slot(slot(laid, figures, middle, &found, notices))
        }
        _ => Cut::Square(square(laid, which)),
    };
    (cut, None)
}

fn square<T: Real>(laid: &StayGeometry<T>, which: Which) -> SquareCut<T> {
    let station = Length::from_mm(laid.reference(which));
    SquareCut { long_point: station, short_point: station, angle: Angle::from_degrees(T::of(90.0)) }
}

/// What the raw tube has to say to the cuts.
fn tube_warnings<T: Real>(stay: &Stay<T>, laid: &StayGeometry<T>, tube: &Tube<T>, notices: &mut Notices<'_>) {
    for (which, waste) in [(Which::Front, stay.front_waste), (Which::Rear, stay.rear_waste)] {
        if let Some(short) = waste.map(length).filter(|waste| waste.mm() < 0.0) {
            notices.at_end(which).warn(Problem::CutPastTubeEnd { by: -short });
        }
    }
    for (which, cut) in [(Which::Front, &stay.front), (Which::Rear, &stay.rear)] {
        let Some((low, high)) = cut.extent() else { continue };
        if let Some(knot) = laid.outer.knots().find(|knot| low < *knot && *knot < high) {
            let (change, station) = (section_change(laid, tube, knot), Length::from_mm(knot));
            notices.at_end(which).warn(Problem::SectionChangesInCut { change, station });
        }
    }
    if let (Some(front), Some(rear)) = (stay.front.short_point(), stay.rear.short_point())
        && front.mm().value() >= rear.mm().value()
    {
        notices.warn(Problem::CutsOverlap);
    }
}

/// What the tube says without any effect.
fn unused_warnings<T: Real>(tube: &Tube<T>, notices: &mut Notices<'_>) {
    if tube.bends.list.is_empty() && tube.bends.find != SolveFor::Nothing {
        notices.warn(Problem::NothingToFind);
    }
    let wall = length(tube.wall);
    let butted = !tube.butts.list.is_empty();
    if butted && tube.butts.list.iter().all(|butt| length(butt.wall) != wall) {
        notices.warn(Problem::WallUnused { wall });
    }
}

/// What changes the section at that station: the taper where it begins or ends there, else an oval.
fn section_change<T: Real>(laid: &StayGeometry<T>, tube: &Tube<T>, station: f64) -> SectionChange {
    let on_tube = station - laid.raw.0.value();
    let is_here = |place: Length<T>| (place.mm().value() - on_tube).abs() < 1e-9;
    let tapers = tube.od_front.mm().value() != tube.od_rear.mm().value();
    if tapers && (is_here(tube.taper_start) || is_here(tube.taper_end)) {
        SectionChange::Taper
    } else {
        SectionChange::Oval
    }
}
