//! One stay with both its ends.

use super::axes::Axes;
use super::bent_stay::{bend_warnings, bent_stay, raw_tube};
use super::cut::{Coped, cope};
use super::member::Round;
use super::notices::{Notices, mm};
use super::result::{Cut, SquareCut, Stay};
use super::setting::Found;
use super::slot::slot;
use super::stay_geometry::StayGeometry;
use super::warn::Code;
use super::which::Which;
use crate::geometry::Line;
use crate::model::{End, EndKind, Job, PairName};
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
    let mut notices = notices.at(laid.hand.key());
    let mut end = |which: Which| end(axes, job, name, laid, which, &mut notices.at(which.key()));
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
    tube_warnings(&stay, laid, &mut notices);
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
        End::Slot(figures) => Cut::Slot(slot(laid, figures, side.rear.half_spacing, &found, notices)),
        _ => Cut::Square(square(laid, which)),
    };
    (cut, None)
}

fn square<T: Real>(laid: &StayGeometry<T>, which: Which) -> SquareCut<T> {
    let station = Length::from_mm(laid.reference(which));
    SquareCut { long_point: station, short_point: station, angle: Angle::from_degrees(T::of(90.0)) }
}

/// What the raw tube has to say to the cuts.
fn tube_warnings<T: Real>(stay: &Stay<T>, laid: &StayGeometry<T>, notices: &mut Notices<'_>) {
    for (key, waste) in [("front", stay.front_waste), ("rear", stay.rear_waste)] {
        if let Some(short) = waste.filter(|waste| waste.mm().value() < 0.0) {
            let short = mm(Length::from_mm(-short.mm()));
            let message = format!("the cut lies {short} mm past the {key} end of the raw tube");
            notices.at(key).warn(Code::CutPastTubeEnd, message);
        }
    }
    for (key, cut) in [("front", &stay.front), ("rear", &stay.rear)] {
        let Some((low, high)) = cut.extent() else { continue };
        if let Some(knot) = laid.outer.knots().find(|knot| low < *knot && *knot < high) {
            let message = format!(
                "the taper begins or ends inside the cut, {} mm behind the front reference point",
                mm(Length::from_mm(knot))
            );
            notices.at(key).warn(Code::TaperInCut, message);
        }
    }
    if let (Some(front), Some(rear)) = (stay.front.short_point(), stay.rear.short_point())
        && front.mm().value() >= rear.mm().value()
    {
        notices.warn(
            Code::CutsOverlap,
            "the front cut and the rear cut meet: nothing is left between them".into(),
        );
    }
}
