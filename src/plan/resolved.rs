//! A job with every figure that follows from its dropouts in its place.

use super::axes::Axes;
use super::clamp::ClampFrame;
use super::held::hub_face;
use crate::model::{
    Boss, Derived, Dropout, Dropouts, End, Entered, Frame, Hand, Job, PairName, RearPoint, Side, Slot,
};
use crate::units::{Length, Real};
use nalgebra::Vector3;
use std::borrow::Cow;

/// What a job's stays are planned with: its own figures, and where its dropouts say one that is not entered, theirs. The left
/// stay stands by itself where its dropout or the axle's offset makes it differ from the right one.
///
/// A job without dropouts comes back as it is; one that is resolved comes back the same. The job must be without faults.
pub(crate) fn resolved<T: Real>(job: &Job<T>) -> Cow<'_, Job<T>> {
    let Some(dropouts) = &job.dropouts else { return Cow::Borrowed(job) };
    let axes = Axes::new(&job.frame);
    let unlike = dropouts.left.is_some() || job.frame.axle_offset.mm().value() != 0.0;
    let mut resolved = job.clone();
    for name in PairName::ALL {
        let [right, left] = Hand::ALL.map(|hand| follow(&axes, job, dropouts, name, hand));
        let [of_right, of_left] = Hand::ALL.map(|hand| dropouts.entered(name, hand));
        let pair = resolved.pair_mut(name);
        put(&mut pair.right, &right, of_right);
        if let Some(side) = pair.left.or_else(|| unlike.then_some(pair.right)) {
            let mut side = side;
            put(&mut side, &of_stay(&pair.right), of_left);
            put(&mut side, &left, of_left.or(of_right));
            pair.left = Some(side);
        }
    }
    Cow::Owned(resolved)
}

/// What a stay's rear end and its reference point are made of.
struct RearFigures<T> {
    point: RearPoint<T>,
    end: End<T>,
}

const fn of_stay<T: Copy>(side: &Side<T>) -> RearFigures<T> {
    RearFigures { point: side.rear, end: side.rear_end }
}

/// What follows from a dropout for a stay.
fn follow<T: Real>(
    axes: &Axes<T>,
    job: &Job<T>,
    dropouts: &Dropouts<T>,
    name: PairName,
    hand: Hand,
) -> RearFigures<T> {
    let dropout = dropouts.side(hand);
    let tab = dropout.tab(name);
    let along = tab_direction(axes, job, dropout, name);
    let point = along * tab.distance.mm() + Vector3::y().cross(&along) * tab.off_axle.mm();
    let frame = pair_frame(axes, job, name);
    RearFigures {
        point: RearPoint {
            half_spacing: middle(&job.frame, dropout, hand) + tab.stay_offset,
            rise: Length::from_mm(point.dot(&frame.w)),
            reach: Length::from_mm(-point.dot(&frame.u)),
        },
        end: end(dropout, name),
    }
}

/// The rear end that a dropout needs.
fn end<T: Real>(dropout: &Dropout<T>, name: PairName) -> End<T> {
    match dropout {
        Dropout::Plate(part) => {
            let tab = part.tab(name);
            End::Slot(Slot {
                plate: part.body.thickness,
                depth: tab.depth,
                overhang: tab.overhang,
                plate_splay: tab.plate_splay,
                clearance: tab.clearance,
            })
        }
        Dropout::Round(part) => End::Boss(Boss { diameter: part.od }),
        Dropout::Socket(_) => End::Square,
    }
}

/// Puts the figures of `from` that are not `entered` into a side.
fn put<T: Real>(side: &mut Side<T>, from: &RearFigures<T>, entered: Entered) {
    let set = |figure: Derived, here: &mut Length<T>, value: Length<T>| {
        if !entered.has(figure) {
            *here = value;
        }
    };
    let RearPoint { half_spacing, rise, reach } = from.point;
    set(Derived::HalfSpacing, &mut side.rear.half_spacing, half_spacing);
    set(Derived::Rise, &mut side.rear.rise, rise);
    set(Derived::Reach, &mut side.rear.reach, reach);
    match (&mut side.rear_end, &from.end) {
        (End::Slot(slot), End::Slot(part)) => {
            set(Derived::Plate, &mut slot.plate, part.plate);
            set(Derived::Depth, &mut slot.depth, part.depth);
            set(Derived::Overhang, &mut slot.overhang, part.overhang);
            set(Derived::Clearance, &mut slot.clearance, part.clearance);
            if !entered.has(Derived::PlateSplay) {
                slot.plate_splay = part.plate_splay;
            }
        }
        (End::Boss(boss), End::Boss(part)) => set(Derived::Boss, &mut boss.diameter, part.diameter),
        _ => {}
    }
}

/// From a pair's front datum to the axle: the frame that reach and rise are counted in.
pub(super) fn pair_frame<T: Real>(axes: &Axes<T>, job: &Job<T>, name: PairName) -> ClampFrame<T> {
    let datum = axes.front_datum(job, name);
    ClampFrame::new(datum, axes.axle - datum)
}

/// The way a tab points from the axle, in side view, length 1.
pub(super) fn tab_direction<T: Real>(
    axes: &Axes<T>,
    job: &Job<T>,
    dropout: &Dropout<T>,
    name: PairName,
) -> Vector3<T> {
    let chainstays = pair_frame(axes, job, PairName::Chainstays);
    let turned = |angle: T| {
        let (sin, cos) = angle.sin_cos();
        chainstays.w * sin - chainstays.u * cos
    };
    let turn = dropout.turn().radians();
    match (name, dropout, dropout.tabs()) {
        (PairName::Chainstays, ..) | (_, Dropout::Round(_), _) => turned(turn),
        (PairName::Seatstays, _, Some(tabs)) => turned(turn + tabs.radians()),
        (PairName::Seatstays, _, None) => -pair_frame(axes, job, name).u,
    }
}

/// The middle of a dropout's thickness, outboard of the centre plane, where its face or recess lies on the hub's face.
pub(super) fn middle<T: Real>(frame: &Frame<T>, dropout: &Dropout<T>, hand: Hand) -> Length<T> {
    let half = Length::from_mm(dropout.width().mm() * T::of(0.5));
    hub_face(frame, hand) - dropout.recess() + half
}
