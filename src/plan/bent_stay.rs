//! What a plan says of a bent or butted tube beyond its cuts.

use super::bent::{BendPlace, BentStay, RawTube};
use super::notices::Notices;
use super::problem::Problem;
use super::result::Stay;
use super::stay_geometry::{Bent, StayGeometry};
use super::which::Which;
use crate::geometry::Stretch;
use crate::model::Tube;
use crate::units::{Angle, Length, Real};

/// A bend of less than this many diameters on its middle line wants a mandrel or a filled tube. Common practice, no source.
const EASY: f64 = 3.0;

/// What lies where on the raw tube; `None` for a straight tube with a plain wall. `tips` are the long points' stations.
pub(super) fn raw_tube<T: Real>(
    tube: &Tube<T>,
    laid: &StayGeometry<T>,
    tips: [Option<Length<T>>; 2],
) -> Option<RawTube<T>> {
    if laid.bent.is_none() && tube.butts.list.is_empty() {
        return None;
    }
    let from_front = |station: T| Length::from_mm(station - laid.raw.0);
    let ends = [Which::Front, Which::Rear].map(|which| laid.reference(which));
    let [front, rear] = [tips[0].map_or(ends[0], Length::mm), tips[1].map_or(ends[1], Length::mm)];
    let butts = (tube.butts.list.iter().next(), tube.butts.list.iter().next_back());
    let several = tube.butts.list.len() > 1;
    Some(RawTube {
        front_mark: from_front(ends[0]),
        rear_mark: from_front(ends[1]),
        long_enough: front.value() >= laid.raw.0.value() && rear.value() <= laid.raw.1.value(),
        front_butt: butts.0.filter(|_| several).map(|butt| butt.at - from_front(front)),
        rear_butt: butts.1.filter(|_| several).map(|butt| from_front(rear) - butt.at),
    })
}

/// How a bent stay lies; `None` for a straight one.
pub(super) fn bent_stay<T: Real>(laid: &StayGeometry<T>) -> Option<BentStay<T>> {
    let bent = laid.bent.as_ref()?;
    let direction = |which| bent.line.at(laid.cut_at(which)).tangent;
    Some(BentStay {
        trim: Length::from_mm(bent.placement.trim),
        roll: Angle::from_radians(bent.placement.roll),
        spare: bent.found.map(|found| found.spare),
        spare_within: bent.found.map(|found| found.within),
        search_complete: bent.found.map(|found| found.complete),
        chord: Length::from_mm(bent.chord),
        front_direction: direction(Which::Front),
        rear_direction: direction(Which::Rear),
        bends: bent.line.arcs().map(|arc| bend_place(laid, arc)).collect(),
        line: bent.line.clone(),
    })
}

fn bend_place<T: Real>(laid: &StayGeometry<T>, arc: &Stretch<T>) -> BendPlace<T> {
    let station = (arc.from + arc.to) * T::of(0.5);
    let apex = laid.clamp.local(&arc.at(station).point);
    BendPlace {
        from: Length::from_mm(arc.from),
        apex: Length::from_mm(station),
        to: Length::from_mm(arc.to),
        along: Length::from_mm(apex.x),
        from_plane: Length::from_mm(apex.z),
        from_centre: Length::from_mm(apex.y * T::of(laid.hand.sign())),
    }
}

/// Bends where a cut, a taper or the tube itself wants none.
pub(super) fn bend_warnings<T: Real>(stay: &Stay<T>, laid: &StayGeometry<T>, notices: &mut Notices<'_>) {
    let Some(bent) = &laid.bent else { return };
    for (which, cut) in [(Which::Front, &stay.front), (Which::Rear, &stay.rear)] {
        let reference = laid.reference(which).value();
        let extent = cut.extent().unwrap_or((reference, reference));
        if let Some(problem) = bend_over(bent, laid.cut_at(which).value(), which, extent) {
            notices.at_end(which).warn(problem);
        }
    }
    for (number, arc) in (1..).zip(bent.line.arcs()) {
        arc_warnings(laid, number, arc, notices);
    }
    taper_warning(laid, bent, notices);
}

fn taper_warning<T: Real>(laid: &StayGeometry<T>, bent: &Bent<T>, notices: &mut Notices<'_>) {
    let tapers = |arc: &Stretch<T>| laid.outer.radius(arc.from).value() != laid.outer.radius(arc.to).value();
    let bends: Vec<u32> =
        (1..).zip(bent.line.arcs()).filter(|(_, arc)| tapers(arc)).map(|(number, _)| number).collect();
    if !bends.is_empty() {
        notices.warn(Problem::TaperInBends(bends));
    }
}

/// The bend that reaches furthest into a cut whose end runs as it does `at` there; `None` where all of the cut
/// lies on that straight piece. Of the two ways out the shorter one is told.
fn bend_over<T: Real>(bent: &Bent<T>, at: f64, which: Which, (low, high): (f64, f64)) -> Option<Problem> {
    let holds = |piece: &Stretch<T>| {
        let (from, to) = (piece.from.value(), piece.to.value());
        piece.radius.is_none() && from <= at.min(low) && at.max(high) <= to
    };
    if bent.line.stretches().iter().any(holds) {
        return None;
    }
    // How far the bend must go towards the stay's middle, and how far towards its end.
    let ways = |arc: &Stretch<T>| match which {
        Which::Front => (high - arc.from.value(), arc.to.value() - low),
        Which::Rear => (arc.to.value() - low, high - arc.from.value()),
    };
    let deepest = bent.line.arcs().map(ways).max_by(|a, b| a.0.min(a.1).total_cmp(&b.0.min(b.1)));
    let (inwards, outwards) = deepest?;
    let by = |over: f64| Length::from_mm(over.max(0.0));
    Some(if inwards <= outwards {
        Problem::BendBeginsInCut { by: by(inwards) }
    } else {
        Problem::BendEndsInCut { by: by(outwards) }
    })
}

fn arc_warnings<T: Real>(laid: &StayGeometry<T>, number: u32, arc: &Stretch<T>, notices: &mut Notices<'_>) {
    let (from, to) = (arc.from.value(), arc.to.value());
    let radius = arc.radius.map_or(0.0, |radius| radius.value());
    let diameter = 2.0 * laid.outer.radius(arc.from).value().max(laid.outer.radius(arc.to).value());
    if radius < EASY * diameter {
        let (radius, diameter) = (Length::from_mm(radius), Length::from_mm(diameter));
        notices.warn(Problem::TightBend { number, radius, diameter });
    }
    if from < laid.raw.0.value() || laid.raw.1.value() < to {
        notices.warn(Problem::BendPastTubeEnd { number });
    }
}
